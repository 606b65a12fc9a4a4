import { type SaidWord, type Sentence, sentencesOf } from "../notation/assembly";
import type { LineContent } from "../notation/document";
import type { PatternLine } from "../notation/lines";
import { singular } from "../notation/nouns";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import type { Span } from "../text/span";
import {
  figures,
  goTogether,
  partsOfFew,
  type SortName,
  type SortOfThing,
  sortsOfThings,
} from "../trade/things-made";
import { otherSizes } from "./blocked-size";
import { leftOverParts } from "./left-over-parts";
import { inProse, type SaidInPart } from "./outline";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { sewnUnheardOf } from "./sewn-things";

/** A sentence speaks of something that belongs to another sort of thing than the pattern is of. */
export const leftOverText: PatternRule = {
  id: "left-over-text",
  severity: "information",
  documentation: `## What it finds
A sentence that speaks of a thing of another sort than the pattern is of, when nothing else in the pattern names anything of that sort: the shawl in a pattern for a bag, the eyes of the fox on a cushion, the bear in a pattern for a seal. Also a size to block to that is none of the finished sizes.

## Why it matters
Patterns are written over the text of the last one. What was left over leaves the maker searching for it.

## Example
\`\`\`crochet
Market Bag
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Finishing
Block the shawl and weave in the ends.
\`\`\`

## Mended
\`\`\`crochet
Market Bag
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Finishing
Block the bag and weave in the ends.
\`\`\`
`,
  check(pattern) {
    const begins = pattern.pieces[0]?.rows[0]?.line.span.end;
    if (begins === undefined) return [];
    const words = wordsSaid(pattern)
      .filter((one) => one.line.start >= begins && isLeftOver(one, pattern) && !isToldAsPiece(one, pattern))
      .map(({ said, line }) => found(said, line, pattern));
    return [...words, ...otherSizes(pattern)];
  },
};

/** What a word of the tables tells of: the sorts it belongs to, the kind of figure it is. */
interface Known {
  readonly sorts: readonly SortName[];
  readonly figure: number | null;
  /** The kind of part that only some figures have. */
  readonly part: number | null;
  /** A thing, not a part of one. */
  readonly isThing: boolean;
}

const sortNames = Object.keys(sortsOfThings) as readonly SortName[];

const known: ReadonlyMap<string, Known> = new Map(
  [
    ...sortNames.flatMap((name) => wordsOf(sortsOfThings[name])),
    ...figures.flat(),
    ...partsOfFew.flatMap(({ parts }) => parts),
  ].map((word) => [word, knownOf(word)]),
);

function wordsOf({ things, parts }: SortOfThing): readonly string[] {
  return [...things, ...parts];
}

function knownOf(word: string): Known {
  const figure = kindOf(word, figures);
  const part = kindOf(
    word,
    partsOfFew.map(({ parts }) => parts),
  );
  const sorts = sortNames.filter((name) => wordsOf(sortsOfThings[name]).includes(word));
  const isThing =
    figure !== null || sorts.some((name) => sortsOfThings[name].things.some((one) => one === word));
  const isToy = (figure !== null || part !== null) && !sorts.includes("toys");
  return { sorts: isToy ? [...sorts, "toys"] : sorts, figure, part, isThing };
}

function kindOf(word: string, kinds: readonly (readonly string[])[]): number | null {
  const at = kinds.findIndex((kind) => kind.includes(word));
  return at < 0 ? null : at;
}

/** A word of the tables, where a sentence handles what it names. */
interface HandledWord {
  readonly word: SaidWord;
  readonly noun: string;
  readonly sentence: Sentence;
}

const wordsSaid = inProse((line) => sentencesOf(line).flatMap(handledIn));

function handledIn(sentence: Sentence): HandledWord[] {
  return sentence.words
    .map((word) => ({ word, noun: singular(word.word.replace(possessive, "")), sentence }))
    .filter(isHandled);
}

