import { l10n, window } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";

/** What the server answers of the row at the caret. */
interface RowInWords {
  readonly row: string;
  readonly text: string;
}

/** Shows the row at the caret in whole sentences, in a window that screen readers read out. */
export async function readRow(client: BaseLanguageClient): Promise<void> {
  const editor = window.activeTextEditor;
  if (!editor) return;
  const { document, selection } = editor;
  const caret = client.code2ProtocolConverter.asTextDocumentPositionParams(document, selection.active);
  const said = await client.sendRequest<RowInWords | null>("loopledger/rowInWords", caret);
  if (said) await window.showInformationMessage(said.row, { modal: true, detail: said.text });
  else
    await window.showInformationMessage(
      l10n.t("There is no row at the caret. Put the caret on a row of the pattern and try again."),
    );
}
