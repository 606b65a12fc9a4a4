import { keptBy } from "../text/kept-by";
import type { Span } from "../text/span";
import { numberWords } from "../trade/number-words";
import type { LineContent } from "./document";
import { singular } from "./nouns";
import { type RowReference, readRowReferences } from "./row-references";

/** What a sentence of prose asks for. */
export type Deed = "sew" | "place" | "lace" | "stuff" | "close" | "finish" | "go-on";

/** A sentence that tells how pieces are finished and put together. Spans count from the start of its line. */
export interface Sentence extends Span {
  readonly text: string;
  readonly words: readonly SaidWord[];
  readonly deeds: readonly (Span & { readonly does: Deed })[];
  readonly rows: readonly RowReference[];
}

export interface SaidWord extends Span {
  /** In lower case. */
  readonly word: string;
  /** In the singular. */
  readonly noun: string;
}

/** The common verbs of the trade, from its abbreviation lists and from practice. */
const deeds: readonly (readonly [Deed, RegExp])[] = [
  [
    "sew",
    /\b(?:sew|whip(?:[\s-]?stitch|(?=\s+(?:the|it|them)\b))|over-?sew|overcast|graft|tack|appliqu|glue|attach|join|secure|mount|(?:pin(?!\s[^.]*\bout\b)|fasten|set(?=\s+in)|crochet(?=[^.]*\b(?:on)?to\b))(?=\s+(?:in\s+)?(?:the|an?|each|both)\b)|stitch(?=\s+an?\b[^.]*\b(?:on)?to\b)|stitch(?=(?:ing)?\s+(?:the|it|them|on|each|both|together|down|rows?|rnds?|rounds?)\b)|stitched(?=\s+(?:\p{L}+\s+)?(?:to|on|onto|at|over|between|along|in|around|under\p{L}*|below|down|together)\b))\w*/giu,
  ],
  [
    "place",
    /\b(?:insert|place|put|attach|add|fit|fix|snap|set|position|secure|install|pop|push|slot|mount|click)(?:s|es|d|ed|ped|ing|ping)?\b/giu,
  ],
  [
    "lace",
    /\b(?:lac|thread|weav|run|pull|draw|insert)(?:e|es|ing)?\b(?=[^.]*\b(?:through|in\s+and\s+out)\b)/giu,
  ],
  ["stuff", /\b(?:stuff|fill)(?:ed|ing)?\b/giu],
  [
    "close",
    /\b(?:clos(?:e|ed|ing)|shut|cinch|gather|draw\w*\s+(?:it\s+)?up|pull\w*\s+(?:it\s+)?tight(?:ly)?)\b/giu,
  ],
  [
    "finish",
    /\b(?:fasten(?:ing)?\s+off|f\s?\/\s?o|fo|(?:break|finish|tie|bind)\s+off|cut|leav(?:e|ing)\b[^.]*\b(?:tail|end|yarn|long))\b/giu,
  ],
  ["go-on", /\b(?:continu(?:e|ing)|(?:do\s+not|don['’]t)\s+(?:cut|fasten|break|finish))\b/giu],
];

/** The sentences of a line. */
export const sentencesOf = keptBy((line: LineContent): readonly Sentence[] => readSentences(line.text));

/** Characters; a longer text is no prose. */
const longestText = 20_000;

/** The sentences of a text; a full stop inside a number ends none. */
export function readSentences(text: string): readonly Sentence[] {
  if (text.length > longestText) return [];
  return [...text.matchAll(/(?:[^.;!?]|[.;!?](?=\S))+[.;!?]?/g)]
    .filter(([sentence]) => /\p{L}/u.test(sentence))
    .map(({ 0: sentence, index }) => sentenceOf(sentence, index));
}

function sentenceOf(text: string, start: number): Sentence {
  const placed = <T extends Span>(one: T): T => ({ ...one, start: one.start + start, end: one.end + start });
  return {
    start,
    end: start + text.length,
    text,
    words: wordsOf(text).map((word, i, all) =>
      placed(isYarnTail(word, i, all) ? { ...word, noun: "yarn tail" } : word),
    ),
    deeds: deeds.flatMap(([does, verb]) => spansOf(text, verb).map((span) => placed({ ...span, does }))),
    rows: readRowReferences(text).map((one) => ({ ...placed(one), numbers: one.numbers.map(placed) })),
  };
}

const handling =
  /^(?:leave|leaving|long|yarn|sewing|use|using|with|thread|threading|weave|weaving|pull|pulling|draw|cut|cutting|hide|secure|knot|tie|starting|beginning|remaining|excess|excessive|inch|cm|fasten|off)$/;

/** `leaving a long tail`, `with the tail`: an end of yarn, not the tail of an animal. */
function isYarnTail({ noun }: SaidWord, at: number, words: readonly SaidWord[]): boolean {
  if (noun !== "tail") return false;
  const before = words.slice(Math.max(0, at - 4), at);
  const behind = words.slice(at + 1, at + 3).map(({ word }) => word);
  return (
    before.some(({ word }) => handling.test(word)) ||
    behind.join(" ") === "for sewing" ||
    behind[0] === "through"
  );
}

function spansOf(text: string, form: RegExp): Span[] {
  return [...text.matchAll(form)].map(({ 0: found, index }) => ({ start: index, end: index + found.length }));
}

function wordsOf(text: string): SaidWord[] {
  return [...text.matchAll(/\p{L}[\p{L}'’]*|\d+/gu)].map(({ 0: typed, index }) => {
    const word = typed.toLowerCase();
    return { word, noun: singular(word), start: index, end: index + typed.length };
  });
}

/** The words that a piece goes by, in the singular: of `Head and body (make 2)` one list for each of the two. */
export function nameWords(name: string): readonly (readonly string[])[] {
  const plain = name
    .toLowerCase()
    .replace(/\(.*?\)|\[.*?\]/g, " ")
    .replace(/\b[x×]\s*\d+|\b\d+\s*[x×]/gi, " ");
  return plain
    .split(/\band\b|[&/+]/)
    .map((part) => wordsOf(part).map(({ noun }) => noun))
    .map((words) => words.filter((word) => !/^(?:\d+|\p{L}|the|first|second|third|left|right)$/u.test(word)))
    .filter((words) => words.length > 0);
}

/** A piece with the words that it goes by. */
export interface Named<P> {
  readonly words: readonly (readonly string[])[];
  readonly piece: P;
}

/** Where a sentence speaks of pieces. */
export interface Mention<P> extends Span {
  /** Several where they share the word that is used. */
  readonly pieces: readonly P[];
  /** All pieces that the last word may mean: `hexagons` are the first one and those joined to it. */
  readonly kin: readonly P[];
  /** All words of the name are there, not only its last. */
  readonly isWhole: boolean;
  /** `ears`, not `ear`. */
  readonly isPlural: boolean;
  readonly many: Many | null;
}

/** How many of a piece a sentence speaks of. */
export interface Many extends Span {
  readonly n: number;
  /** `the two legs`, `both legs`: there are no others. */
  readonly isAll: boolean;
}

interface OneName<P> {
  readonly name: readonly string[];
  readonly piece: P;
}

/** The names of all pieces of a pattern, to be looked for in its sentences. */
export class PieceNames<P> {
  private readonly byLastWord = new Map<string, OneName<P>[]>();

  constructor(readonly all: readonly Named<P>[]) {
    for (const { words, piece } of all)
      for (const name of words) {
        const last = name.at(-1) as string;
        const alike = this.byLastWord.get(last) ?? [];
        this.byLastWord.set(last, alike);
        alike.push({ name, piece });
      }
  }

  /** Every mention of one of the pieces, in order. */
  mentionsIn({ words: all, rows }: Sentence): Mention<P>[] {
    if (!all.some(({ noun }) => this.byLastWord.has(noun))) return [];
    // `between Rnds 10 and 11 of the head`: eleven is no number of heads.
    const words = all.filter(({ start, end }) => !rows.some((row) => row.start <= start && end <= row.end));
    return words.flatMap((word, at) => {
      const alike = this.byLastWord.get(word.noun);
      return alike ? [mentionAt(words, at, alike)] : [];
    });
  }
}

function mentionAt<P>(words: readonly SaidWord[], at: number, alike: readonly OneName<P>[]): Mention<P> {
  const whole = alike.filter(({ name }) => isThere(name, words, at));
  const longest = Math.max(1, ...whole.map(({ name }) => name.length));
  const meant = whole.length > 0 ? whole.filter(({ name }) => name.length === longest) : alike;
  const from = at - longest + 1;
  return {
    start: (words[from] as SaidWord).start,
    end: (words[at] as SaidWord).end,
    pieces: [...new Set(meant.map(({ piece }) => piece))],
    kin: [...new Set(alike.map(({ piece }) => piece))],
    isWhole: whole.length > 0,
    isPlural: words[at]?.word !== words[at]?.noun,
    many: manyBefore(words, from),
  };
}

function isThere(name: readonly string[], words: readonly SaidWord[], at: number): boolean {
  return name.every((word, i) => words[at - name.length + 1 + i]?.noun === word);
}

/** `the 4 floats`, `both of the legs`, `all five petals`, `a pair of ears`. */
function manyBefore(words: readonly SaidWord[], from: number): Many | null {
  let at = from - 1;
  while (/^(?:the|of|your|these|finished)$/.test(words[at]?.word ?? "")) at--;
  const word = words[at];
  if (!word) return null;
  if (word.word === "pair") return pairBefore(words, at, word);
  const n = word.word === "both" ? 2 : (numberWords.get(word.word) ?? Number(word.word));
  if (!Number.isInteger(n)) return null;
  const isPartial = words[at + 1]?.word === "of" && word.word !== "both";
  const isAll = word.word === "both" || (/^(?:the|all)$/.test(words[at - 1]?.word ?? "") && !isPartial);
  return { n, isAll, start: word.start, end: word.end };
}

/** `the pair of ears`; of `each pair of ears` there may be several. */
function pairBefore(words: readonly SaidWord[], at: number, { start, end }: SaidWord): Many | null {
  const before = words[at - 1]?.word;
  return before === "the" || before === "a" ? { n: 2, isAll: before === "the", start, end } : null;
}
