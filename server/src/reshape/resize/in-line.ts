import type { State } from "../../fabric/outcome";
import { isRight, reworking } from "../../fabric/rework";
import type { WorkedPiece } from "../../fabric/worked";
import { rewriteOn } from "../rewrite-row";
import { isRefusal } from "../row-trial";
import { type DraftRow, isNew } from "./draft";

/**
 * The rows of a draft, each on what the row before it leaves, as the row was understood when the piece was right.
 * Rows that stand for others are left for when the whole piece is worked.
 */
export function inLine(draft: readonly DraftRow[], piece: WorkedPiece): DraftRow[] {
  let left: State | null = null;
  let isMoved = false;
  return draft.map((one) => {
    if (one.state === "gone") return one;
    isMoved ||= isNew(one) || one.body !== one.row.line.text;
    const done = isMoved && left && one.state === "kept" ? onPlaces(one, piece, left) : one;
    left = isMoved ? leftBy(done, piece, left) : (one.row.outcome?.after ?? left);
    return done;
  });
}

/** A row that stands for others, and one that cannot follow, stay as they are. */
function onPlaces(one: DraftRow, piece: WorkedPiece, left: State): DraftRow {
  const found = rewriteOn(one.row, piece, left);
  return isRefusal(found) ? one : { ...one, body: found.text };
}

function leftBy({ row, body }: DraftRow, { context }: WorkedPiece, left: State | null): State | null {
  const worked = reworking(row, context)(body, left ?? undefined).find(isRight);
  return worked?.after ?? left;
}
