import type { TextDocumentPositionParams } from "vscode-languageserver";
import { type ProofText, proofTextAt } from "../features/proof/proof-text";
import { type RowInWords, rowInWordsAt } from "../features/reading/row-in-words";
import { type RowStatus, statusAt } from "../features/row-status";
import type { Server } from "./context";
import { answering, type Request, stopIfCancelled } from "./handler";
import type { Snapshot } from "./open-document";
import { offsetOf } from "./positions";
import { settled } from "./settled";

type AtCaret = TextDocumentPositionParams;

/** Answers what only this extension's client asks: about the row at the caret. */
export function answerRowRequests(server: Server): void {
  const { connection } = server;
  connection.onRequest(
    "loopledger/rowStatus",
    answering<AtCaret, RowStatus | null>(server, {
      name: "Telling the row at the caret",
      work: (request) => atCaret(server, request, statusAt),
      empty: () => null,
    }),
  );
  connection.onRequest(
    "loopledger/rowProof",
    answering<AtCaret, ProofText | null>(server, {
      name: "Proving the row at the caret",
      work: (request) => atCaret(server, request, proofTextAt),
      empty: () => null,
    }),
  );
  connection.onRequest(
    "loopledger/rowInWords",
    answering<AtCaret, RowInWords | null>(server, {
      name: "Reading the row at the caret",
      work: (request) => atCaret(server, request, rowInWordsAt),
      empty: () => null,
    }),
  );
}

/** A caret moves with every letter: what it is at is told once nobody is typing faster than that. */
async function atCaret<R>(
  server: Server,
  { params, document, token }: Request<AtCaret>,
  tell: (pattern: Snapshot["worked"], offset: number) => R,
): Promise<R> {
  await settled(server, document);
  stopIfCancelled(token);
  const { worked, lines } = document.snapshot;
  return tell(worked, offsetOf(params.position, lines));
}
