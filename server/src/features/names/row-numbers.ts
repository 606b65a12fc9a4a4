import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { type NumberInText, readRowReferences } from "../../notation/row-references";
import type { WorkedPattern } from "../../rules/rule";
import { rowName } from "../../rules/wording";
import { keptBy } from "../../text/kept-by";
import { say } from "../../text/say";
import { type Span, shift } from "../../text/span";
import type { Place } from "../hover/place";
import { piecesMeant, rowNumbered } from "../wake/meant-rows";
import { holds, type NamedThing, type NameSource } from "./named-thing";

/** `Rnd 7:`, and the lines that speak of it: `Rep Rnd 7`, `between Rnds 7 and 8`. */
export const rowNumbers: NameSource = {
  at(place) {
    const own = ownHead(place);
    if (own) return own;
    const said = mentionsIn(place.pattern, place.offset).find(({ span }) => holds(span, place.offset));
    return said ? namedThing(said, said.span, place.pattern) : null;
  },
};

/** A number that names a row, and where that row begins. */
export interface RowLink extends Span {
  readonly target: number;
  readonly row: WorkedRow;
}

/** Every number that names a row elsewhere, with the row; the first where several pieces have such a row. */
export function rowLinks(pattern: WorkedPattern): RowLink[] {
  const links = new Map<number, RowLink>();
  for (const { row, span } of mentionsIn(pattern, null))
    if (!links.has(span.start)) links.set(span.start, { ...span, target: row.line.span.start, row });
  return [...links.values()].sort((a, b) => a.start - b.start);
}

/** A row of a piece, and where its number is. */
interface Numbered {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
}

interface Mention extends Numbered {
  readonly span: Span;
}

function ownHead({ placed, pattern, isInHead }: Place): NamedThing | null {
  if (!placed || !isInHead) return null;
  const span = numberOf(placed.row, pattern);
  return span && namedThing(placed, span, pattern);
}

/** The first number of a head. */
function numberOf({ line }: WorkedRow, { text }: WorkedPattern): Span | null {
  const { start } = line.span;
  const found = /\d+/.exec(text.slice(start, line.start));
  return found && line.head?.from != null
    ? { start: start + found.index, end: start + found.index + found[0].length }
    : null;
}

function namedThing({ row, piece }: Numbered, span: Span, pattern: WorkedPattern): NamedThing {
  const head = numberOf(row, pattern);
  const uses = mentionsIn(pattern, null).filter((one) => one.row === row);
  const from = `${row.line.head?.from}`;
  const said = (one: Span) => pattern.text.slice(one.start, one.end);
  return {
    span,
    name: said(span),
    definitions: head ? [head] : [],
    uses: uses.map((one) => one.span),
    fixed: row.line.head?.to
      ? say`${rowName(row)} is one line for several rows. Change its numbers by hand.`
      : null,
    renamed: (to) => {
      const n = /^\D{0,8}(\d{1,9})\D?$/.exec(to.trim())?.[1];
      if (n === undefined) return { why: say`A row is named by its number: write the number alone.` };
      if (rowNumbered(piece, Number(n))) return { why: say`There is a row ${n} in this piece already.` };
      const all = [...(head ? [head] : []), ...uses.map((one) => one.span)];
      return all.filter((one) => said(one) === from).map((one) => ({ span: one, newText: n }));
    },
  };
}

/** Every number that names a row, in rows and in prose; where an offset is given, on its line only. */
function mentionsIn(pattern: WorkedPattern, offset: number | null): Mention[] {
  const isAsked = (span: Span) => offset === null || holds(span, offset);
  const inRows = pattern.pieces.flatMap((piece) =>
    piece.rows
      .filter(({ line }) => isAsked(line.span))
      .flatMap(({ line }) => numbersIn(line.content, line.start).flatMap((one) => meant(one, [piece]))),
  );
  const inProse = pattern.lines
    .filter(({ kind, text }) => (kind === "prose" || kind === "field") && /\d/.test(text))
    .filter(isAsked)
    .flatMap((line) => {
      const numbers = numbersIn(line.content, line.start);
      return numbers.length === 0 ? [] : numbers.flatMap((one) => meant(one, piecesMeant(pattern, line)));
    });
  return [...inRows, ...inProse];
}

const numbersOf = keptBy(({ text }: { readonly text: string }) =>
  readRowReferences(text).flatMap((one) => one.numbers),
);

function numbersIn(content: { readonly text: string }, start: number): NumberInText[] {
  return numbersOf(content).map(({ n, ...span }) => ({ n, ...shift(span, start) }));
}

function meant({ n, start, end }: NumberInText, pieces: readonly WorkedPiece[]): Mention[] {
  return pieces.flatMap((piece) => {
    const row = rowNumbered(piece, n);
    return row ? [{ row, piece, span: { start, end } }] : [];
  });
}
