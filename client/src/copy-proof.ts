import { env, l10n, type TextEditor, window } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { tell } from "./tell";

/** What the server answers of the row at the caret; `text` is null where there is no proof, and `reason` says why. */
interface RowProof {
  readonly row: string;
  readonly text: string | null;
  readonly reason: string | null;
}

/** Puts the proof of the row at the caret on the clipboard, and tells so. */
export async function copyProof(client: BaseLanguageClient): Promise<void> {
  const proof = window.activeTextEditor && (await proofAt(window.activeTextEditor, client));
  if (!proof)
    return tell(l10n.t("There is no row at the caret. Put the caret on a row of the pattern and try again."));
  if (proof.text === null) return tell(l10n.t("Nothing was copied. {0}", proof.reason ?? ""));
  await env.clipboard.writeText(proof.text);
  tell(l10n.t("The proof of {0} is copied. Paste it where it is wanted.", proof.row));
}

function proofAt({ document, selection }: TextEditor, client: BaseLanguageClient): Promise<RowProof | null> {
  const caret = client.code2ProtocolConverter.asTextDocumentPositionParams(document, selection.active);
  return client.sendRequest("loopledger/rowProof", caret);
}
