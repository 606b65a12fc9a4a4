import { numberWords } from "../../trade/number-words";
import { stitchSpellings } from "../../trade/stitch-spellings";
import type { LengthUnit } from "../../trade/units";
import { type Length, numberOf, readLengths } from "./lengths";
import { partOf, type Stretch, stretchAt } from "./stretch";

/** A length that a gauge is measured over. */
export interface GaugeLength {
  readonly value: number;
  readonly unit: LengthUnit;
}

/** So many stitches, rows or pattern repeats: `18 hdc`, `13 rounds`, `3 V-sts`. */
export interface GaugeCount extends Stretch {
  readonly n: number;
  readonly sort: "stitch" | "row" | "repeat";
  /** The stitch, spelled as in the vocabulary; null where none is named. */
  readonly word: string | null;
  /** Null where the line tells no length for it. */
  readonly over: GaugeLength | null;
}

/** What one line says of the gauge, as far as it is understood. */
export interface GaugeLine extends Stretch {
  readonly counts: readonly GaugeCount[];
  /** `Rnds 1 and 2 measure 7 cm across`. */
  readonly disc: { readonly rounds: number; readonly across: GaugeLength } | null;
  /** Worked in the round, or flat; null where the line does not say. */
  readonly inRound: boolean | null;
  readonly blocked: boolean | null;
  /** Says that the gauge does not matter. */
  readonly isFree: boolean;
}

const longestLine = 2_000;

/** Reads one line of a gauge; every form that the trade uses, none of them required. */
export function readGaugeLine(line: Stretch): GaugeLine {
  // `16 sc/4 in`: no fraction.
  const text = line.text.length > longestLine ? "" : line.text.replace(/(?<=\p{L})\/(?=\d)/gu, " ");
  const lengths = lengthsIn(line, text);
  const disc = discIn(text, lengths);
  const stitch = stitchBehind(text);
  const counts = disc ? [] : countsIn(line, text).map((count) => named(count, stitch));
  return {
    ...line,
    counts: counts.map((count) => ({ ...count, over: lengthFor(count, counts, lengths) })),
    disc,
    inRound: inRound(text),
    blocked: /\b(?:un-?blocked|before blocking|not blocked)\b/i.test(text)
      ? false
      : /\bblock(?:ed|ing)\b/i.test(text)
        ? true
        : null,
    isFree:
      /\bnot\s+(?:\w+\s+){0,2}(?:important|critical|crucial|essential|vital|necessary|matter)|n['’]t matter\b|\bno(?:t any)? gauge\b/i.test(
        text,
      ),
  };
}

function inRound(text: string): boolean | null {
  if (/\bin the round\b|\b(?:rnd|round)s?\b/i.test(text)) return true;
  return /\b(?:worked )?flat\b|\brows?\b/i.test(text) ? false : null;
}

/** Lengths that stand beside each other, `10 cm (4")` or `10 x 10 cm`, are one. */
interface LengthGroup extends GaugeLength {
  readonly start: number;
  readonly end: number;
  /** Of `10 x 12 cm`: the second one, for rows. */
  readonly second: GaugeLength | null;
}

