import type { Word } from "../notation/words";
import { readWords } from "../notation/words";
import type { Span, TextEdit } from "../text/span";
import type { RowTrial } from "./row-trial";

/** Numbers of a row that are changed together: one of them, or all that are the same. */
export interface Slot {
  readonly n: number;
  readonly spans: readonly Span[];
}

/** Those of the instructions, not of the count. */
export function slotsOf({ text, row, piece }: RowTrial): Slot[] {
  const count = row.line.plan?.statedSpan;
  const words = readWords(text, piece.context.lexicon)
    .filter(({ cls }) => cls === "n")
    .filter(({ start, end }) => !count || end <= count.start || start >= count.end)
    .flatMap((word) => numberIn(word, text));
  const alike = [...new Set(words.map(({ n }) => n))].map((n) => words.filter((one) => one.n === n));
  const together = alike
    .filter((same) => same.length > 1)
    .map((same) => ({ n: same[0]?.n ?? 0, spans: same.flatMap(({ spans }) => spans) }));
  return [...words, ...together];
}

function numberIn({ number, start, end }: Word, text: string): Slot[] {
  const n = number?.length === 1 ? number[0] : null;
  const digits = /\d+/.exec(text.slice(start, end));
  if (n == null || !digits || Number(digits[0]) !== n) return [];
  const from = start + digits.index;
  return [{ n, spans: [{ start: from, end: from + digits[0].length }] }];
}

export function editsFor({ spans }: Slot, n: number): TextEdit[] {
  return spans.map((span) => ({ span, newText: `${n}` }));
}
