import type { RowLine } from "../fabric/pattern";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { PatternLine } from "../notation/document";
import type { WorkedPattern } from "../rules/rule";

/** A row with the piece it belongs to. */
export interface PlacedRow {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
}

interface PatternIndex {
  readonly rows: readonly PlacedRow[];
  readonly byLine: ReadonlyMap<RowLine, WorkedRow>;
}

const known = new WeakMap<WorkedPattern, PatternIndex>();

function indexOf(pattern: WorkedPattern): PatternIndex {
  let index = known.get(pattern);
  if (!index) {
    const rows = pattern.pieces.flatMap((piece) => piece.rows.map((row) => ({ row, piece })));
    index = { rows, byLine: new Map(rows.map(({ row }) => [row.line, row])) };
    known.set(pattern, index);
  }
  return index;
}

/** The row that an offset lies in or right behind. */
export function rowAt(pattern: WorkedPattern, offset: number): PlacedRow | null {
  const last = lastRowFrom(pattern, offset);
  return last && offset <= last.row.line.span.end ? last : null;
}

/** The last row that starts at or before an offset. */
export function lastRowFrom(pattern: WorkedPattern, offset: number): PlacedRow | null {
  const { rows } = indexOf(pattern);
  const at = firstIndex(rows.length, (i) => (rows[i] as PlacedRow).row.line.span.start > offset);
  return rows[at - 1] ?? null;
}

/** The piece that an offset lies in or right behind: no other heading stands between. */
export function pieceAround({ pieces, lines }: WorkedPattern, offset: number): WorkedPiece | null {
  const own = pieces.findLast(({ piece }) => piece.span.start <= offset);
  const apart = lines.some(
    ({ kind, start }) => kind === "heading" && own && start > own.piece.span.end && start <= offset,
  );
  return own && !apart ? own : null;
}

/** What became of a row line. */
export function workedRow(pattern: WorkedPattern, line: RowLine | null): WorkedRow | null {
  return (line && indexOf(pattern).byLine.get(line)) ?? null;
}

/** The line that an offset lies in or right behind; the first of two that meet there is not it. */
export function lineAt(pattern: WorkedPattern, offset: number): PatternLine | null {
  const { lines } = pattern;
  const at = firstIndex(lines.length, (i) => (lines[i] as PatternLine).start > offset);
  return lines[at - 1] ?? null;
}

/** The first of `n` indexes that passes, where all behind it pass too; `n` where none does. */
function firstIndex(n: number, passes: (i: number) => boolean): number {
  let [low, high] = [0, n];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (passes(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
