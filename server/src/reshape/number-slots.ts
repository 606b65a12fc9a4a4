import type { RowContent } from "../fabric/pattern";
import type { Word } from "../notation/words";
import { readWords } from "../notation/words";
import type { Span, TextEdit } from "../text/span";
import { numberWords, timesWords } from "../trade/number-words";
import type { RowTrial } from "./row-trial";

/** Numbers of a row that are changed together: one of them, or all that are the same. */
export interface Slot {
  readonly n: number;
  readonly spans: readonly Span[];
  /** `12`, `twelve`, `twice`. */
  readonly form: "digits" | "word" | "times";
  /** Chains, or which chain to begin in. */
  readonly isChain: boolean;
}

const known = new WeakMap<RowContent, readonly Slot[]>();

/** Those of the instructions, not of the count. */
export function slotsOf(trial: RowTrial): readonly Slot[] {
  const { content } = trial.row.line;
  const slots = known.get(content) ?? slotsIn(trial);
  known.set(content, slots);
  return slots;
}

function slotsIn({ text, row, piece }: RowTrial): Slot[] {
  const count = row.line.plan?.statedSpan;
  const words = readWords(text, piece.context.lexicon)
    .filter(({ cls }) => cls === "n" || cls === "W")
    .filter(({ start, end }) => !count || end <= count.start || start >= count.end)
    .flatMap((word) => numberIn(word, text));
  const digits = words.filter(({ form }) => form === "digits");
  const alike = [...new Set(digits.map(({ n }) => n))].map((n) => digits.filter((one) => one.n === n));
  const together = alike
    .filter((same) => same.length > 1 && !same.some(({ isChain }) => isChain))
    .map((same) => ({ ...(same[0] as Slot), spans: same.flatMap(({ spans }) => spans) }));
  return [...words, ...together];
}

function numberIn({ cls, number, start, end }: Word, text: string): Slot[] {
  const typed = text.slice(start, end);
  if (cls === "W") return inWords(timesWords.get(typed.toLowerCase()), { start, end }, "times");
  const n = number?.length === 1 ? number[0] : null;
  const digits = /\d+/.exec(typed);
  if (n == null || !digits) return inWords(numberWords.get(typed.toLowerCase()), { start, end }, "word");
  if (Number(digits[0]) !== n) return [];
  const from = start + digits.index;
  const span = { start: from, end: from + digits[0].length };
  const isChain = isOfChain(text.slice(0, from), text.slice(span.end));
  return [{ n, spans: [span], form: "digits", isChain }];
}

function inWords(n: number | undefined, span: Span, form: Slot["form"]): Slot[] {
  return n === undefined ? [] : [{ n, spans: [span], form, isChain: false }];
}

/** `ch 13`, `13ch`, `in 2nd ch`; not `in next 11 ch`. */
function isOfChain(before: string, behind: string): boolean {
  if (/\bch(?:ain)?s?[\s-]*$/i.test(before) || /^(?:st|nd|rd|th)\b/i.test(behind)) return true;
  return /^\s?ch\b/i.test(behind) && !/\b(?:next|last|of|in|the|remaining)\s*$/i.test(before);
}

export function editsFor({ spans, form }: Slot, n: number): TextEdit[] {
  return spans.map((span) => ({ span, newText: writtenAs(form, n) }));
}

function writtenAs(form: Slot["form"], n: number): string {
  if (form === "digits") return `${n}`;
  // `thrice` is nobody's word any more.
  if (form === "times" && n > 2) return `${n} times`;
  return form === "word" ? spelledOut(n) : wordFor(n, timesWords);
}

/** In words, as far as there is one word for it. */
export function spelledOut(n: number): string {
  return wordFor(n, numberWords);
}

function wordFor(n: number, words: ReadonlyMap<string, number>): string {
  const [word] = [...words].find(([, value]) => value === n) ?? [];
  return word ?? `${n}`;
}