function lengthsIn(line: Stretch, text: string): LengthGroup[] {
  const groups: LengthGroup[] = [];
  for (const length of [...readLengths(stretchAt(text, 0)), ...bareUnits(text)].sort(
    (a, b) => a.start - b.start,
  )) {
    const last = groups.at(-1);
    const between = last ? text.slice(last.end, length.start) : null;
    if (last && between !== null && /^[\s(/,=[]*(?:or\s+|x\s*|×\s*|by\s+)?[\s(]*$/i.test(between))
      groups[groups.length - 1] = joined(last, length, /[x×]|by/i.test(between));
    else groups.push(groupOf(length));
  }
  return groups.map((group) => ({
    ...group,
    start: group.start + line.start,
    end: group.end + line.start,
  }));
}

function groupOf({ values, unit, start, end }: Length): LengthGroup {
  const value = values.reduce((sum, n) => sum + n, 0) / Math.max(values.length, 1);
  return { value, unit, start, end, second: null };
}

function joined(group: LengthGroup, length: Length, crosses: boolean): LengthGroup {
  const second = group.second === null && crosses ? groupOf(length) : group.second;
  return { ...group, second, end: length.end };
}

/** `5 sts per inch`, `6 rounds to the inch`: a length of one without its figure. */
function bareUnits(text: string): Length[] {
  const found = text.matchAll(
    /\b(?:per|to\s+(?:the|an?|one)|an|each|every)\s+(inch|in\b|cm\b|centimet(?:re|er))/gi,
  );
  return [...found].map(({ 0: all, 1: word = "", index }) => {
    const at = stretchAt(all, index);
    return { ...at, values: [1], unit: /^i/i.test(word) ? "in" : "cm", step: 1, numbers: at };
  });
}

const figure = String.raw`\d{1,4}(?:[.,]\d{1,2})?(?:[ -]?(?:[¼½¾]|\d\/\d))?|(?<!\p{L})(?:${[...numberWords.keys()].join("|")})(?!\p{L})`;
const counted = new RegExp(
  String.raw`(?<![\d.,/])(${figure})(?:\s?(?:-|–|to)\s?(${figure}))?\s?-?\s?(?=[\p{L}"])`,
  "giu",
);
const unitsOf: readonly (readonly [GaugeCount["sort"], RegExp])[] = [
  ["row", /^(?:rows?|rnds?\b\.?|rounds?|rws?)(?![\p{L}])/iu],
  [
    "repeat",
    /^(?:(?:stitch |full )?(?:pattern |patt?\.? )?(?:repeats?|reps?\b\.?)|patterns?|motifs?|waves?|ripples?|clusters? groups?)(?![\p{L}])/iu,
  ],
  ["stitch", /^(?:sts?\b\.?|stitch(?:es)?|st\(s\))(?![\p{L}])/iu],
];

type Counted = Omit<GaugeCount, "over">;

function countsIn(line: Stretch, text: string): Counted[] {
  return [...text.matchAll(counted)].flatMap((match): Counted[] => {
    const behind = match.index + match[0].length;
    const what = whatAt(text.slice(behind, behind + 40));
    if (!what) return [];
    const both = [match[1], match[2]].flatMap((n) =>
      n === undefined ? [] : [numberWords.get(n.toLowerCase()) ?? numberOf(n)],
    );
    const n = both.reduce((sum, one) => sum + one, 0) / both.length;
    const { sort } = what;
    const word = what.word ?? (sort === "stitch" ? stitchBefore(text.slice(0, match.index)) : null);
    return [{ ...partOf({ ...line, text }, match.index, behind + what.length), n, sort, word }];
  });
}

/** What is counted: rows, repeats, a stitch by its name, or just stitches. */
function whatAt(text: string): { sort: GaugeCount["sort"]; word: string | null; length: number } | null {
  const stitch = stitchAt(text);
  if (stitch) return { sort: "stitch", ...stitch };
  for (const [sort, form] of unitsOf) {
    const [all] = form.exec(text) ?? [];
    if (all === undefined) continue;
    const own = sort === "stitch" ? null : stitchAt(text.slice(0, all.length));
    return { sort, word: own?.word ?? null, length: all.length };
  }
  return null;
}

/** `dc: 16 sts and 9 rows`. */
function stitchBefore(text: string): string | null {
  const [, words = ""] = /(?:^|[;,.]\s*)(\p{L}[\p{L} -]{1,30}):\s*$/u.exec(text) ?? [];
  return stitchAt(words)?.word ?? null;
}

/** The stitch that a text begins with, in the longest spelling. */
function stitchAt(text: string): { word: string; length: number } | null {
  const words = /^[\p{L}]+(?:[\s.-]+[\p{L}]+){0,3}/u.exec(text)?.[0] ?? "";
  for (let end = words.length; end > 0; end = words.slice(0, end - 1).search(/[\s.-]+[\p{L}]*$/u)) {
    const spelling = words.slice(0, end).toLowerCase().replace(/\s+/g, " ");
    const word = stitchSpellings.get(spelling) ?? stitchSpellings.get(spelling.replace(/e?s$/, ""));
    if (word !== undefined) return { word, length: end };
  }
  return null;
}

/** `14 sts and 16 rows = 10 cm in single crochet`: the stitch that the swatch is worked in. */
function stitchBehind(text: string): string | null {
  for (const { 0: all, index } of text.matchAll(/\b(?:in|of|using|working|over)\s+(?:the\s+)?/gi)) {
    const found = stitchAt(text.slice(index + all.length));
    if (found) return found.word;
  }
  return null;
}

function named(count: Counted, stitch: string | null): Counted {
  return count.sort === "stitch" && count.word === null ? { ...count, word: stitch } : count;
}

/** The length of a count: the one of the line, or of several the next one; in a line that begins with it, the one before. */
function lengthFor(
  count: Counted,
  all: readonly Counted[],
  lengths: readonly LengthGroup[],
): GaugeLength | null {
  const [first] = lengths;
  const leads = first !== undefined && first.start < (all[0]?.start ?? 0);
  const found =
    lengths.length === 1
      ? first
      : leads
        ? lengths.findLast(({ start }) => start < count.start)
        : lengths.find(({ start }) => start >= count.end);
  if (!found) return null;
  const own = count.sort === "row" && found.second ? found.second : found;
  return { value: own.value, unit: own.unit };
}

const rounds =
  /\b(?:(?:first|last)\s+(\d+)\s+(?:rnds?|rounds?|rows?)|(?:rnds?|rounds?|rows?)\s*(\d+)(?:\s*(?:-|–|to|and|&|thru|through)\s*(\d+))?)\b/i;

function discIn(text: string, lengths: readonly LengthGroup[]): GaugeLine["disc"] {
  const [, firsts, from, to] = rounds.exec(text) ?? [];
  const [across] = lengths;
  if (!across || !/\b(?:across|diameter|square|wide|measures?)\b|(?:rnds?|rounds?)\b[^=\p{L}]*=/iu.test(text))
    return null;
  const n = Number(firsts ?? to ?? (from === undefined ? Number.NaN : from));
  return n > 0 ? { rounds: n, across: { value: across.value, unit: across.unit } } : null;
}
