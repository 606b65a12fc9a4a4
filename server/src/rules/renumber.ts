import { partsOf, type WorkedPart } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import { readRowReferences } from "../notation/row-references";
import { say } from "../text/say";
import type { Span, TextEdit } from "../text/span";
import type { NumberSlip } from "./row-numbers";
import type { Fix, WorkedPattern } from "./rule";

/** Gives a row the number that is due, and the rows behind it theirs, with every mention of them. */
export function renumberFix(slip: NumberSlip, pattern: WorkedPattern): Fix[] {
  if (pattern.context.sizes.length > 1) return [];
  const { row, due, from } = slip;
  const name = row.line.headText.replace(`${from}`, `${due}`);
  const alone = slip.alone || isLast(slip, pattern);
  const title = alone ? say`Change the number to ${due}` : say`Renumber from here on: ${name}`;
  return [{ title, edits: () => editsFor(slip, pattern) }];
}

function isLast({ part, row }: NumberSlip, pattern: WorkedPattern): boolean {
  return part.piece?.rows.at(-1) === row && partsGoingOn(part, pattern).length === 1;
}

function editsFor(slip: NumberSlip, pattern: WorkedPattern): TextEdit[] {
  const run = partsGoingOn(slip.part, pattern);
  const rows = run.flatMap(({ piece }) => piece?.rows ?? []);
  const moved = slip.alone ? [slip.row] : rows.slice(rows.indexOf(slip.row));
  const by = slip.due - slip.from;
  const isMoved = new Set(moved);
  const mentions = textsOf(run, pattern).flatMap((text) =>
    mentionsIn(text, pattern).filter(({ n, start }) => {
      const meant = rowMeant(n, start, rows);
      return meant !== null && isMoved.has(meant);
    }),
  );
  const heads = moved.flatMap((row) => headNumbers(row, pattern));
  return [...heads, ...mentions].map(({ n, start, end }) => ({ span: { start, end }, newText: `${n + by}` }));
}

/** The part, with the parts behind it whose numbers run on from it. */
function partsGoingOn(part: WorkedPart, pattern: WorkedPattern): WorkedPart[] {
  const all = partsOf(pattern).filter(({ piece }) => piece !== null);
  const run = [part];
  for (const next of all.slice(all.indexOf(part) + 1)) {
    const last = lastNumber(run.at(-1) as WorkedPart);
    if (last === null || firstNumber(next) !== last + 1) break;
    run.push(next);
  }
  return run;
}

function firstNumber({ piece }: WorkedPart): number | null {
  return piece?.rows.find(({ line }) => line.head?.from != null)?.line.head?.from ?? null;
}

function lastNumber({ piece }: WorkedPart): number | null {
  const head = piece?.rows.findLast(({ line }) => line.head?.from != null)?.line.head;
  return head ? (head.to?.at(-1) ?? head.from) : null;
}

interface PlacedNumber extends Span {
  readonly n: number;
}

/** The numbers of a head, without its side, label and colour. */
function headNumbers({ line }: WorkedRow, { text }: WorkedPattern): PlacedNumber[] {
  if (line.head?.from == null) return [];
  const start = text.indexOf(line.headText, line.span.start);
  if (start < 0 || start > line.start) return [];
  return [...line.headText.matchAll(/\d+/g)].map(({ 0: digits, index }) => ({
    n: Number(digits),
    start: start + index,
    end: start + index + digits.length,
  }));
}

/** Where rows of the run may be spoken of: its instructions, its prose, and all prose if it is the only piece. */
function textsOf(run: readonly WorkedPart[], pattern: WorkedPattern): Span[] {
  const rows = run.flatMap(({ piece }) => piece?.rows ?? []).map(({ line }) => line);
  const instructions = rows.map((line) => ({ start: line.start, end: line.span.end }));
  const only = pattern.pieces.length === run.length;
  const prose = (only ? pattern.lines : run.flatMap(({ lines }) => lines)).filter(
    (line) => !rows.some(({ span }) => line.start < span.end && span.start < line.end),
  );
  return [...instructions, ...prose];
}

function mentionsIn(span: Span, { text }: WorkedPattern): PlacedNumber[] {
  return readRowReferences(text.slice(span.start, span.end))
    .flatMap(({ numbers }) => numbers)
    .map(({ n, start, end }) => ({ n, start: span.start + start, end: span.start + end }));
}

/** The row that a number stands for at a place: the nearest above it, else the nearest below. */
function rowMeant(n: number, at: number, rows: readonly WorkedRow[]): WorkedRow | null {
  const bears = ({ line: { head } }: WorkedRow): boolean =>
    head?.from != null && head.from <= n && n <= Math.max(head.from, ...(head.to ?? []).map((to) => to ?? 0));
  const above = rows.findLast((row) => bears(row) && row.line.span.start < at);
  return above ?? rows.find(bears) ?? null;
}
