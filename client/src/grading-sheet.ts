import { l10n, type TextEditor, ViewColumn, window, workspace } from "vscode";
import type { BaseLanguageClient, WorkspaceEdit } from "vscode-languageclient";
import { settledOnly } from "./settled-only";
import { tell, toldBelow } from "./tell";

/** What the server answers of the lists of sizes. */
interface GradingReply {
  readonly fits: boolean;
  readonly says: string;
  readonly notes: readonly string[];
  readonly edit: WorkspaceEdit | null;
}

/** Opens the grading sheet of the pattern in front beside it. */
export async function showGradingSheet(client: BaseLanguageClient): Promise<void> {
  const document = window.activeTextEditor?.document;
  if (document?.languageId !== "crochet") return tell(l10n.t("Open the pattern to grade, and try again."));
  const textDocument = client.code2ProtocolConverter.asTextDocumentIdentifier(document);
  const content = await client.sendRequest<string | null>("loopledger/gradingSheet", { textDocument });
  if (content === null) return tell(l10n.t("The sheet could not be made. Try again."));
  if (!content.startsWith("<!--")) return tell(content.trim());
  const page = await workspace.openTextDocument({ content, language: "markdown" });
  await window.showTextDocument(page, { viewColumn: ViewColumn.Beside });
}

/** Writes the sheet in front back into its pattern, which is shown first. */
export async function writeGradingSheetBack(client: BaseLanguageClient): Promise<void> {
  const sheet = window.activeTextEditor?.document.getText() ?? "";
  const uri = /^<!-- Grading sheet of (\S+) -->/.exec(sheet)?.[1];
  if (uri === undefined) return tell(l10n.t("Put the caret into a grading sheet, and try again."));
  const textDocument = { uri };
  const open = workspace.textDocuments.some((one) => client.code2ProtocolConverter.asUri(one.uri) === uri);
  if (!open) return tell(l10n.t("Open the pattern that the sheet is of, and try again."));
  const ask = client.sendRequest<GradingReply | null>("loopledger/applyGradingSheet", {
    textDocument,
    sheet,
  });
  await done(client, await ask);
}

/** Asks for the name of a new size and by how much it is wider, and adds it to every list of the pattern in front. */
export async function addSize(client: BaseLanguageClient): Promise<void> {
  const editor = window.activeTextEditor;
  if (editor?.document.languageId !== "crochet")
    return tell(l10n.t("Open the pattern to grade, and try again."));
  const ask = (typed: string): Promise<GradingReply | null> => askFor(client, editor, typed);
  const typed = await window.showInputBox({
    title: l10n.t("Add a size"),
    prompt: l10n.t(
      "Type its name and by how much it is wider than the last size, or what it measures: 2XL x1.1, 2XL 62 cm.",
    ),
    validateInput: settledOnly(async (text) => toldBelow(await ask(text))),
  });
  if (typed !== undefined) await done(client, await ask(typed));
}

function askFor(
  client: BaseLanguageClient,
  { document }: TextEditor,
  typed: string,
): Promise<GradingReply | null> {
  const textDocument = client.code2ProtocolConverter.asTextDocumentIdentifier(document);
  return client.sendRequest("loopledger/addSize", { textDocument, typed });
}

/** All lists are shown before anything is changed. */
async function done(client: BaseLanguageClient, reply: GradingReply | null): Promise<void> {
  if (!reply?.edit) return tell(reply?.says ?? l10n.t("Nothing was changed. Try again."));
  const made = await client.protocol2CodeConverter.asWorkspaceEdit(reply.edit);
  if (made && (await workspace.applyEdit(made, { isRefactoring: true }))) tell(reply.says);
}
