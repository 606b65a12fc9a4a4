import { readConventions, type TallStart } from "../notation/declared";
import type { LineContent } from "../notation/document";
import { readHeading, readMake } from "../notation/headings";
import type { PatternLine } from "../notation/lines";
import { glossaryOf } from "../notation/other-languages";
import { mentionsOf, pieceKey } from "../notation/piece-names";
import { type Meaning, trade } from "../notation/vocabulary";
import type { Lexicon } from "../notation/words";
import { keptBy } from "../text/kept-by";
import type { Language } from "../trade/languages/languages";
import type { Terms } from "../trade/stitches";
import type { BindContext, Definition } from "./bind";
import { type Made, madeNames, readDefinitions } from "./definitions";
import { declaredTerms, languageOf, noSigns, type Signs, signsOf, TermSigns } from "./term-signs";

/** Everything outside a row that its reading depends on; while only names of pieces change, `definitions` is the same object. */
export interface PatternContext extends BindContext {
  readonly lexicon: Lexicon;
  readonly sizes: readonly string[];
  /** What the pattern is written in, where that is not English. */
  readonly language: Language | null;
  /** Equal for contexts that read every row alike. */
  readonly key: string;
  /** Equal for contexts that differ at most in the names they know. */
  readonly base: string;
  /** What each name of the pattern's own stands for. */
  readonly names: ReadonlyMap<string, string>;
}

/** Characters; a longer line is no header and no row. */
const longestLine = 20_000;

/** Reads the context of one version of a pattern after another; rows that an edit changed cost nothing here. */
export class ContextReader {
  private lines: readonly PatternLine[] = [];
  private context: PatternContext | null = null;

  apart(): ContextReader {
    const other = new ContextReader();
    other.lines = this.lines;
    other.context = this.context;
    return other;
  }

  read(lines: readonly PatternLine[]): PatternContext {
    if (this.context === null || !this.speaksAlike(lines)) this.context = this.readAfresh(lines);
    this.lines = lines;
    return this.context;
  }

  /** Whether the lines that changed say of other rows what those before them said. */
  private speaksAlike(lines: readonly PatternLine[]): boolean {
    const [before, after] = unlike(this.lines, lines);
    return (
      sameItems(before.map(signsIn), after.map(signsIn)) &&
      sameItems(before.flatMap(spoken).map(keyOfSpoken), after.flatMap(spoken).map(keyOfSpoken))
    );
  }

  /** The same context as before where it comes to the same. */
  private readAfresh(lines: readonly PatternLine[]): PatternContext {
    const contents = lines.map(({ content }) => content);
    const signs = new TermSigns();
    for (const content of contents) signs.add(remarksOf(content).signs);
    const speaking = contents.filter((content) => remarksOf(content).speaks);
    const context = readContext(speaking, signs.terms());
    if (context.key === this.context?.key) return this.context;
    return this.context && haveSameStitches(this.context, context)
      ? { ...context, definitions: this.context.definitions }
      : context;
  }
}

/** Whether two contexts differ at most in the names of pieces. */
function haveSameStitches(a: PatternContext, b: PatternContext): boolean {
  const names = [...b.definitions.keys()];
  return (
    a.base === b.base &&
    a.definitions.size === b.definitions.size &&
    names.every((name) => a.definitions.has(name) && a.names.get(name) === b.names.get(name))
  );
}

/** What is left of two versions without the lines they share at their ends. */
function unlike(
  before: readonly PatternLine[],
  after: readonly PatternLine[],
): [LineContent[], LineContent[]] {
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start]?.content === after[start]?.content) start++;
  let end = 0;
  while (end < shorter - start && before.at(-1 - end)?.content === after.at(-1 - end)?.content) end++;
  const between = (lines: readonly PatternLine[]) =>
    lines.slice(start, lines.length - end).map(({ content }) => content);
  return [between(before), between(after)];
}

function signsIn(line: LineContent): Signs {
  return remarksOf(line).signs;
}

function spoken(line: LineContent): LineContent[] {
  return remarksOf(line).speaks ? [line] : [];
}

