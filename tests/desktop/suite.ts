// What the extension does inside VS Code, asked through the editor's own commands. The same suite runs in a
// desktop VS Code (`npm run test:desktop`) and in the one that is served to a browser (`npm run test:editor`).
import assert from "node:assert/strict";
import * as vscode from "vscode";

const pouch = `Body
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc) x6 (18)
`;

/** Of each, what it shows and how: a name, and work that throws where it does not hold. */
const checks: readonly (readonly [string, () => Promise<void>])[] = [
  ["a right pattern has no findings", rightIsQuiet],
  ["a slip is found, and goes when it is mended by what is offered", slipIsMended],
  ["a hover tells the numbers of a row and its proof", hoverTells],
  ["the proof of a row is copied", proofIsCopied],
  ["the queries are copied", queriesAreCopied],
  ["a rule is put off and on by a setting", settingIsHeard],
  ["a piece has a lens", pieceHasLens],
  ["a pattern is turned into UK terms and back", termsAreTurned],
  ["a pattern is tidied, and no count with it", patternIsTidied],
  ["the next round is offered with its count", nextRoundIsOffered],
  ["a yarn is given another name wherever it is named", yarnIsRenamed],
  ["the page to read before publishing opens beside the pattern", publishingPageOpens],
  ["a task checks the patterns of the folder", taskChecksFolder],
];

/** Runs all checks, one after another; throws with the names of those that failed. */
export async function run(): Promise<void> {
  const failed: string[] = [];
  for (const [name, check] of checks) {
    try {
      await check();
    } catch (fault) {
      failed.push(`${name}: ${fault instanceof Error ? fault.message : fault}`);
    }
    await vscode.commands.executeCommand("workbench.action.revertAndCloseActiveEditor");
  }
  if (failed.length > 0)
    throw new Error(`${failed.length} of ${checks.length} failed:\n${failed.join("\n")}`);
}

/** The way into the suite for an editor that loads it as an extension: tells the outcome in a file. */
export async function activate(): Promise<void> {
  const outcome = await run().then(
    () => "passed",
    (fault) => String(fault),
  );
  const file = process.env.LOOPLEDGER_SUITE_RESULT;
  if (file) await vscode.workspace.fs.writeFile(vscode.Uri.file(file), Buffer.from(outcome));
}

async function shown(content: string): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument({ language: "crochet", content });
  await vscode.window.showTextDocument(document);
  return document;
}

