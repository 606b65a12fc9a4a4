import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import type { Span } from "../../text/span";
import type { Scene } from "./action";

export interface RowHere {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
  readonly next: WorkedRow | null;
}

/** The one row on the lines; null where there is none, or more than one. */
export function rowHere({ worked }: Scene, focus: Span): RowHere | null {
  const all = worked.pieces.flatMap((piece) =>
    piece.rows.flatMap((row, i) =>
      row.line.span.start <= focus.end && row.line.span.end >= focus.start
        ? [{ row, piece, next: piece.rows[i + 1] ?? null }]
        : [],
    ),
  );
  return all.length === 1 ? (all[0] ?? null) : null;
}
