import type { TextDocumentPositionParams, WorkspaceEdit } from "vscode-languageserver";
import { rewriteAnswerInSizes } from "../features/sizes/rewrite-question-in-sizes";
import type { Server } from "./context";
import { editOf } from "./edits";
import { answering, type Request } from "./handler";
import { offsetOf } from "./positions";

interface ForCount extends TextDocumentPositionParams {
  /** What is typed for the number of stitches; none where only the row is asked about. */
  readonly typed?: string | null;
}

/** Whether the row at the caret can be rewritten for a count, and the change that does it. */
export interface RewriteReply {
  readonly row: string | null;
  readonly now: string | null;
  readonly ways: string;
  readonly fits: boolean;
  readonly says: string;
  readonly edit: WorkspaceEdit | null;
}

/** Answers what only this extension's client asks: about another count for the row at the caret. */
export function answerRewrites(server: Server): void {
  server.connection.onRequest(
    "loopledger/rewriteRow",
    answering<ForCount, RewriteReply | null>(server, {
      name: "Rewriting the row at the caret",
      work: (request) => reply(server, request),
      empty: () => null,
    }),
  );
}

function reply({ client }: Server, { params, snapshot }: Request<ForCount>): RewriteReply {
  const { text, report, worked, prover, lines } = snapshot;
  const scene = { text, report, worked, prover, findings: report.findings };
  const { edits, ...answer } = rewriteAnswerInSizes(
    scene,
    offsetOf(params.position, lines),
    params.typed ?? null,
  );
  return { ...answer, edit: edits.length > 0 ? editOf(edits, snapshot, client) : null };
}
