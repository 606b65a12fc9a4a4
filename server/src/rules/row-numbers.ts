import { inPieces, partsOf, type WorkedPart } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { listedNumbers, type RowHead, readHead } from "../notation/document";
import type { PatternLine } from "../notation/lines";
import { readRowReferences, refersTo } from "../notation/row-references";
import { keptBy } from "../text/kept-by";
import { linesBetween } from "./outline";
import type { WorkedPattern } from "./rule";

/** A row whose number does not follow from the row before it. */
export interface NumberSlip {
  readonly row: WorkedRow;
  readonly before: WorkedRow;
  readonly part: WorkedPart;
  /** The number it bears, and the one that is due. */
  readonly from: number;
  readonly due: number;
  /** The row behind it has the number that it should have: only this one is off. */
  readonly alone: boolean;
}

/** Row numbers that are skipped or come twice within a piece, where nothing written accounts for it. */
export const numberSlips = keptBy((pattern: WorkedPattern): readonly NumberSlip[] =>
  [
    ...startingLate(pattern).flatMap(({ part }) => goneOnFrom(part, pieceAbove(part, pattern))),
    ...slipsWithin(pattern),
  ].filter((slip) => !isAccountedFor(slip, pattern)),
);

function pieceAbove(part: WorkedPart, pattern: WorkedPattern): WorkedPiece | null {
  const parts = partsOf(pattern);
  return parts.slice(0, parts.indexOf(part)).findLast(({ piece }) => piece !== null)?.piece ?? null;
}

/** Where the numbers of a piece stand: one number, or several where sizes differ. */
interface Reached {
  /** The first number since they began. */
  readonly first: number;
  readonly low: number;
  readonly high: number;
}

/** A number out of turn, by the indices of its row and the one before. */
type OutOfTurn = Pick<NumberSlip, "from" | "due" | "alone"> & { readonly at: number };

const outOfTurn = inPieces(({ rows }): readonly OutOfTurn[] => {
  const found: OutOfTurn[] = [];
  const listed = new Set(rows.flatMap(({ line }) => (line.head ? listedNumbers(line.head) : [])));
  const isListed = ({ from, due }: OutOfTurn): boolean => from > due && listed.has(due);
  let reached: Reached | null = null;
  for (const [at, row] of rows.entries()) {
    const from = row.line.head?.from ?? null;
    const slip: OutOfTurn | null = from === null || reached === null ? null : slipAt(rows, at, from, reached);
    if (slip && !isListed(slip)) found.push(slip);
    reached = from === null || hidesNumbers(row) ? null : after(row, from, reached, slip);
  }
  return found;
});

function slipsWithin(pattern: WorkedPattern): NumberSlip[] {
  return outOfTurn(pattern).map(({ part, piece, found: { at, ...slip } }) => {
    const [before, row] = piece.rows.slice(at - 1, at + 1) as [WorkedRow, WorkedRow];
    return { ...slip, row, before, part };
  });
}

/** With more rows between, the numbers may be of another piece. */
const lostAtMost = 3;

/** Under a new heading the work goes on, and its numbers with it: `Mesh` begins with R7 where the base ends with R5. */
function goneOnFrom(part: WorkedPart, above: WorkedPiece | null): NumberSlip[] {
  const [row, next] = part.piece?.rows ?? [];
  const before = above?.rows.at(-1);
  const from = row?.line.head?.from ?? 1;
  if (!row || !before || beginsAnew(row, from, 0)) return [];
  const isSized = row.line.sizes !== null || (before.line.head?.to?.length ?? 1) > 1;
  if (isSized || hidesNumbers(before)) return [];
  const due = lastNumber(before.line.head) + 1;
  const isOff = from === due - 1 || (from > due && from <= due + lostAtMost);
  return isOff ? [{ row, before, part, from, due, alone: next?.line.head?.from === due + 1 }] : [];
}

const startingLate = inPieces(({ rows: [first] }) => ((first?.line.head?.from ?? 1) === 1 ? [] : [true]));

/** Rows behind these may bear any number. */
function hidesNumbers({ line: { head, sizes } }: WorkedRow): boolean {
  return head?.open === true || sizes !== null || isList(head);
}

/** `Rows 3 and 5`: not those between. */
function isList(head: RowHead | null): boolean {
  return head !== null && listedNumbers(head).length > 0;
}

function after(row: WorkedRow, from: number, reached: Reached | null, slip: OutOfTurn | null): Reached {
  const own = slip?.alone ? slip.due : from;
  const ends = (row.line.head?.to ?? [from]).map((n) => (n ?? from) + own - from);
  const first = reached !== null && own > reached.high ? reached.first : own;
  return { first, low: Math.min(...ends), high: Math.max(...ends) };
}

function slipAt(
  rows: readonly WorkedRow[],
  at: number,
  from: number,
  { first, low, high }: Reached,
): OutOfTurn | null {
  const row = rows[at] as WorkedRow;
  const due = high + 1;
  const follows = from > low && from <= due;
  const again = from <= high && low === high && from >= first && !beginsAnew(row, from, high);
  if (follows || (from <= high && !again) || row.line.sizes !== null) return null;
  const behind = rows[at + 1]?.line.head?.from;
  return { at, from, due, alone: behind === due + 1 || (behind == null && again) };
}

