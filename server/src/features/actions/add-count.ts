import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { countLike } from "../../rules/count-like";
import { say } from "../../text/say";
import type { Span, TextEdit } from "../../text/span";
import { type Action, type ActionSource, findingsAt, type Scene } from "./action";

/** Rows of a piece that are given their counts at once. */
const atOnceAtMost = 60;

/** The count of a row that gives none, written as the pattern writes its counts; and of all such rows of its piece. */
export const addCount: ActionSource = (scene, focus) => {
  const placed = findingsAt(scene, focus).length === 0 ? silentAt(scene, focus) : null;
  const own = placed && countFor(scene, placed.row, placed.piece);
  if (!own) return [];
  return [
    ...proved(scene, say`Add the count ${own.shown}`, [own.edit]),
    ...inWholePiece(scene, placed.piece),
  ];
};

function silentAt({ worked }: Scene, { start, end }: Span): { row: WorkedRow; piece: WorkedPiece } | null {
  for (const piece of worked.pieces) {
    const row = piece.rows.find(({ line: { span } }) => span.start <= end && span.end >= start);
    if (row) return isSilent(row) ? { row, piece } : null;
  }
  return null;
}

/** Rows without a count whose stitches are known. */
function isSilent({ line, result, assumptions }: WorkedRow): boolean {
  return line.kind === "row" && result === "ok" && assumptions.length === 0 && line.plan?.stated === null;
}

function inWholePiece(scene: Scene, piece: WorkedPiece): Action[] {
  const silent = piece.rows.filter(isSilent);
  if (silent.length > atOnceAtMost) return [];
  const edits = silent.flatMap((row) => countFor(scene, row, piece)?.edit ?? []);
  if (edits.length < 2) return [];
  return proved(scene, say`Add the count to all ${edits.length} rows of the piece that give none`, edits);
}

function countFor({ worked }: Scene, row: WorkedRow, piece: WorkedPiece): ReturnType<typeof countLike> {
  return row.outcome && countLike(row, row.outcome, piece, worked);
}

function proved({ prover }: Scene, title: string, edits: readonly TextEdit[]): Action[] {
  if (!prover.proves(edits, [])) return [];
  return [{ kind: "rewrite", title, mends: [], preferred: false, edits: () => edits }];
}
