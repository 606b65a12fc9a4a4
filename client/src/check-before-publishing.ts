import { commands, l10n, ViewColumn, window, workspace } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { tell } from "./tell";

/** Opens the page to read before publishing beside the pattern in front. */
export async function checkBeforePublishing(client: BaseLanguageClient): Promise<void> {
  const document = window.activeTextEditor?.document;
  if (document?.languageId !== "crochet") return tell(l10n.t("Open the pattern to check, and try again."));
  const textDocument = client.code2ProtocolConverter.asTextDocumentIdentifier(document);
  const content = await client.sendRequest<string | null>("loopledger/publishingPage", { textDocument });
  if (content === null) return tell(l10n.t("The pattern could not be checked. Try again."));
  const page = await workspace.openTextDocument({ content, language: "markdown" });
  await window.showTextDocument(page, { viewColumn: ViewColumn.Beside, preview: true });
  await commands.executeCommand("markdown.showPreview", page.uri);
}
