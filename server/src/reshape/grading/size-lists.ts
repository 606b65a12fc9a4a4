import type { WorkedPattern, WorkedRow } from "../../fabric/worked";
import type { PatternLine } from "../../notation/lines";
import { readWords } from "../../notation/words";
import type { Span } from "../../text/span";

/** A list with a number for each size, or with their names, where it stands in a pattern. */
export interface SizedList extends Span {
  /** Each of them as typed: `48`, `2 1/2`, `-` for a size that has none, `XL`. */
  readonly cells: readonly (Span & { readonly text: string })[];
  /** What stands between two of them, to be put before one more. */
  readonly sign: string;
  /** What it is of, in a few words: `Rnd 9: times`, `Finished circumference`. */
  readonly of: string;
  /** Less is no entry: 1, or of rows that a line stands for the first. */
  readonly least: number;
  /** Counted from 0. */
  readonly line: number;
}

/** A number, or a dash for a size that has none. */
const cell = String.raw`(?:\d+(?:[.,]\d+)?(?:\s?[½¼¾]|\s\d\/\d)?|[-–—])`;
const separator = String.raw`\s*[,:;]\s*`;

/** All lists of a pattern with one entry a size, in the order of its text; none where it has one size. */
export function sizedListsOf(pattern: WorkedPattern): SizedList[] {
  const { sizes } = pattern.context;
  if (sizes.length < 2) return [];
  const rows = new Map(
    pattern.pieces.flatMap((piece) => piece.rows.map((row) => [lineStart(pattern.text, row), row] as const)),
  );
  return pattern.lines.flatMap((line, i) =>
    listsIn(line, sizes, pattern).map((list): SizedList => {
      const row = rows.get(line.start);
      const of = row ? rowLabel(row, list, line) : proseLabel(line, list);
      return { ...list, of: of.trim(), least: leastOf(row, list), line: i };
    }),
  );
}

/** `Rows 3-8 (10, 12)` end with Row 3 or later. */
function leastOf(row: WorkedRow | undefined, { start }: Found): number {
  const head = row && start < row.line.start ? row.line.head : null;
  return head?.to ? (head.from ?? 1) : 1;
}

function lineStart(text: string, { line }: WorkedRow): number {
  return text.lastIndexOf("\n", line.span.start - 1) + 1;
}

type Found = Pick<SizedList, "start" | "end" | "cells" | "sign">;

function listsIn(line: PatternLine, sizes: readonly string[], { context }: WorkedPattern): Found[] {
  const numbers = spansOf(line, sizes.length, context.lexicon).map(({ start, end }) =>
    foundIn(line.text, start, end, new RegExp(cell, "g")),
  );
  // `2[4:6:8]` are names and numbers.
  const names = namesIn(line.text, sizes).filter(
    ({ start, end }) => !numbers.some((one) => one.start < end && start < one.end),
  );
  return [...names, ...numbers]
    .filter(({ cells }) => cells.length === sizes.length)
    .map((one) => moved(one, line.start));
}

function formsOf(sizes: number, entry = cell): { readonly outside: string; readonly inside: string } {
  const more = `(?:${separator}${entry})`;
  return {
    outside: `${entry}\\s?[([{]\\s?${entry}${more}{${sizes - 2}}\\s?[)\\]}]`,
    inside: `[([{]\\s?${entry}${more}{${sizes - 1}}\\s?[)\\]}]`,
  };
}

