import { l10n, type TextEditor, window, workspace } from "vscode";
import type { BaseLanguageClient, WorkspaceEdit } from "vscode-languageclient";
import { settledOnly } from "./settled-only";
import { toldBelow } from "./tell";

/** What the server answers of the row at the caret, and of a count for it. */
interface RewriteReply {
  readonly row: string | null;
  readonly now: string | null;
  readonly ways: string;
  readonly fits: boolean;
  readonly says: string;
  readonly edit: WorkspaceEdit | null;
}

/** Asks how many stitches the row at the caret is to make, tells while it is typed what fits, and rewrites the row. */
export async function rewriteRow(client: BaseLanguageClient): Promise<void> {
  const editor = window.activeTextEditor;
  if (!editor) return;
  const ask = (typed: string | null): Promise<RewriteReply | null> => askServer(client, editor, typed);
  const first = await ask(null);
  if (!first?.fits) {
    void window.showInformationMessage(
      first?.says ?? l10n.t("There is no row at the caret. Put the caret on a row and try again."),
    );
    return;
  }
  const typed = await window.showInputBox({
    title: l10n.t("Rewrite {0}", first.row ?? ""),
    prompt: l10n.t(
      "It makes {0} now. How many stitches is it to make? Type {1}.",
      first.now ?? "",
      first.ways,
    ),
    value: `${first.now ?? ""}`,
    validateInput: settledOnly(async (text) => toldBelow(await ask(text))),
  });
  const last = typed === undefined ? null : await ask(typed);
  if (last?.edit) await apply(client, last.edit);
}

function askServer(
  client: BaseLanguageClient,
  { document, selection }: TextEditor,
  typed: string | null,
): Promise<RewriteReply | null> {
  const caret = client.code2ProtocolConverter.asTextDocumentPositionParams(document, selection.active);
  return client.sendRequest("loopledger/rewriteRow", { ...caret, typed });
}

/** Lines below that change with the row are shown before anything is changed. */
async function apply(client: BaseLanguageClient, edit: WorkspaceEdit): Promise<void> {
  const made = await client.protocol2CodeConverter.asWorkspaceEdit(edit);
  if (made) await workspace.applyEdit(made, { isRefactoring: true });
}
