import type { WorkedRow } from "../../fabric/worked";
import type { WorkedPattern } from "../../rules/rule";
import type { Span } from "../../text/span";
import { type PlacedRow, pieceAround } from "../pattern-index";
import type { Place } from "./place";

/** Words of a pattern that name rows by their numbers, or the row before. */
export interface Reference {
  readonly span: Span;
  /** Numbers of rows; "last" for the row before. */
  readonly rows: readonly number[] | "last";
}

const rowWord = String.raw`(?:rows?|rnds?|rounds?|rds?|rw|r)\.?`;
/** Behind a number that counts something else: `2 rounds 3 times`. */
const countsOther = String.raw`(?!\d|\s*(?:times?|more|x|sts?|cm|mm|in)\b|\s*["”])`;
const named = new RegExp(
  String.raw`\b${rowWord}\s*#?\s*(\d{1,6})${countsOther}(?:\s*(-|–|—|to|through|and|&|,)\s*(?:${rowWord}\s*)?(\d{1,6})${countsOther})?`,
  "gi",
);
const ordinal = /\b(\d{1,6})(?:st|nd|rd|th)\s+(?:rows?|rnds?|rounds?)\b/gi;
const previous = /\b(?:last|previous|prev)\s+(?:row|rnd|round)\b/gi;

/** Characters; a longer line is read by nobody. */
const longestLine = 20_000;
/** More rows than these are not named one by one. */
const rowsAtMost = 1_000;

/** The references in the row or line of a place. */
export function referencesIn({ placed, line }: Place): Reference[] {
  const { text, start } = placed?.row.line ?? line ?? { text: "", start: 0 };
  if (text.length > longestLine) return [];
  const found = (shape: RegExp, rows: (match: RegExpExecArray) => Reference["rows"]) =>
    [...text.matchAll(shape)].map((match) => ({
      span: { start: start + match.index, end: start + match.index + match[0].length },
      rows: rows(match),
    }));
  return [
    ...found(named, numbersIn),
    ...found(ordinal, ([, n]) => [Number(n)]),
    ...found(previous, () => "last"),
  ];
}

function numbersIn([, first, joined, second]: RegExpExecArray): number[] {
  const from = Number(first);
  const to = Number(second ?? first);
  if (to <= from || to - from > rowsAtMost || /and|&|,/i.test(joined ?? "")) return [...new Set([from, to])];
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

/** The rows that a reference means: of the pieces that its line names, of its own piece, or of all that have such rows. */
export function rowsMeant({ rows }: Reference, place: Place): PlacedRow[] {
  if (rows === "last") return before(place);
  const { pattern } = place;
  for (const pieces of [namedOn(place), ownPiece(place), pattern.pieces]) {
    const found = pieces.flatMap((piece) =>
      piece.rows
        .filter((row) => row !== place.placed?.row && rows.some((n) => hasNumber(row, n)))
        .map((row) => ({ row, piece })),
    );
    if (found.length > 0) return found;
  }
  return [];
}

function hasNumber({ line: { head } }: WorkedRow, n: number): boolean {
  const from = head?.from ?? null;
  if (from === null) return false;
  return from <= n && n <= Math.max(from, ...(head?.to ?? []).map((to) => to ?? 0));
}

type Pieces = WorkedPattern["pieces"];

/** A row means its own piece only; other lines may name one. */
function namedOn({ placed, line, pattern }: Place): Pieces {
  if (placed || !line) return [];
  const text = line.text.toLowerCase();
  return pattern.pieces.filter(
    ({ piece }) => piece.name.length > 1 && text.includes(piece.name.toLowerCase()),
  );
}

function ownPiece({ placed, offset, pattern }: Place): Pieces {
  const own = placed?.piece ?? pieceAround(pattern, offset);
  return own ? [own] : [];
}

function before({ placed, offset, pattern }: Place): PlacedRow[] {
  const all = pattern.pieces.flatMap((piece) => piece.rows.map((row) => ({ row, piece })));
  const last = all.findLast(
    ({ row }) => row !== placed?.row && row.line.span.start < offset && row.line.kind === "row",
  );
  return last ? [last] : [];
}
