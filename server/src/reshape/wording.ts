import type { Instruction, RowPlan } from "../fabric/instructions";
import { keptBy } from "../text/kept-by";
import type { Folded, FoldedRepeat } from "./fold";

/** How a designer writes plain stitches, increases and repeats: taken from rows that are there. */
export interface Wording {
  /** `sc 12`, `12 sc`, `sc in next 12 sts`. */
  run(n: number): string;
  /** `inc`, `2 sc in each of next 3 sts`, `sc2tog 3 times`. */
  units(n: number): string;
  repeat(body: string, times: number, level: RepeatLevel): string;
}

/** A repeat that holds all of the row may be written `around`; one within another has other brackets. */
export interface RepeatLevel {
  readonly isAll: boolean;
  readonly depth: number;
  /** Only one repeat of a row can be written with a lone asterisk. */
  readonly isOnly: boolean;
}

/** What a row shows of its designer's ways. */
export interface Samples {
  readonly runs: readonly Sample[];
  readonly units: readonly Sample[];
  readonly repeats: readonly RepeatSample[];
}

interface Sample {
  readonly kind: string;
  readonly n: number | null;
  readonly uses: number;
  readonly makes: number;
  readonly text: string;
}

interface RepeatSample {
  readonly open: string;
  readonly close: string;
  readonly isToEnd: boolean;
}

/** What stands for plain stitches, increases and repeats in a row. */
export const samplesOf = keptBy(({ instructions, text }: RowPlan): Samples => {
  const all = flat(instructions);
  const works = all.flatMap((one) => (one.op === "work" ? sampleOf(one, text) : []));
  return {
    runs: works.filter(({ uses, makes }) => uses === 1 && makes === 1),
    units: works.filter(({ uses, makes }) => uses > 1 || makes > 1),
    repeats: all.flatMap((one) =>
      one.op === "repeat" && one.times.how !== "lone" ? repeatOf(one, text) : [],
    ),
  };
});

function flat(list: readonly Instruction[]): Instruction[] {
  return list.flatMap((one) => {
    if (one.op === "either") return flat(one.options[0] ?? []);
    return one.op === "repeat" ? [one, ...flat(one.body)] : [one];
  });
}

function sampleOf(
  { stitch, per, takes, span }: Extract<Instruction, { op: "work" }>,
  text: string,
): Sample[] {
  const [take, ...others] = takes;
  const made = per.length === 1 ? per[0] : null;
  if (!take || others.length > 0 || !made) return [];
  if (take.how !== "next" && take.how !== "each") return [];
  const n = take.how === "each" ? null : take.n.length === 1 ? (take.n[0] ?? null) : null;
  const { kind, uses, makes } = stitch;
  return [{ kind, n, uses, makes: makes * made, text: inside(text.slice(span.start, span.end)) }];
}

const capital = /^(\P{L}*)(\p{Lu})(?=\p{Ll})/u;

/** As it is written within a row. */
function inside(text: string): string {
  return text.replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLowerCase());
}

/** A text with the capital that another begins with. */
export function begunLike(text: string, other: string): string {
  return capital.test(other)
    ? text.replace(/^(\P{L}*)(\p{L})/u, (_, marks: string, letter: string) => marks + letter.toUpperCase())
    : text;
}