const possessive = /['’]s?$/;
const definite = /\b(?:the|your|this|both|each|finished)\s+(?:\p{L}+\s+){0,2}$/iu;
/** Neither a likeness nor somebody it is for: `like a scarf`, `for a doll`. */
const likened =
  /\b(?:(?:like|as|for|from|if|or|instead\s+of|laundry|wash(?:ing)?)\s+(?:an?\s+|the\s+|your\s+)?|(?:by|under|inside)\s+(?:an?\s+|your\s+)?)(?:\p{L}+\s+)?$/iu;
/** `blanket stitch`, `cushion pad`, `the scarf that you took off`. */
const otherMeaning =
  /^[\s-]+(?:you|that|which|who|stitch|st|pad|form|clips?|pins?|makers?|brush|band|collar|edging)\b/i;
/** A part is at hand only where it is the object: `stuff the left`. */
const handling =
  /\b(?:sew|stuff|join|attach|fill|turn|fold|set|stuffing|sewing|press)\s+(?:(?:in|on|up|down|under)\s+)?(?:the|all|both|each)\s+(?:\p{L}+\s+){0,2}?$/iu;

/** What something is put on: `Attach the tassels to the hood`. */
const putOn =
  /\b(?:sew|join|attach|stitch|tack|pin)\s+(?:[^.;]{1,40}?\s)?(?:to|onto|on|around|along)\s+(?:the|both|each)\s+(?:\p{L}+\s+)?$/iu;

/** Things at hand while one works, where something is done with, on or in them: `Pin it to the mat`, `roll it in a towel`. */
const aids = new Set(
  "mat towel cloth flannel bowl basket bin tray cushion pillow bag kettle mug jar bottle vase napkin".split(
    " ",
  ),
);
const aside =
  /\b(?:to|on|onto|in|into|inside|over|with|under|underneath|around|against|between|from)\s+(?:the|your|an?|this)\s+(?:\p{L}+\s+){0,2}$/iu;

/** `Fold the square in half`: a shape that any thing may have, unless several are put together. */
function isShape({ sorts }: Known, { deeds }: Sentence): boolean {
  return sorts.every((name) => name === "joined") && deeds.every(({ does }) => does !== "sew");
}

function isHandled({ word: { start, end }, noun, sentence }: HandledWord): boolean {
  const entry = known.get(noun);
  if (!entry || isShape(entry, sentence)) return false;
  const { text, start: from } = sentence;
  const isCompound = text.charAt(end - from) === "-" || text.charAt(start - from - 1) === "-";
  const before = text.slice(0, start - from);
  const isAid = aids.has(noun) && aside.test(before) && !putOn.test(before);
  const isOther = isAid || likened.test(before) || otherMeaning.test(text.slice(end - from));
  return (
    !isCompound &&
    !isOther &&
    (entry.isThing ? definite.test(before) : handling.test(before) || putOn.test(before))
  );
}

function isLeftOver(one: SaidInPart<HandledWord>, pattern: WorkedPattern): boolean {
  const entry = known.get(one.said.noun) as Known;
  const own = ownWords(pattern);
  if (isForeign(entry, own)) return isAlone(one, pattern, (other) => isAkin(entry, other));
  const { part } = entry;
  return (
    part !== null &&
    isPartOfOthers(part, own) &&
    isAlone(one, pattern, (other) => known.get(other)?.part === part)
  );
}

/** The trunk of a puffin. */
function isPartOfOthers(part: number, own: readonly Known[]): boolean {
  const bearers = partsOfFew[part]?.bearers ?? [];
  const figuresOf = own.flatMap(({ figure }) => (figure === null ? [] : [figures[figure] ?? []]));
  return figuresOf.length > 0 && !figuresOf.some((names) => names.some((name) => bearers.includes(name)));
}

/** What is sewn on and not made is told as a piece. */
function isToldAsPiece({ said: { word }, line }: SaidInPart<HandledWord>, pattern: WorkedPattern): boolean {
  const isHere = (start: number, at: number): boolean => at + start === line.start + word.start;
  return (
    sewnUnheardOf(pattern).some(({ thing, said }) => isHere(thing.start, said.line.start)) ||
    leftOverParts(pattern).some(({ span }) => isHere(span.start, 0))
  );
}

/** What the pattern is of, by its title and headings, is something else; things are named together that have no parts in common. */
function isForeign({ sorts, figure, isThing }: Known, own: readonly Known[]): boolean {
  if (figure !== null && own.some((one) => one.figure !== null))
    return own.every((one) => one.figure !== figure);
  const all = own.flatMap((one) => one.sorts);
  const isNear = (one: SortName, other: SortName): boolean =>
    one === other || ((isThing || one === "toys") && areTogether(one, other));
  return all.length > 0 && !all.some((one) => sorts.some((sort) => isNear(one, sort)));
}

function areTogether(a: SortName, b: SortName): boolean {
  return goTogether.some(([one, other]) => (one === a && other === b) || (one === b && other === a));
}

/** How many lines at the top may be the title. */
const linesOfTitle = 2;

interface OwnWord extends Known {
  readonly noun: string;
}

const ownWords = keptBy(({ lines }: WorkedPattern): readonly OwnWord[] => {
  const filled = lines.filter(({ kind }) => kind !== "blank");
  const title = filled.slice(0, linesOfTitle);
  const told = [...title, ...filled.slice(linesOfTitle).filter(({ kind }) => kind === "heading")];
  return told.flatMap(({ content }) => nounsIn(content).flatMap(({ noun }) => ownWord(noun)));
});

function ownWord(noun: string): OwnWord[] {
  const entry = known.get(noun);
  return entry ? [{ ...entry, noun }] : [];
}

interface PlacedNoun {
  readonly noun: string;
  readonly start: number;
}

/** All words of a line that may belong to something of the tables. */
const nounsIn = keptBy(({ text }: LineContent): readonly PlacedNoun[] =>
  [...text.matchAll(/\p{L}{3,}/gu)].map(({ 0: typed, index }) => ({
    noun: singular(typed.toLowerCase()),
    start: index,
  })),
);

/** No other sentence has the word or one like it. */
function isAlone(
  { said: { noun, sentence }, line }: SaidInPart<HandledWord>,
  { lines }: WorkedPattern,
  isLike: (noun: string) => boolean,
): boolean {
  const isOwn = ({ start }: PlacedNoun): boolean => sentence.start <= start && start < sentence.end;
  return !lines.some(
    (one) =>
      one.kind !== "blank" &&
      nounsIn(one.content).some(
        (other) => !(one === line && isOwn(other)) && (isMadeOf(other.noun, noun) || isLike(other.noun)),
      ),
  );
}

/** `foxy`, `sunhat`. */
function isMadeOf(other: string, noun: string): boolean {
  return other.startsWith(noun) || (other.endsWith(noun) && !/^(?:that|what)$/.test(other));
}

/** Another word for a thing of the sort. */
function isAkin({ sorts, figure }: Known, other: string): boolean {
  const entry = known.get(other);
  if (!entry) return false;
  return figure === null ? entry.sorts.some((one) => sorts.includes(one)) : entry.figure === figure;
}

function found(
  { word: { start, end, word }, noun }: HandledWord,
  line: PatternLine,
  pattern: WorkedPattern,
): Found {
  const plain = word.replace(possessive, "");
  const span = { start: line.start + start, end: line.start + end - (word.length - plain.length) };
  return {
    span,
    message: say`This speaks of "${plain}", and nothing else in the pattern does. Is it left over from another pattern?`,
    fixes: otherName(known.get(noun) as Known, ownWords(pattern)).map((name) => renaming(name, span)),
    related: [],
  };
}

/** What the pattern calls what it is of, if that is one thing alone; the eyes of a fox are no eyes of a cushion. */
function otherName({ isThing, figure }: Known, own: readonly OwnWord[]): readonly string[] {
  const alike = own.filter((one) => one.isThing && (one.figure === null) === (figure === null));
  const names = [...new Set(alike.map(({ noun }) => noun))];
  return isThing && names.length === 1 ? names : [];
}

function renaming(newText: string, span: Span): Fix {
  return { title: say`Write "${newText}"`, edits: () => [{ span, newText }] };
}
