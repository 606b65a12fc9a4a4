import { env, type TextEditor, window } from "vscode";
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
    return tell("There is no row at the caret. Put the caret on a row of the pattern and try again.");
  if (proof.text === null) return tell(`Nothing was copied. ${proof.reason}`);
  await env.clipboard.writeText(proof.text);
  tell(`The proof of ${proof.row} is copied. Paste it where it is wanted.`);
}

function proofAt({ document, selection }: TextEditor, client: BaseLanguageClient): Promise<RowProof | null> {
  const caret = client.code2ProtocolConverter.asTextDocumentPositionParams(document, selection.active);
  return client.sendRequest("loopledger/rowProof", caret);
}
