import { l10n, type TextEditor, window, workspace } from "vscode";
import type { BaseLanguageClient, WorkspaceEdit } from "vscode-languageclient";
import { settledOnly } from "./settled-only";
import { toldBelow } from "./tell";

/** What the server answers of the piece at the caret, and of a size for it. */
interface ResizeReply {
  readonly piece: string | null;
  readonly now: string | null;
  readonly ways: string;
  readonly where: string;
  readonly fits: boolean;
  readonly says: string;
  readonly notes: readonly string[];
  readonly edit: WorkspaceEdit | null;
}

/** Asks which size the piece at the caret is to have, tells while it is typed what fits, and rewrites the piece. */
export async function resizePiece(client: BaseLanguageClient): Promise<void> {
  const editor = window.activeTextEditor;
  if (!editor) return;
  const ask = (typed: string | null): Promise<ResizeReply | null> => askServer(client, editor, typed);
  const first = await ask(null);
  if (!first?.fits) {
    void window.showInformationMessage(
      first?.says ?? l10n.t("There is no piece at the caret. Put the caret on a row and try again."),
    );
    return;
  }
  const typed = await window.showInputBox({
    title: l10n.t("Resize {0}", first.piece ?? ""),
    prompt: l10n.t("It is {0} sts {1}. Type {2}.", first.now ?? "", first.where, first.ways),
    validateInput: settledOnly(async (text) => toldBelow(await ask(text))),
  });
  const last = typed === undefined ? null : await ask(typed);
  if (last?.edit && (await apply(client, last.edit))) await tellOfRest(last.notes);
  else if (last && !last.fits) void window.showInformationMessage(last.says);
}

function askServer(
  client: BaseLanguageClient,
  { document, selection }: TextEditor,
  typed: string | null,
): Promise<ResizeReply | null> {
  const caret = client.code2ProtocolConverter.asTextDocumentPositionParams(document, selection.active);
  return client.sendRequest("loopledger/resizePiece", { ...caret, typed });
}

/** All lines are shown before anything is changed. */
async function apply(client: BaseLanguageClient, edit: WorkspaceEdit): Promise<void> {
  const made = await client.protocol2CodeConverter.asWorkspaceEdit(edit);
  if (made) await workspace.applyEdit(made, { isRefactoring: true });
}

async function tellOfRest(notes: readonly string[]): Promise<void> {
  if (notes.length === 0) return;
  const show = l10n.t("Show them");
  const told =
    notes.length === 1
      ? l10n.t("1 thing is yours to look at.")
      : l10n.t("{0} things are yours to look at.", notes.length);
  if ((await window.showInformationMessage(told, show)) !== show) return;
  const content = `${l10n.t("To be looked at after resizing:")}\n\n${notes.map((line) => `- ${line}`).join("\n")}\n`;
  await window.showTextDocument(await workspace.openTextDocument({ content, language: "markdown" }));
}
