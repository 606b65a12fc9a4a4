import type { LineContent } from "../notation/document";
import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import type { HookSize } from "../notation/front-matter/hooks";
import type { LengthPair } from "../notation/front-matter/lengths";
import type { PatternLine } from "../notation/lines";
import type { AbbreviationMention } from "../notation/mentions/abbreviations";
import {
  type AbbreviationSet,
  mentionsInChunk,
  mentionsInParagraph,
  type ParagraphMentions,
} from "../notation/mentions/in-paragraphs";
import { type Mentions, mentionsOf } from "../notation/mentions/mentions";
import type { SizeList } from "../notation/mentions/size-lists";
import type { YarnMention } from "../notation/mentions/yarns";
import { type ParagraphContent, paragraphChunksOf, paragraphsOf } from "../notation/paragraphs";
import type { PlacedChunk } from "../text/chunks";
import { keptBy } from "../text/kept-by";
import { type Span, shift } from "../text/span";
import type { WorkedPattern } from "./rule";

/** Something that a line names, with the line. */
export interface Used<M> {
  readonly line: PatternLine;
  readonly mention: M;
}

/** What the rows and sentences of a pattern use of what its front matter lists. */
export interface Uses {
  /** By its key: where a row uses the abbreviation first. */
  readonly abbreviations: ReadonlyMap<string, Used<AbbreviationMention>>;
  readonly yarns: readonly Used<YarnMention>[];
  readonly hooks: readonly Used<HookSize>[];
  /** Also those of the front matter. */
  readonly lengthPairs: readonly Used<LengthPair>[];
  readonly sizeLists: readonly Used<SizeList>[];
  /** Whether a word, in lower case, stands anywhere outside the lists. */
  says(word: string): boolean;
  /** Whether a letter stands alone anywhere outside the lists. */
  hasLetter(letter: string): boolean;
}

/** Where a mention stands in the pattern. */
export function placeOf({ line, mention }: Used<Span>): Span {
  return shift({ start: mention.start, end: mention.end }, line.start);
}

/** `Rnd 3`, where the line is a row. */
export function rowOf({ line }: Used<unknown>): string | null {
  return line.head?.text ?? null;
}

/** Read once for all rules that ask. */
export const usesOf = keptBy((pattern: WorkedPattern): Uses => {
  const draft = new UsesDraft(pattern.lines);
  for (const placed of paragraphChunksOf(pattern.lines)) draft.take(placed);
  return draft;
});

class UsesDraft implements Uses {
  readonly abbreviations = new Map<string, Used<AbbreviationMention>>();
  readonly yarns: Used<YarnMention>[] = [];
  readonly hooks: Used<HookSize>[] = [];
  readonly lengthPairs: Used<LengthPair>[] = [];
  readonly sizeLists: Used<SizeList>[] = [];
  /** Rows are much alike: their abbreviations are looked at once. */
  private readonly seen = new Set<AbbreviationSet>();
  private readonly front: FrontMatter;

  constructor(private readonly lines: readonly PatternLine[]) {
    this.front = frontMatterOf(lines);
  }

  says(word: string): boolean {
    return this.some(({ words }) => words.has(word));
  }

  hasLetter(letter: string): boolean {
    return this.some(({ letters }) => letters.has(letter));
  }

  take({ chunk, from }: PlacedChunk<ParagraphContent>): void {
    const { sets, telling } = mentionsInChunk(chunk);
    for (const { abbreviationSet, abbreviations, in: i } of sets) {
      if (this.seen.has(abbreviationSet)) continue;
      this.seen.add(abbreviationSet);
      for (const { at, mention } of abbreviations)
        if (!this.abbreviations.has(mention.key))
          this.abbreviations.set(mention.key, this.used(this.firstOf(from + i) + at, mention));
    }
    for (const { at, mentions, in: i } of telling) this.takeTelling(this.firstOf(from + i) + at, mentions);
  }

  /** The index of the first line of a paragraph. */
  private firstOf(paragraph: number): number {
    return paragraphsOf(this.lines)[paragraph]?.first ?? 0;
  }

  private used<M>(at: number, mention: M): Used<M> {
    return { line: this.lines[at] as PatternLine, mention };
  }

  private takeTelling(at: number, { lengthPairs, sizeLists, yarns, hooks }: Mentions): void {
    for (const mention of lengthPairs) this.lengthPairs.push(this.used(at, mention));
    for (const mention of sizeLists) this.sizeLists.push(this.used(at, mention));
    if (this.front.listLines.has(this.lines[at]?.start ?? -1)) return;
    for (const mention of yarns) this.yarns.push(this.used(at, mention));
    for (const mention of hooks) this.hooks.push(this.used(at, mention));
  }

  private some(holds: Holds): boolean {
    return paragraphChunksOf(this.lines).some(
      ({ chunk, from }) =>
        holds(mentionsInChunk(chunk)) &&
        chunk.items.some((content, i) => this.isIn(content, this.firstOf(from + i), holds)),
    );
  }

  private isIn(content: ParagraphContent, first: number, holds: Holds): boolean {
    const isListed = (_: unknown, at: number) =>
      this.front.listLines.has(this.lines[first + at]?.start ?? -1);
    if (!holds(mentionsInParagraph(content))) return false;
    const { lines } = content;
    return !lines.some(isListed) || lines.some((line, at) => !isListed(line, at) && holds(setsOf(line)));
  }
}

type Holds = (said: Pick<ParagraphMentions, "words" | "letters">) => boolean;

function setsOf(line: LineContent): Pick<ParagraphMentions, "words" | "letters"> {
  const { words, letters } = mentionsOf(line);
  return { words: new Set(words), letters: new Set(letters) };
}
