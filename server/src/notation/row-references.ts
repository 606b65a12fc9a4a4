import type { Span } from "../text/span";

/** Rows that a stretch of text speaks of: `Rnd 3`, `between R10 and R11`, `the 4th row`, `Rows 3-10`. */
export interface RowReference extends Span {
  /** As many as are written: the two ends of a range, each of a list. */
  readonly numbers: readonly NumberInText[];
  /** `3-10` stands for all between; `3 and 5` for two. */
  readonly range: boolean;
}

export interface NumberInText extends Span {
  readonly n: number;
}

const rowWord = "(?:rows?|rnds?|rounds?|rds?|rws?|r)";
const ordinal = String.raw`\d+(?:st|nd|rd|d|th)`;
/** A comma goes on with a list only where a list follows: `Rows 3, 5 and 7`, but `R10, 7 sts apart`. */
const comma = String.raw`,(?=\s*(?:${rowWord}\.?\s*)?\d+\s*(?:[,&.:;)]|and\s+\d|$))`;
const between = String.raw`\s*(?:-|–|—|&|${comma}|and|to|or|through|until)\s*`;
/** What the number behind a row's is a number of, where it is not one more row. */
const other = String.raw`(?!\d|\s*(?:st|sc|dc|hdc|tr|htr|ch|sp|time|cm|mm|in\b|inch|more|pair)|\s*["'x×%])`;

const plain = new RegExp(
  String.raw`\b${rowWord}\.?\s*#?\s*\(?(\d+)(?![\d%]|\s*(?:more\s+)?times?\b)((?:${between}(?:${rowWord}\.?\s*#?\s*)?\d+${other})*)`,
  "giu",
);
const ordinals = new RegExp(
  String.raw`\b(${ordinal})((?:${between}${ordinal})*)\s+(?:rows?|rnds?|rounds?)\b`,
  "giu",
);

/** Every row that a text names by its number, in order of the text; spans count from its start. */
export function readRowReferences(text: string): RowReference[] {
  if (!/\d/.test(text)) return [];
  const found = [...text.matchAll(plain), ...text.matchAll(ordinals)].map(referenceOf);
  return found.sort((a, b) => a.start - b.start);
}

function referenceOf(match: RegExpExecArray): RowReference {
  const { 0: text, index: start } = match;
  const numbers = [...text.matchAll(/\d+/g)].map(({ 0: digits, index }) => ({
    n: Number(digits),
    start: start + index,
    end: start + index + digits.length,
  }));
  const range = /-|–|—|\bto\b|through|until/i.test(match[2] ?? "");
  return { start, end: start + text.length, numbers, range };
}

/** Whether a reference means this row. */
export function refersTo({ numbers, range }: RowReference, n: number): boolean {
  const [first, last] = [numbers[0]?.n ?? 0, numbers.at(-1)?.n ?? 0];
  return range ? first <= n && n <= last : numbers.some((one) => one.n === n);
}