/** A row worked on nothing begins another thing, with or without a heading. */
function beginsAnew({ line, outcome }: WorkedRow, from: number, high: number): boolean {
  const onNothing = line.plan?.foundation != null || (outcome?.needs ?? []).every((n) => n === null);
  return onNothing || (from === 1 && high > 1);
}

function isAccountedFor(slip: NumberSlip, pattern: WorkedPattern): boolean {
  const between = linesBetween(pattern, slip.before.line.span, slip.row.line.span).filter(
    ({ kind }) => kind !== "heading",
  );
  const isMissing = slip.from > slip.due;
  const isOfWork = (line: PatternLine): boolean =>
    line.kind !== "prose" || !(isByTheWay(line) || (isMissing && !working.test(line.text)));
  if (between.some((line) => line.kind !== "blank" && isOfWork(line))) return true;
  if (!isMissing) return false;
  return (
    standsForMore(slip.before) ||
    namesRow(between, slip.before, slip.due) ||
    countsByTwos(slip) ||
    tellsOfOtherRows(pattern)
  );
}

/** Prose that neither works a row nor begins anything. */
const byTheWay =
  /^\W*(?:(?:now\s+)?(?:change|switch|stuff|fill|add (?:the )?(?:stuffing|filling|eyes)|insert|place|attach|put|embroider|move|mark|pm|remove)\b|(?:start|begin)\s+(?:to\s+)?(?:stuff|fill)|(?:with|in|using|join)\s+(?:colou?r\s+)?[\p{L} ]{1,20}[:.]?$|colou?r\b|[\p{L} ]{1,20} (?:yarn|colou?r)[:.]?$)/iu;

/** Words without which no sentence stands for a row that is not written out. */
const working =
  /^\W*\d|\b(?:rows?|rnds?|rounds?|rep|repeat\w*|until|sizes?|work\w*|continu\w*|cont|chart\w*|even\w*|divid\w*|times|as\s+(?:before|above|set|established)|sc|hdc|dc|htr|tr|dtr|crochet\w*)\b/i;

function isByTheWay({ text }: PatternLine): boolean {
  return byTheWay.test(text) && !/\b(?:rep|repeat|until|size|sizes)\b/i.test(text);
}

/** `Repeat Rows 2-3 until …`: rows that no head tells of. */
function standsForMore({ line: { text, head } }: WorkedRow): boolean {
  if (unnumbered.test(text)) return true;
  return head?.to == null && head?.many == null && repeatsRows.test(text) && !repeatsOne(text);
}

const unnumbered =
  /\b(?:until|(?:all|every|each)\s+[\w\s-]{0,24}rows?|for \d+ (?:more )?(?:rows|rounds|rnds))\b/i;
const repeatsRows = /\brep(?:eat)?s?\b[^.;*]*\b(?:rows?|rnds?|rounds?)\b/i;

/** `Rnd 26: Repeat Rnd 25.` is one row, like any other with a number. */
function repeatsOne(text: string): boolean {
  const named = readRowReferences(text).flatMap(({ numbers }) => numbers);
  return named.length === 1 && !/\b(?:times|twice|once|more|\d+\s?x|x\s?\d+)\b/i.test(text);
}

/** The missing row is there after all, in words or in a line that is not read as a row. */
function namesRow(between: readonly PatternLine[], { line }: WorkedRow, n: number): boolean {
  const texts = [line.text, ...between.map(({ text }) => text)];
  return texts.some((text) => readRowReferences(text).some((one) => refersTo(one, n)));
}

/** Only every other row is written out: 1, 3, 5. Behind `Rows 16-17`, row 18 is the next one. */
function countsByTwos({ part, from, due }: NumberSlip): boolean {
  if (from !== due + 1) return false;
  const heads = (part.piece?.rows ?? []).map(({ line }) => line.head);
  const steps = heads.slice(1).map((head, i) => (head?.from ?? Number.NaN) - lastNumber(heads[i] ?? null));
  return steps.filter((step) => step === 2).length > 1;
}

function lastNumber(head: RowHead | null): number {
  return Math.max(head?.from ?? Number.NaN, ...(head?.to ?? []).map((n) => n ?? Number.NaN));
}

/** `Row 2 and all even rows`, `All WS rows: sc across`: said once, for rows that are not written out. */
const otherRows =
  /\b(?:all|every|each)\s+(?:\w+\s+)?(?:even|odd|alt(?:ernate)?|other|ws|rs|wrong|right|foll(?:owing)?|second|2nd)\b[\w\s-]*?(?:rows?|rnds?|rounds?)\b|\b(?:even|odd|ws|rs|alternate)(?:[\s-]\w+)?\s+(?:rows|rnds|rounds)\b/i;

function tellsOfOtherRows({ lines }: WorkedPattern): boolean {
  return lines.some(({ text }) => otherRows.test(text) || isPartialHead(text));
}

/** `Rnd 6 of the chart`: a line about rows that is no row. */
function isPartialHead(text: string): boolean {
  return /^\s*(?:rows?|rnds?|rounds?)\s*\d/i.test(text) && readHead(text) === null;
}