/** `8 (10, 12)`, `[8:10:12]`; of two sizes, only where a row is read so or a unit follows. */
function spansOf(
  { text, kind }: PatternLine,
  sizes: number,
  lexicon: WorkedPattern["context"]["lexicon"],
): Span[] {
  const { outside, inside } = formsOf(sizes);
  const form = new RegExp(`${outside}|${inside}`, "g");
  const told = [...text.matchAll(form)].map(({ 0: all, index }) => ({
    start: index,
    end: index + all.length,
  }));
  const isRow = kind === "row" || kind === "copy" || kind === "foundation";
  const read = isRow ? readWords(text, lexicon).filter(({ number }) => number?.length === sizes) : [];
  const sure =
    sizes > 2
      ? told
      : told.filter(({ end }) => /^\s?(?:cm|mm|in\b|inch|g\b|"|m\b|yd)/i.test(text.slice(end)));
  const others = read.filter(
    ({ start, end }) => !sure.some((one) => one.start <= start && end <= one.end + 1),
  );
  return [...sure, ...others].sort((a, b) => a.start - b.start);
}

function foundIn(text: string, start: number, end: number, form: RegExp): Found {
  const cells = [...text.slice(start, end).matchAll(form)].map(({ 0: typed, index }) => ({
    start: start + index,
    end: start + index + typed.length,
    text: typed,
  }));
  return { start, end, cells, sign: signBefore(cells, text) };
}

/** Of `S (L)`, where a bracket stands between the last two, the usual comma. */
function signBefore(cells: Found["cells"], text: string): string {
  const [before, last] = cells.slice(-2);
  const between = before && last ? text.slice(before.end, last.start) : "";
  return /^\s*[,:;]\s*$/.test(between) ? between : ", ";
}

/** The lists of a line with so many numbers in brackets, or so many ranges, of which the first may stand before them. */
export function listsOf(
  { text, start }: PatternLine,
  many: number,
  of: "numbers" | "ranges",
): Pick<SizedList, "start" | "end" | "cells">[] {
  const entry = of === "numbers" ? cell : String.raw`\d+\s?[-–—]\s?\d+`;
  const { outside, inside } = formsOf(many, entry);
  return [...text.matchAll(new RegExp(`${outside}|${inside}`, "g"))].map(({ 0: all, index }) =>
    moved(foundIn(text, index, index + all.length, new RegExp(entry, "g")), start),
  );
}

const betweenNames = String.raw`(?:\s*[,:;]\s*(?:and\s+)?|\s+(?:and|&)\s+)`;

/** `S (M, L, XL)`, `Small, Medium and Large`. */
function namesIn(text: string, sizes: readonly string[]): Found[] {
  const names = sizes.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  const [first, ...rest] = names;
  const others = rest.join(betweenNames);
  const form = new RegExp(
    `\\b${first}(?:\\s*[([]\\s*${others}\\s*[)\\]]|(?:\\s*[([]\\s*|${betweenNames})${others}(?![\\w]))`,
    "i",
  );
  const found = form.exec(text);
  if (!found) return [];
  return [
    foundIn(
      text,
      found.index,
      found.index + found[0].length,
      new RegExp(`\\b(?:${names.join("|")})(?![\\w])`, "gi"),
    ),
  ];
}

function moved({ start, end, cells, sign }: Found, by: number): Found {
  return {
    sign,
    start: start + by,
    end: end + by,
    cells: cells.map((one) => ({ ...one, start: one.start + by, end: one.end + by })),
  };
}

function rowLabel({ line }: WorkedRow, { start, end }: Found, { start: lineAt }: PatternLine): string {
  if (line.kind === "foundation") return "Starting chain";
  const name = line.head ? line.headText.replace(/\s*[([].*$/, "") : (line.text.split(/[.;:(]/)[0] ?? "");
  if (start < line.start) return `${name}: rows`;
  const count = line.plan?.statedSpan;
  const isCount = count && start >= line.start + count.start - 1 && start < line.start + count.end;
  if (isCount || (line.plan === null && /^\s*(?:sts?|\p{L}+)?\W*$/iu.test(line.text.slice(end - line.start))))
    return `${name}: count`;
  const isTimes = /^\s*(?:more\s+)?times?\b/i.test(line.text.slice(end - line.start));
  return `${name}: ${isTimes ? "times" : wordsBefore(line.text, start - Math.max(line.start, lineAt))}`;
}

function wordsBefore(text: string, at: number): string {
  const words = text.slice(0, Math.max(at, 0)).trim().split(/\s+/).slice(-3).join(" ");
  return words.replace(/[|*()[\]]/g, "").trim() || "number";
}

function proseLabel({ text, start: lineAt }: PatternLine, { start }: Found): string {
  const title = /^\s*([^:]{2,30}):/.exec(text)?.[1];
  return title ?? (wordsBefore(text, start - lineAt) || "list");
}