/** Waits for something to hold; says what was there instead when the time is up. */
async function until<T>(get: () => T | PromiseLike<T>, holds: (value: T) => boolean): Promise<T> {
  const end = Date.now() + 30_000;
  for (;;) {
    const value = await get();
    if (holds(value)) return value;
    if (Date.now() > end) throw new Error(`Waited in vain; there was ${JSON.stringify(value)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

function findings({ uri }: vscode.TextDocument): readonly vscode.Diagnostic[] {
  return vscode.languages.getDiagnostics(uri);
}

const errors = (found: readonly vscode.Diagnostic[]) =>
  found.filter(({ severity }) => severity === vscode.DiagnosticSeverity.Error);

async function rightIsQuiet(): Promise<void> {
  const document = await shown(pouch);
  // The lens is an answer of the server to this very text: by then it has been read.
  await lensesOf(document);
  assert.deepEqual(errors(findings(document)), []);
}

async function slipIsMended(): Promise<void> {
  const document = await shown(pouch.replace("inc) x6", "inc) x5"));
  const [slip] = await until(
    () => findings(document),
    (found) => errors(found).length === 1,
  );
  assert.match(slip?.message ?? "", /needs 10 stitches; Rnd 2 has 12/);
  const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
    "vscode.executeCodeActionProvider",
    document.uri,
    slip?.range,
    vscode.CodeActionKind.QuickFix.value,
    20,
  );
  const mend = actions.find(({ title }) => title === 'Change "x5" to "x6"');
  assert.ok(mend?.edit, `offered: ${actions.map(({ title }) => title).join(", ")}`);
  await vscode.workspace.applyEdit(mend.edit);
  assert.equal(document.getText(), pouch);
  await until(
    () => findings(document),
    (found) => errors(found).length === 0,
  );
}

async function hoverTells(): Promise<void> {
  const document = await shown(pouch);
  const text = await until(
    () => hoverAt(document, new vscode.Position(3, 1)),
    (found) => found !== "",
  );
  // 12 stitches below, 6 more made: 18.
  assert.match(text, /12/);
  assert.match(text, /18/);
}

async function hoverAt({ uri }: vscode.TextDocument, place: vscode.Position): Promise<string> {
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
    "vscode.executeHoverProvider",
    uri,
    place,
  );
  return hovers
    .flatMap(({ contents }) => contents)
    .map((part) => (typeof part === "string" ? part : part.value))
    .join("\n");
}

async function proofIsCopied(): Promise<void> {
  await shown(pouch);
  const editor = vscode.window.activeTextEditor as vscode.TextEditor;
  editor.selection = new vscode.Selection(3, 1, 3, 1);
  assert.match(await copiedBy("loopledger.copyProof"), /Rnd 3/);
}

async function queriesAreCopied(): Promise<void> {
  const document = await shown(pouch.replace("(12)", "(13)"));
  await until(
    () => findings(document),
    (found) => errors(found).length === 1,
  );
  assert.match(await copiedBy("loopledger.copyQueries"), /^1\. .*Rnd 2 makes 12/);
}

/** What a command leaves in the clipboard; another text is put there first. */
async function copiedBy(command: string): Promise<string> {
  await vscode.env.clipboard.writeText("nothing yet");
  await vscode.commands.executeCommand(command);
  return until(
    () => vscode.env.clipboard.readText(),
    (text) => text !== "nothing yet",
  );
}

async function settingIsHeard(): Promise<void> {
  const document = await shown(pouch.replace("(12)", "(13)"));
  await until(
    () => findings(document),
    (found) => errors(found).length === 1,
  );
  const settings = vscode.workspace.getConfiguration("loopledger.rules");
  await settings.update("wrong-count", "off", vscode.ConfigurationTarget.Global);
  await until(
    () => findings(document),
    (found) => errors(found).length === 0,
  );
  await settings.update("wrong-count", undefined, vscode.ConfigurationTarget.Global);
  await until(
    () => findings(document),
    (found) => errors(found).length === 1,
  );
}

async function pieceHasLens(): Promise<void> {
  const titles = await lensesOf(await shown(pouch));
  // 6 + 12 + 18.
  assert.match(titles, /36 sts/);
}

function lensesOf({ uri }: vscode.TextDocument): Promise<string> {
  const titles = async () => {
    const lenses = await vscode.commands.executeCommand<vscode.CodeLens[]>(
      "vscode.executeCodeLensProvider",
      uri,
      20,
    );
    return (lenses ?? []).map(({ command }) => command?.title ?? "").join("\n");
  };
  return until(titles, (text) => text !== "");
}

async function termsAreTurned(): Promise<void> {
  const document = await shown(`Terms: US\n\n${pouch}`);
  await vscode.commands.executeCommand("loopledger.turnIntoUk");
  await until(
    () => document.getText(),
    (text) => text.includes("Rnd 1: 6 dc in mr (6)") && text.includes("Terms: UK"),
  );
  await vscode.commands.executeCommand("loopledger.turnIntoUs");
  await until(
    () => document.getText(),
    (text) => text === `Terms: US\n\n${pouch}`,
  );
}

async function patternIsTidied(): Promise<void> {
  const document = await shown(pouch);
  const settings = vscode.workspace.getConfiguration("loopledger.style");
  await settings.update("rows", "written-out", vscode.ConfigurationTarget.Global);
  const tidied = async () => {
    const edits = await vscode.commands.executeCommand<vscode.TextEdit[] | undefined>(
      "vscode.executeFormatDocumentProvider",
      document.uri,
      { insertSpaces: true, tabSize: 2 },
    );
    return edits ?? [];
  };
  const change = new vscode.WorkspaceEdit();
  change.set(document.uri, await until(tidied, (edits) => edits.length > 0));
  await vscode.workspace.applyEdit(change);
  await settings.update("rows", undefined, vscode.ConfigurationTarget.Global);
  assert.match(document.getText(), /^Round 3: \*sc, inc; rep from \* 5 more times \(18\)$/m);
  assert.deepEqual(errors(findings(document)), []);
}

async function nextRoundIsOffered(): Promise<void> {
  const document = await shown(`${pouch}\n`.replace("\n\n", "\n"));
  const end = document.lineAt(document.lineCount - 1).range.end;
  const texts = async () => {
    const list = await vscode.commands.executeCommand<vscode.CompletionList>(
      "vscode.executeCompletionItemProvider",
      document.uri,
      end,
      undefined,
      50,
    );
    return list.items.map(({ insertText, label }) =>
      typeof insertText === "string" ? insertText : (insertText?.value ?? `${label}`),
    );
  };
  // Six more each round: 6, 12, 18, 24 (common practice, no source).
  await until(texts, (found) => found.some((text) => /Rnd 4: .*24/.test(text)));
}

async function yarnIsRenamed(): Promise<void> {
  const document = await shown(`Yarns\nA: sand\nB: navy\n\n${pouch.replace("Rnd 3:", "Rnd 3: With B,")}`);
  const at = document.positionAt(document.getText().indexOf("B: navy"));
  const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
    "vscode.executeDocumentRenameProvider",
    document.uri,
    at,
    "C",
  );
  await vscode.workspace.applyEdit(edit);
  assert.match(document.getText(), /^C: navy$/m);
  assert.match(document.getText(), /^Rnd 3: With C,/m);
}

async function publishingPageOpens(): Promise<void> {
  await shown(pouch);
  await vscode.commands.executeCommand("loopledger.checkBeforePublishing");
  const pages = () =>
    vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs.map(({ label }) => label)).join("\n");
  await until(pages, (labels) => /publish/i.test(labels));
}

/** As `loopledger check` ends: 0 or 1 by what is in the folder, 2 only where it could not be done. */
async function taskChecksFolder(): Promise<void> {
  const [task] = await vscode.tasks.fetchTasks({ type: "loopledger" });
  assert.ok(task, "a task is offered for the folder");
  const ended = new Promise<number | undefined>((resolve) => {
    vscode.tasks.onDidEndTaskProcess(({ execution, exitCode }) => {
      if (execution.task.name === task.name) resolve(exitCode);
    });
  });
  await vscode.tasks.executeTask(task);
  assert.ok([0, 1].includes((await ended) ?? 2), `the task ended with ${await ended}`);
}