/** A row whose numbers change says of other rows what it said before. */
const keyOfSpoken = keptBy((line: LineContent): LineContent | string => {
  const { throughout: always, habits, made } = remarksOf(line);
  const isPlain =
    line.kind === "row" && made.length === 0 && !line.head?.language && !sizedNumber.test(line.text);
  return isPlain ? JSON.stringify([always, habits]) : line;
});

function sameItems<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((one, i) => one === b[i]);
}

/** What the header, the notes and the definitions of a pattern settle. */
function readContext(speaking: readonly LineContent[], termsBySigns: Terms): PatternContext {
  const other = speaking.filter(({ kind }) => isOther(kind));
  const remarks = speaking.map(remarksOf);
  const sizes = readSizes(other, speaking);
  const language = languageOf(speaking);
  // Names of stitches in other languages are told by the US ones.
  const terms = language ? "US" : (declaredTerms(other) ?? termsBySigns);
  const glossary = language ? { glossary: glossaryOf(language) } : {};
  const sentences = [...other.flatMap(sentencesIn), ...remarks.flatMap((one) => one.throughout)];
  const said = remarks.flatMap((one) => one.habits);
  const habits = habitsOf(said);
  const tallStarts = new Map(said.flatMap(({ chains, tall }) => (tall ? [[chains, tall] as const] : [])));
  const noted = readConventions(sentences);
  const startCounts = withoutMixed(noted.startCounts, other);
  const conventions = { ...noted, startCounts, habits, tallStarts };
  const roundMeansPlace = other.some((line) => /^\(\s*\)\s*(?:=|means?)\s*.*same/i.test(line.text.trim()));
  const bare: BindContext = { terms, definitions: new Map(), conventions, ...glossary };
  const { words, definitions } = readDefinitions(other, bare, sizes.length);
  for (const { name, definition } of remarks.flatMap((one) => one.made))
    if (!definitions.has(name)) definitions.set(name, definition(bare));
  for (const name of pieceNames(other))
    if (!words.has(name)) words.set(name, { cls: "N", value: pieceKey(name) });
  const lexicon: Lexicon = { words, sizes: sizes.length, ...glossary };
  const { timesMeans } = conventions;
  const starts = [...startCounts, ...habits, ...tallStarts];
  const base = JSON.stringify([terms, language?.code, sizes, roundMeansPlace, starts, timesMeans]);
  const names = namesOf(words, definitions);
  const key = JSON.stringify([base, ...names]);
  const place = roundMeansPlace ? { roundMeansPlace } : {};
  return { terms, definitions, conventions, lexicon, sizes, language, key, base, names, ...place };
}

function sentencesIn({ text }: LineContent): string[] {
  return text.split(/(?<=[.!])\s+/);
}

/** What is said under one heading and otherwise under another settles nothing for all: the rows do. */
function withoutMixed(
  startCounts: ReadonlyMap<number, boolean>,
  lines: readonly LineContent[],
): ReadonlyMap<number, boolean> {
  if (startCounts.size === 0) return startCounts;
  const parts: string[][] = [[]];
  for (const line of lines) {
    if (line.kind === "heading") parts.push([]);
    parts.at(-1)?.push(...sentencesIn(line));
  }
  const said = parts.map((part) => readConventions(part).startCounts);
  return new Map([...startCounts].filter(([n, counts]) => said.every((one) => one.get(n) !== !counts)));
}

function namesOf(
  words: ReadonlyMap<string, Meaning>,
  definitions: ReadonlyMap<string, Definition>,
): ReadonlyMap<string, string> {
  const names = [...new Set([...words.keys(), ...definitions.keys()])];
  const told = new Map([...definitions].map(([name, definition]) => [name, JSON.stringify(definition)]));
  // A short name stands for what the long one is explained to be.
  const explained = (name: string) => told.get(name) ?? told.get(words.get(name)?.value ?? "");
  return new Map(names.map((name) => [name, `${JSON.stringify(words.get(name))} ${explained(name)}`]));
}

/** Header, notes, headings, prose: all that is no row. */
function isOther(kind: LineContent["kind"]): boolean {
  return kind !== "row" && kind !== "blank" && kind !== "copy";
}

/** What one line tells that holds beyond it. */
interface Remarks {
  readonly signs: Signs;
  readonly throughout: readonly string[];
  readonly habits: readonly Habit[];
  readonly made: readonly Made[];
  /** Whether the line has to be looked at for more than signs of its terms. */
  readonly speaks: boolean;
}

