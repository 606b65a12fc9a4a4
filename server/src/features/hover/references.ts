import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { type RowReference, readRowReferences } from "../../notation/row-references";
import type { Span } from "../../text/span";
import { type PlacedRow, pieceAround } from "../placed-row";
import { piecesMeant } from "../wake/meant-rows";
import type { Place } from "./place";

/** Words of a pattern that name rows: by their numbers, or as the row before. */
export interface Reference {
  readonly span: Span;
  readonly names: RowReference | "the row before";
}

const previous = /\b(?:last|previous|prev)\s+(?:row|rnd|round)\b/gi;

/** Characters; a longer line is read by nobody. */
const longestLine = 20_000;

/** The references in the row or line of a place. */
export function referencesIn({ placed, line }: Place): Reference[] {
  const { text, start } = placed?.row.line ?? line ?? { text: "", start: 0 };
  if (text.length > longestLine) return [];
  const reference = (names: Reference["names"], from: number, length: number): Reference => ({
    span: { start: start + from, end: start + from + length },
    names,
  });
  return [
    ...readRowReferences(text).map((found) => reference(found, found.start, found.end - found.start)),
    ...[...text.matchAll(previous)].map(({ 0: said, index }) =>
      reference("the row before", index, said.length),
    ),
  ];
}

/** The rows that a reference means: of the pieces its line names, of its own piece, or of all that have such rows. */
export function rowsMeant({ names }: Reference, place: Place): PlacedRow[] {
  if (names === "the row before") return rowBefore(place);
  for (const pieces of [ownPieces(place), place.pattern.pieces]) {
    const found = pieces.flatMap((piece) => piece.rows.map((row) => ({ row, piece })));
    const meant = found.filter(({ row }) => row !== place.placed?.row && isMeant(row, names));
    if (meant.length > 0) return meant;
  }
  return [];
}

function isMeant({ line: { head } }: WorkedRow, { numbers, range }: RowReference): boolean {
  const from = head?.from ?? null;
  if (from === null) return false;
  const to = Math.max(from, ...(head?.to ?? []).map((n) => n ?? from));
  const asked = numbers.map(({ n }) => n);
  return range
    ? from <= Math.max(...asked) && Math.min(...asked) <= to
    : asked.some((n) => from <= n && n <= to);
}

/** A row means its own piece only. */
function ownPieces({ placed, line, pattern }: Place): readonly WorkedPiece[] {
  if (placed) return [placed.piece];
  return line ? piecesMeant(pattern, line) : [];
}

function rowBefore({ placed, offset, pattern }: Place): PlacedRow[] {
  const piece = placed?.piece ?? pieceAround(pattern, offset);
  const row = piece?.rows.findLast(
    (row) => row !== placed?.row && row.line.kind === "row" && row.line.span.start < offset,
  );
  return piece && row ? [{ row, piece }] : [];
}