function repeatOf(
  { body, times, span }: Extract<Instruction, { op: "repeat" }>,
  text: string,
): RepeatSample[] {
  const [first, last] = [body[0]?.span, body.at(-1)?.span];
  if (!first || !last || first.start < span.start || last.end > span.end) return [];
  const [open, close] = [text.slice(span.start, first.start), text.slice(last.end, span.end)];
  const isMarked = /[([{*]/.test(open);
  return isMarked ? [{ open, close, isToEnd: times.how === "to-end" }] : [];
}

/** The ways of some rows put together, those of the first before those of the others; `stitch` is as typed. */
export function wordingOf(
  samples: readonly Samples[],
  stitch: string,
  unit: { uses: number; makes: number },
): Wording {
  const runs = samples.flatMap((one) => one.runs).filter(({ kind }) => kind === stitch);
  const units = samples
    .flatMap((one) => one.units)
    .filter((one) => one.kind === stitch && one.uses === unit.uses && one.makes === unit.makes);
  const [repeat = { open: "(", close: ") x2", isToEnd: false }] = samples.flatMap((one) => one.repeats);
  const run = (n: number): string => runText(runs, n) ?? (n === 1 ? stitch : `${n} ${stitch}`);
  const one = unitText(units) ?? usualUnit(run(2), stitch, unit);
  return {
    run,
    units: (n) => (n === 1 ? one : unitsText(one, n, repeat)),
    repeat: (body, times, level) => repeatText(repeat, body, times, level),
  };
}

// Runs

function runText(samples: readonly Sample[], n: number): string | null {
  const alike = samples.filter((one) => (n === 1) === (one.n === 1));
  for (const sample of [...alike.filter((one) => one.n !== null), ...samples]) {
    const text = renumbered(sample, n, samples);
    if (text !== null) return text;
  }
  return null;
}

const inNext = /\bin (?:each of )?(?:the )?next (\d+)\b(?: (sts|stitches|scs?|dcs?|hdcs?|trs?))?/i;
const inNextOne = /\bin (?:the )?next (?=\p{L})/iu;
const inEach = /\bin (?:each|every)\b.*$|\b(?:around|across)\b.*$/i;

/** The text of a run with another number; null where it is not plain how it would be written. */
function renumbered({ text, n }: Sample, to: number, all: readonly Sample[]): string | null {
  if (n === to) return text;
  if (n === null)
    return inEach.test(text) ? text.replace(inEach, to === 1 ? "in next st" : `in next ${to} sts`) : null;
  if (n > 1) return to > 1 ? withNumber(text, n, to) : single(text, n);
  if (inNextOne.test(text))
    return text
      .replace(inNextOne, (words) => `${words}${to} `)
      .replace(/\bst$/, "sts")
      .replace(/\bstitch$/, "stitches");
  if (/^1 /.test(text)) return text.replace(/^1 /, `${to} `);
  if (/ 1$/.test(text)) return text.replace(/ 1$/, ` ${to}`);
  const behind = all.some((one) => one.n !== null && one.n > 1 && / \d+$/.test(one.text));
  return /^\p{L}+$/u.test(text) ? (behind ? `${text} ${to}` : `${to} ${text}`) : null;
}

function withNumber(text: string, n: number, to: number): string | null {
  const all = [...text.matchAll(/\d+/g)].filter(([digits]) => Number(digits) === n);
  const last = all.at(-1);
  return last ? text.slice(0, last.index) + to + text.slice(last.index + last[0].length) : null;
}

function single(text: string, n: number): string | null {
  if (inNext.test(text)) return text.replace(inNext, (words) => oneOf(words, n));
  const bare = text.replace(new RegExp(`^${n} | ${n}$`), "");
  return bare === text ? null : bare;
}

/** `in each of next 12 sts`: `in next st`. */
function oneOf(words: string, n: number): string {
  return words
    .replace(/each of /i, "")
    .replace(` ${n}`, "")
    .replace(/sts$/, "st")
    .replace(/stitches$/, "stitch");
}

// Increases and decreases

function unitText(samples: readonly Sample[]): string | null {
  for (const { n, text } of samples) {
    if (n === 1) return text;
    if (/\bin (?:each|every)\b/i.test(text)) return text.replace(/\bin (?:each|every)\b.*$/i, "in next st");
    const bare = text.replace(/ ?[x×*] ?\d+$| \d+ times$| \d+$|^\d+ (?=\p{L}+$)|^\d+ ?[x×] ?/iu, "");
    if (bare !== text) return bare;
  }
  return null;
}

/** `2 sc in each of next 3 sts`; else as the repeats of the row are told: `inc x3`, `inc 3 times`. */
function unitsText(one: string, n: number, { close }: RepeatSample): string {
  const next = /\bin (?:the )?next (?:st|stitch)$/i;
  if (next.test(one)) return one.replace(next, `in each of next ${n} sts`);
  return /[)\]}*]\s?[x×] ?\d/.test(close) ? `${one} x${n}` : `${one} ${n} times`;
}

