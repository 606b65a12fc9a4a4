import type { RowLine } from "../fabric/pattern";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { PatternLine } from "../notation/lines";
import type { WorkedPattern } from "../rules/rule";
import type { Span } from "../text/span";

/** A row with the piece it belongs to. */
export interface PlacedRow {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
}

/** The row that an offset lies in or right behind. */
export function rowAt(pattern: WorkedPattern, offset: number): PlacedRow | null {
  const last = lastRowFrom(pattern, offset);
  return last && offset <= last.row.line.span.end ? last : null;
}

/** The row at an offset; on a line between the rows of a piece, the row before. */
export function rowAtOrBefore(pattern: WorkedPattern, offset: number): PlacedRow | null {
  const last = lastRowFrom(pattern, offset);
  return rowAt(pattern, offset) ?? (last && pieceAround(pattern, offset) === last.piece ? last : null);
}

function lastRowFrom(pattern: WorkedPattern, offset: number): PlacedRow | null {
  const starts = ({ line }: WorkedRow): boolean => line.span.start <= offset;
  const piece = lastThat(pattern.pieces, ({ rows: [first] }) => first !== undefined && starts(first));
  const row = piece && lastThat(piece.rows, starts);
  return piece && row && { row, piece };
}

/** The rows that a stretch of the text touches. */
export function rowsWithin({ pieces }: WorkedPattern, { start, end }: Span): PlacedRow[] {
  return pieces
    .filter(({ piece: { span } }) => span.start <= end && span.end >= start)
    .flatMap((piece) =>
      piece.rows
        .filter(({ line: { span } }) => span.start <= end && span.end >= start)
        .map((row) => ({ row, piece })),
    );
}

/** The piece that an offset lies in or right behind: no other heading stands between. */
export function pieceAround({ pieces, lines }: WorkedPattern, offset: number): WorkedPiece | null {
  const own = lastThat(pieces, ({ piece }) => piece.span.start <= offset);
  if (!own) return null;
  const { end } = own.piece.span;
  const apart = lines.some(({ kind, start }) => kind === "heading" && end < start && start <= offset);
  return apart ? null : own;
}

/** The row of a piece that a line became. */
export function workedRow({ rows }: WorkedPiece, line: RowLine | null): WorkedRow | null {
  return rows.find((row) => row.line === line) ?? null;
}

/** The line that an offset lies in. */
export function lineAt({ lines }: WorkedPattern, offset: number): PatternLine | null {
  return lastThat(lines, ({ start }) => start <= offset);
}

/** The last of a list that passes, where all before it pass too. */
function lastThat<T>(list: readonly T[], passes: (one: T) => boolean): T | null {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (passes(list[middle] as T)) low = middle + 1;
    else high = middle;
  }
  return list[low - 1] ?? null;
}
