import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import type { HookSize } from "../notation/front-matter/hooks";
import type { LengthPair } from "../notation/front-matter/lengths";
import type { PatternLine } from "../notation/lines";
import type { AbbreviationMention } from "../notation/mentions/abbreviations";
import { type AbbreviationSet, mentionsInParagraph } from "../notation/mentions/in-paragraphs";
import { type Mentions, mentionsOf } from "../notation/mentions/mentions";
import type { SizeList } from "../notation/mentions/size-lists";
import type { WordSet } from "../notation/mentions/word-set";
import type { YarnMention } from "../notation/mentions/yarns";
import { type Paragraph, type ParagraphContent, paragraphsOf } from "../notation/paragraphs";
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
  /** In lower case: every word outside the lists. */
  readonly words: ReadonlySet<string>;
  readonly letters: ReadonlySet<string>;
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
  for (const paragraph of paragraphsOf(pattern.lines)) draft.take(paragraph);
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
  private known: Pick<Uses, "words" | "letters"> | null = null;

  constructor(private readonly lines: readonly PatternLine[]) {
    this.front = frontMatterOf(lines);
  }

  get words(): ReadonlySet<string> {
    return this.said.words;
  }

  get letters(): ReadonlySet<string> {
    return this.said.letters;
  }

  take({ content, first }: Paragraph): void {
    const { abbreviations, abbreviationSet, telling } = mentionsInParagraph(content);
    if (!this.seen.has(abbreviationSet)) {
      this.seen.add(abbreviationSet);
      for (const { at, mention } of abbreviations)
        if (!this.abbreviations.has(mention.key))
          this.abbreviations.set(mention.key, this.used(first + at, mention));
    }
    for (const { at, mentions } of telling) this.takeTelling(first + at, mentions);
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

  /** Asked for seldom: most names are found among the abbreviations and yarns. */
  private get said(): Pick<Uses, "words" | "letters"> {
    this.known ??= this.everythingSaid();
    return this.known;
  }

  private everythingSaid(): Pick<Uses, "words" | "letters"> {
    const sets = new Set<WordSet>();
    for (const { content, first } of paragraphsOf(this.lines))
      for (const set of this.wordSetsOf(content, first)) sets.add(set);
    return {
      words: new Set([...sets].flatMap(({ words }) => words)),
      letters: new Set([...sets].flatMap(({ letters }) => letters)),
    };
  }

  private wordSetsOf(content: ParagraphContent, first: number): readonly WordSet[] {
    const isListed = (_: unknown, at: number) =>
      this.front.listLines.has(this.lines[first + at]?.start ?? -1);
    if (!content.lines.some(isListed)) return mentionsInParagraph(content).wordSets;
    return content.lines.filter((line, at) => !isListed(line, at)).map((line) => mentionsOf(line).wordSet);
  }
}