function usualUnit(run: string, stitch: string, { uses, makes }: { uses: number; makes: number }): string {
  if (uses > 1) return uses === 2 && !/\bin\b/.test(run) ? "dec" : `${stitch}${uses}tog`;
  return makes === 2 && !/\bin\b/.test(run) ? "inc" : `${makes} ${stitch} in next st`;
}

// Repeats

function repeatText(sample: RepeatSample, body: string, times: number, level: RepeatLevel): string {
  if (sample.isToEnd && level.isAll) return `${sample.open}${body}${sample.close}`;
  const isLone = /^\*/.test(sample.open) && !/^\s*[*;,.]?\s*\*/.test(sample.close);
  if (level.depth > 1 || (isLone && !level.isOnly)) return bracketed(sample, body, times, level.depth);
  return `${sample.open}${body}${closeText(sample, times)}`;
}

/** A bracket where the row's own mark cannot be used. */
function bracketed({ open, close }: RepeatSample, body: string, times: number, depth: number): string {
  const sign = /\)\s?[x×] ?\d/.exec(close)?.[0]
    ? close.replace(/^[\])}]/, "").replace(/\d+/, `${times}`)
    : ` ${times} times`;
  const isRound = open.includes("(") === (depth % 2 === 0);
  return isRound ? `[${body}]${sign}` : `(${body})${sign}`;
}

function closeText({ close, isToEnd }: RepeatSample, times: number): string {
  const more = times - 1;
  if (isToEnd) {
    const asked = /^[\s;,.]*(?:rep|repeat)\b.*?\*+/i.exec(close)?.[0];
    if (asked) return `${asked} ${more} more time${more === 1 ? "" : "s"}`;
    const mark = /^\s*[)\]}*]/.exec(close)?.[0] ?? ")";
    return `${mark} ${times} times`;
  }
  const isMore = /\bmore\b|\bfrom\b.*\d/i.test(close) && !/\b(?:in all|altogether|total)\b/i.test(close);
  const n = isMore ? more : times;
  if (/\d/.test(close)) return close.replace(/\d+/, `${n}`).replace(/\btimes?\b/, n === 1 ? "time" : "times");
  return close.replace(
    /\b(?:once|twice|(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)(?= (?:more )?times?\b))\b(?: more)?(?: times?)?.*$/i,
    isMore ? `${n} more time${n === 1 ? "" : "s"}` : `${n} times`,
  );
}

// All together

/** A row of groups in words. */
export function written<T>(
  folded: readonly Folded<T>[],
  word: (item: T) => string,
  wording: Pick<Wording, "repeat">,
): string {
  const repeats = countRepeats(folded);
  const write = (list: readonly Folded<T>[], depth: number): string =>
    list
      .map((one) => (isRepeat(one) ? repeat(one, depth, list.length === 1 && depth === 0) : word(one)))
      .join(", ");
  const repeat = ({ body, times }: FoldedRepeat<T>, depth: number, isAll: boolean): string =>
    wording.repeat(write(body, depth + 1), times, { isAll, depth: depthOf(body) + 1, isOnly: repeats === 1 });
  return write(folded, 0);
}

function isRepeat<T>(one: Folded<T>): one is FoldedRepeat<T> {
  return typeof one === "object" && one !== null && "times" in one;
}

function countRepeats<T>(list: readonly Folded<T>[]): number {
  return list.reduce((sum, one) => (isRepeat(one) ? sum + 1 + countRepeats(one.body) : sum), 0);
}

/** How many repeats lie within each other. */
function depthOf<T>(list: readonly Folded<T>[]): number {
  return Math.max(0, ...list.map((one) => (isRepeat(one) ? 1 + depthOf(one.body) : 0)));
}
