import type { TextDocumentPositionParams, WorkspaceEdit } from "vscode-languageserver";
import { resizeAnswerInSizes } from "../features/sizes/resize-question-in-sizes";
import type { Server } from "./context";
import { editOf } from "./edits";
import { answering, type Request } from "./handler";
import { offsetOf } from "./positions";

interface ForSize extends TextDocumentPositionParams {
  /** What is typed for the size; none where only the piece is asked about. */
  readonly typed?: string | null;
}

/** Whether the piece at the caret can be had in a size, what else that brings, and the change that does it. */
export interface ResizeReply {
  readonly piece: string | null;
  readonly now: string | null;
  readonly ways: string;
  readonly where: string;
  readonly fits: boolean;
  readonly says: string;
  readonly notes: readonly string[];
  readonly edit: WorkspaceEdit | null;
}

/** Answers what only this extension's client asks: about another size for the piece at the caret. */
export function answerResizes(server: Server): void {
  server.connection.onRequest(
    "loopledger/resizePiece",
    answering<ForSize, ResizeReply | null>(server, {
      name: "Resizing the piece at the caret",
      work: (request) => reply(server, request),
      empty: () => null,
    }),
  );
}

function reply({ client }: Server, { params, snapshot }: Request<ForSize>): ResizeReply {
  const { text, report, worked, prover, lines } = snapshot;
  const scene = { text, report, worked, prover, findings: report.findings };
  const { edits, ...answer } = resizeAnswerInSizes(
    scene,
    offsetOf(params.position, lines),
    params.typed ?? null,
  );
  return { ...answer, edit: edits.length > 0 ? editOf(edits, snapshot, client) : null };
}
