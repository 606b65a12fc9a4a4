import type { TextDocumentIdentifier, WorkspaceEdit } from "vscode-languageserver";
import {
  addSizeAnswer,
  type GradingAnswer,
  gradingPage,
  sheetAnswer,
} from "../features/grading/grading-sheet";
import type { Server } from "./context";
import { editOf } from "./edits";
import { answering, type Request } from "./handler";

interface About {
  readonly textDocument: TextDocumentIdentifier;
}

interface Sheet extends About {
  /** The page as it was edited, in Markdown. */
  readonly sheet: string;
}

interface NewSize extends About {
  readonly typed: string;
}

/** What becomes of the lists of a pattern, and the change that does it. */
export interface GradingReply {
  readonly fits: boolean;
  readonly says: string;
  readonly notes: readonly string[];
  readonly edit: WorkspaceEdit | null;
}

/** Answers what only this extension's client asks: about the lists of sizes of a pattern. */
export function answerGrading(server: Server): void {
  server.connection.onRequest(
    "loopledger/gradingSheet",
    answering<About, string | null>(server, {
      name: "Writing the grading sheet",
      work: ({ snapshot }) => gradingPage(snapshot.worked, snapshot.uri),
      empty: () => null,
    }),
  );
  server.connection.onRequest(
    "loopledger/applyGradingSheet",
    answering<Sheet, GradingReply | null>(server, {
      name: "Writing the grading sheet back",
      work: (request) => reply(server, request, sheetAnswer(sceneOf(request), request.params.sheet)),
      empty: () => null,
    }),
  );
  server.connection.onRequest(
    "loopledger/addSize",
    answering<NewSize, GradingReply | null>(server, {
      name: "Adding a size",
      work: (request) => reply(server, request, addSizeAnswer(sceneOf(request), request.params.typed)),
      empty: () => null,
    }),
  );
}

function sceneOf({ snapshot: { text, report, worked, prover } }: Request<About>) {
  return { text, report, worked, prover, findings: report.findings };
}

function reply(
  { client }: Server,
  { snapshot }: Request<About>,
  { edits, ...answer }: GradingAnswer,
): GradingReply {
  return { ...answer, edit: edits.length > 0 ? editOf(edits, snapshot, client) : null };
}
