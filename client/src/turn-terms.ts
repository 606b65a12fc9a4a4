import { l10n, type Range, type TextEditor, WorkspaceEdit, window, workspace } from "vscode";
import type { BaseLanguageClient, TextEdit } from "vscode-languageclient";
import { tell } from "./tell";

/** `edits` is null where the pattern is in these terms already, or cannot be turned: `reason` says why. */
interface Turned {
  readonly edits: readonly TextEdit[] | null;
  readonly reason?: string;
  readonly left: readonly string[];
}

/** A part of a pattern. */
interface Stretch {
  readonly editor: TextEditor;
  readonly range: Range;
}

/** Turns a stretch, else the selection of the pattern in front, else all of it, into other terms; one step to undo. */
export async function turnTerms(
  client: BaseLanguageClient,
  to: "US" | "UK",
  stretch?: Stretch,
): Promise<void> {
  const editor = stretch?.editor ?? window.activeTextEditor;
  if (editor?.document.languageId !== "crochet")
    return tell(l10n.t("Open the pattern to turn, and try again."));
  const { document } = editor;
  const { version } = document;
  const within = { editor, range: stretch?.range ?? editor.selection };
  const { edits, left, reason } = await askFor(within, client, to);
  if (reason !== undefined) return tell(l10n.t("Nothing was turned. {0}", reason));
  if (edits === null) return tell(l10n.t("The pattern is in {0} terms already, so nothing was changed.", to));
  if (document.version !== version)
    return tell(l10n.t("The pattern was changed meanwhile, so nothing was turned. Try again."));
  const change = new WorkspaceEdit();
  change.set(document.uri, await client.protocol2CodeConverter.asTextEdits([...edits]));
  if (!(await workspace.applyEdit(change)))
    return tell(l10n.t("Nothing was changed: the pattern cannot be written to."));
  await tellOfRest(
    edits.length === 1
      ? l10n.t("Turned into {0} terms: 1 change.", to)
      : l10n.t("Turned into {0} terms: {1} changes.", to, edits.length),
    left,
  );
}

function askFor(
  { editor: { document }, range }: Stretch,
  client: BaseLanguageClient,
  to: string,
): Promise<Turned> {
  const textDocument = client.code2ProtocolConverter.asTextDocumentIdentifier(document);
  const within = range.isEmpty ? {} : { range: client.code2ProtocolConverter.asRange(range) };
  return client.sendRequest<Turned>("loopledger/turnTerms", { textDocument, to, ...within });
}

async function tellOfRest(done: string, left: readonly string[]): Promise<void> {
  if (left.length === 0) return tell(done);
  const show = l10n.t("Show them");
  const words =
    left.length === 1
      ? l10n.t("One word was left alone.")
      : l10n.t("{0} words were left alone.", left.length);
  if ((await window.showInformationMessage(`${done} ${words}`, show)) !== show) return;
  const content = `${l10n.t("Left alone, to be looked at:")}\n\n${left.map((line) => `- ${line}`).join("\n")}\n`;
  await window.showTextDocument(await workspace.openTextDocument({ content, language: "markdown" }));
}