const silent: Remarks = { signs: noSigns, throughout: [], habits: [], made: [], speaks: false };

const remarksOf = keptBy(
  (line: LineContent): Remarks => (line.text.length > longestLine ? silent : readRemarks(line)),
);

function readRemarks({ kind, text, head }: LineContent): Remarks {
  const [always, habits, made] = [throughout(text), readHabits(text), madeNames(text)];
  const some = head?.language !== undefined || [always, habits, made].some((list) => list.length > 0);
  const speaks = some || isOther(kind) || sizedNumber.test(text);
  return { signs: signsOf(text), throughout: always, habits, made, speaks };
}

/** Names of pieces, as rows mention them: `of Tube A`. */
function pieceNames(lines: readonly LineContent[]): string[] {
  const names = lines.flatMap(({ kind, text }, i) => {
    if (kind === "prose") return partsNamed(text);
    if (kind !== "heading") return [];
    const { name, make } = readHeading(text.trim());
    const several = make > 1 || (readMake(lines[i + 1]?.text ?? "") ?? 1) > 1 || /[^s]s$/i.test(name);
    return mentionsOf(name, several);
  });
  return names.filter((name) => name.length > 1 && (trade.get(name)?.cls ?? "N") === "N");
}

/** `FO the first fluke. Make a second one`: a part that is made twice under one heading. */
function partsNamed(text: string): readonly string[] {
  const part = /\b(?:FO|fasten off|finish|cut)\b[^.:;]*?\bfirst\s+(\p{L}{3,})\b/iu.exec(text)?.[1];
  return part === undefined ? [] : mentionsOf(part, true);
}

/** `Ch 3 (counts as dc throughout)` in a row holds for all. */
function throughout(text: string): string[] {
  if (!text.includes("(")) return [];
  return [
    ...text.matchAll(
      /\b(?:ch(?:ain)?\.?[\s-]*\d+|\d+\s*ch)\s*\(([^()]*(?:through|every|all rounds|from now)[^()]*)\)/gi,
    ),
  ].map((match) => match[0]);
}

interface Habit {
  readonly chains: number;
  readonly counts: boolean;
  readonly tall: TallStart | null;
}

const stitchAndSpace =
  /\bas (?:an? |one |1 ?|the )?(?:first |beg(?:inning)? )?(hdc|htr|dc|tr|dtr)\s*(?:\+|&|and|,|plus)\s*(?:an? )?(?:ch\.?[\s-]*(\d)|(\d)\s*ch)\b/i;

function tallStartIn(remark: string): TallStart | null {
  const [, kind, behind, before] = stitchAndSpace.exec(remark) ?? [];
  return kind ? { kind: kind.toLowerCase(), space: Number(behind ?? before) } : null;
}

