import type { Pattern } from "../../fabric/pattern";
import { listedNumbers } from "../../notation/document";
import { frontMatterOf } from "../../notation/front-matter/front-matter";
import type { PatternLine } from "../../notation/lines";
import { isFiller } from "../../notation/vocabulary";
import { readWords, type Word } from "../../notation/words";
import { say } from "../../text/say";
import { shift, type TextEdit } from "../../text/span";
import { type Language, stitchNamesIn } from "../../trade/languages/languages";
import { stitchOf, type Terms } from "../../trade/stitches";
import { likeCase } from "./like-case";
import { isOwn, type LeftAlone, type Turned } from "./turn-terms";

/**
 * The rows and the list of abbreviations of an English pattern in another language, word for word: a draft
 * that a maker of that language has to go over. Stitches are written by names with a source only; whatever
 * has none stays as it is, and is listed. Prose stays English.
 */
export function draftIn(language: Language, pattern: Pick<Pattern, "lines" | "context">): Turned {
  const words = new WordsOf(language, pattern.context.terms);
  const lists = frontMatterOf(pattern.lines).abbreviations.flatMap(({ entries }) => entries);
  const isListed = ({ start, end }: PatternLine) =>
    lists.some((entry) => entry.start >= start && entry.start < end);
  const lines = pattern.lines
    .filter((line) => isWorked(line) || isListed(line))
    .map((line) => ({ line, turned: turnLine(line, words, pattern.context) }));
  return {
    edits: lines.flatMap(({ line, turned }) =>
      turned.edits.map(({ span, newText }) => ({ span: shift(span, line.start), newText })),
    ),
    left: lines.flatMap(({ line, turned }) =>
      turned.left.map((one) => ({ ...one, ...shift(one, line.start) })),
    ),
  };
}

function isWorked({ kind }: PatternLine): boolean {
  return kind === "row" || kind === "foundation" || kind === "copy";
}

/** What a language writes for words of ours. */
class WordsOf {
  private readonly stitches: ReadonlyMap<string, readonly string[]>;
  private readonly others = new Map<string, string>();

  constructor(
    readonly language: Language,
    private readonly terms: Terms,
  ) {
    this.stitches = stitchNamesIn(language, "sourced");
    for (const [english, spellings] of Object.entries(language.words)) {
      const [word, ...more] = readWords(english, { words: new Map(), sizes: 1 });
      if (word && more.length === 0) this.others.set(keyOf(word), firstOf(spellings));
    }
  }

  /** Undefined where the language has none; null for what all languages write alike. */
  of(word: Word, found: string): string | null | undefined {
    if (!/\p{L}/u.test(found) || /^x$/i.test(found)) return null;
    if (!stitchClasses.includes(word.cls)) return this.others.get(keyOf(word));
    const us = usNameOf(word, this.terms);
    const names = us === undefined ? undefined : this.stitches.get(us);
    return found.length > longestAbbreviation ? (names?.find(isInFull) ?? names?.[0]) : names?.[0];
  }
}

/** Stitch, slip stitch, chain and ring. */
const stitchClasses = "Slcg";
const longestAbbreviation = 5;

function isInFull(name: string): boolean {
  return name.length > longestAbbreviation && !name.includes(".");
}

function usNameOf({ cls, value }: Word, terms: Terms): string | undefined {
  if (cls === "g") return "magic ring";
  if (cls === "c") return "ch";
  return cls === "l" ? "sl st" : stitchOf(value, terms)?.us;
}

function keyOf({ cls, value }: Word): string {
  return `${cls} ${value}`;
}

function firstOf(spellings: string): string {
  return spellings.split("|")[0] as string;
}

/** One line, in offsets of its text. */
function turnLine({ content }: PatternLine, words: WordsOf, context: Pattern["context"]): Turned {
  const { head, text, kind } = content;
  const edits = headEdits(content, words.language);
  const chain = kind === "foundation" ? foundationIn(words.language, text) : null;
  if (chain) return { edits: [chain], left: [] };
  const from = head?.length ?? 0;
  const read = readWords(text.slice(from), context.lexicon).map((one) => ({ ...one, ...shift(one, from) }));
  // Starting chains in other words, and what names rows: half of it in another language says nothing.
  if (kind === "foundation" || kind === "copy" || namesRows(read))
    return {
      edits,
      left: [{ start: from, end: text.length, word: text.slice(from), why: say`put into words` }],
    };
  const isList = kind !== "row";
  const left: LeftAlone[] = [];
  let end = from;
  for (const word of read) {
    if (!isList) edits.push(...withoutFillers(text, end, word.start));
    end = word.end;
    const found = text.slice(word.start, word.end);
    if (isOwn(found, context.lexicon.words) || (isList && !stitchClasses.includes(word.cls))) continue;
    const written = words.of(word, found);
    const span = { start: word.start, end: word.end };
    if (written === undefined)
      left.push({ ...span, word: found, why: say`no ${words.language.name} word with a source is known` });
    else if (written !== null) edits.push({ span, newText: likeCase(written, found) });
  }
  return { edits, left };
}

function namesRows(words: readonly Word[]): boolean {
  return words.some(({ cls }, i) => cls === "R" && words[i + 1]?.cls === "n");
}

/** `Ch 16.` and nothing else. */
function foundationIn({ chain }: Language, text: string): TextEdit | null {
  const [found, number] = /^ch(?:ain)?\s*(\d+)(?=\.?\s*$)/i.exec(text) ?? [];
  if (found === undefined || number === undefined || chain.written === "") return null;
  return { span: { start: 0, end: found.length }, newText: chain.written.replace("{n}", number) };
}

function headEdits({ head, text }: PatternLine["content"], language: Language): TextEdit[] {
  if (!head || head.from === null || head.word === "none" || listedNumbers(head).length > 0) return [];
  const { written } = language[head.word === "round" ? "round" : "row"];
  const start = text.indexOf(head.text);
  if (written === "" || start < 0 || (head.to?.length ?? 1) > 1) return [];
  const numbers = head.to ? `${head.from}-${head.to[0]}` : `${head.from}`;
  return [{ span: { start, end: start + head.text.length }, newText: written.replace("{n}", numbers) }];
}

/** "the", "a" and the like say nothing, and other languages have other ones. */
function withoutFillers(text: string, from: number, to: number): TextEdit[] {
  return [...text.slice(from, to).matchAll(/(\p{L}+)\s*/gu)].flatMap(({ 0: found, 1: word, index }) =>
    isFiller((word as string).toLowerCase())
      ? [{ span: { start: from + index, end: from + index + found.length }, newText: "" }]
      : [],
  );
}
