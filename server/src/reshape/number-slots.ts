import type { Word } from "../notation/words";
import { readWords } from "../notation/words";
import type { Span, TextEdit } from "../text/span";
import type { RowTrial } from "./row-trial";

/** Numbers of a row that are changed together: one of them, or all that are the same. */
export interface Slot {
  readonly n: number;
  readonly spans: readonly Span[];
  /** Chains, or which chain to begin in. */
  readonly isChain: boolean;
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
    .filter((same) => same.length > 1 && !same.some(({ isChain }) => isChain))
    .map((same) => ({ n: same[0]?.n ?? 0, spans: same.flatMap(({ spans }) => spans), isChain: false }));
  return [...words, ...together];
}

function numberIn({ number, start, end }: Word, text: string): Slot[] {
  const n = number?.length === 1 ? number[0] : null;
  const digits = /\d+/.exec(text.slice(start, end));
  if (n == null || !digits || Number(digits[0]) !== n) return [];
  const from = start + digits.index;
  const span = { start: from, end: from + digits[0].length };
  return [{ n, spans: [span], isChain: isOfChain(text.slice(0, from), text.slice(span.end)) }];
}

/** `ch 13`, `13ch`, `in 2nd ch`; not `in next 11 ch`. */
function isOfChain(before: string, behind: string): boolean {
  if (/\bch(?:ain)?s?[\s-]*$/i.test(before) || /^(?:st|nd|rd|th)\b/i.test(behind)) return true;
  return /^\s?ch\b/i.test(behind) && !/\b(?:next|last|of|in|the|remaining)\s*$/i.test(before);
}

export function editsFor({ spans }: Slot, n: number): TextEdit[] {
  return spans.map((span) => ({ span, newText: `${n}` }));
}