function readHabits(text: string): Habit[] {
  if (!text.includes("(")) return [];
  const all = text.matchAll(/\b(?:ch(?:ain)?\.?[\s-]*(\d+)|(\d+)\s*ch)\s*\(([^()]*count[^()]*)/gi);
  return [...all].map((match) => ({
    chains: Number(match[1] ?? match[2]),
    counts: !/\b(?:not|never)\b|n['’]t\b/i.test(match[3] as string),
    tall: tallStartIn(match[3] as string),
  }));
}

/** `ch 3 (counts as dc)` in one row is what the designer usually means by a ch 3. */
function habitsOf(all: readonly Habit[]): ReadonlyMap<number, boolean> {
  const habits = new Map<number, boolean>();
  const mixed = new Set<number>();
  for (const { chains, counts } of all) {
    if (habits.has(chains) && habits.get(chains) !== counts) mixed.add(chains);
    habits.set(chains, counts);
  }
  for (const n of mixed) habits.delete(n);
  return habits;
}

/** `Sizes: adult S (M, L)`: who is to wear it stands before the sizes. */
const sizeNames =
  /(?:^|\b)(?:sizes?|to fit|ages?(?=:))\b\s*:?\s*(?:(?:adults?|child(?:ren)?|kids?|bab(?:y|ies)|(?:wo)?m[ae]n|lad(?:y|ies)|youth|toddlers?|teens?)(?:['’]s|s['’])?\s+(?=[\w./-]+\s*[([]))?([\w./-]+(?:\s+(?:months?|mos?|years?|yrs?))?)?\s*[([]([^)\]]+)[)\]]/i;
const sizedNumber = /\d+\s*[([{]\s*((?:\d+|[-–])(?:\s*[,:;–-]\s*\d+)+)\s*[)\]}]/;
const onlyBracket = /[([]\s*(\d+(?:\s*[,:;]\s*\d+)+)\s*[)\]]/;

/** `SIZES` on a line of its own tells what the next one is. */
function withTheirTitle(header: readonly LineContent[]): readonly Pick<LineContent, "text">[] {
  const at = header.findIndex(({ text }) => /^\W*sizes\W*$/i.test(text));
  const names = at < 0 ? undefined : header.slice(at + 1).find(({ kind }) => kind !== "blank");
  return names ? [{ text: `Sizes: ${names.text.trim()}` }, ...header] : header;
}

function readSizes(all: readonly LineContent[], lines: readonly LineContent[]): string[] {
  const header = withTheirTitle(all.filter(({ kind }) => kind !== "foundation"));
  for (const line of header) {
    if (
      !/(?<!\bone )\bsizes?\b|to fit|^\W*ages?:/i.test(line.text) ||
      /finished|size [A-Z]\b.*hook|hook|\bchanges for\b|\bsize \d+ [\w ]{0,20}(?:thread|cotton)/i.test(
        line.text,
      )
    )
      continue;
    if (/first\s*[([]\s*second\s*[)\]]\s*size/i.test(line.text)) return ["first", "second"];
    const fit = /to fit[^\d([]*([\d-]+)\s*[([]([^)\]]+)[)\]]/i.exec(line.text);
    const listed =
      /sizes?\b\s*:?\s*([\w./-]+(?: (?!and\b)[\w./-]+)?(?:(?:\s*,\s*(?:and\s+)?|\s+and\s+|\s*&\s*)(?!with\b)[\w./-]+(?: (?!and\b)[\w./-]+)?)+)/i.exec(
        line.text,
      );
    const isList = listed?.[1]?.includes(",") || /\bsizes\b/i.test(line.text);
    const named = fit ?? sizeNames.exec(line.text);
    // `Sizes: S[M:L]. Given for size S, with others in brackets`: a list in a bracket comes first.
    const isFirst = listed !== null && (named === null || listed.index < named.index);
    if (listed && isFirst && isList && !fit && /^[A-Z]|\d/.test(listed[1] as string))
      return (listed[1] as string).split(/\s*,\s*(?:and\s+)?|\s+and\s+|\s*&\s*/);
    const match = named;
    if (!match) continue;
    const rest = (match[2] as string)
      .split(/[,:;]/.test(match[2] as string) ? /\s*[,:;]\s*/ : /\s+-\s+|(?<=\d)-(?=\d+-)|(?<=-\d+)-(?=\d)/)
      .map((name) => name.trim())
      .filter((name) => name !== "");
    const all = match[1] && !/^(?:are|is|in|given|shown)$/i.test(match[1]) ? [match[1], ...rest] : rest;
    if (all.length > 1) return all;
  }
  return inferSizes(lines);
}

/** `50, 52`, `50-52`, `2–52, 2–56`: where there are commas, dashes are of ranges. */
function entriesOf(list: string): number {
  return /[,:;]/.test(list) ? list.split(/[,:;]/).length : (list.match(/\d+/g) ?? []).length;
}

/** No line of sizes: the first starting chain or row with a list tells how many there are. */
function inferSizes(lines: readonly LineContent[]): string[] {
  for (const line of lines) {
    if (line.kind !== "foundation" && line.kind !== "row") continue;
    const match = sizedNumber.exec(line.text);
    if (match) return [...Array(entriesOf(match[1] as string) + 1).keys()].map((n) => `size ${n + 1}`);
    if (line.kind === "foundation") {
      const bracket = onlyBracket.exec(line.text);
      if (bracket) return ((bracket[1] as string).match(/\d+/g) ?? []).map((_, n) => `size ${n + 1}`);
      const two = /ch\w*\s*\d+\s*\(\s*(\d+)\s*\)/i.exec(line.text);
      if (two) return ["size 1", "size 2"];
    }
  }
  return ["one size"];
}
