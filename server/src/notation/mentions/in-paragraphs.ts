import type { Chunk } from "../../text/chunks";
import { keptBy } from "../../text/kept-by";
import { Lately } from "../../text/lately";
import type { LineContent } from "../document";
import type { ParagraphContent } from "../paragraphs";
import type { AbbreviationMention } from "./abbreviations";
import { type Mentions, mentionsOf } from "./mentions";

/** Abbreviations that stand in rows together; equal ones are one object. */
export interface AbbreviationSet {
  readonly keys: readonly string[];
}

/** What the lines of a paragraph mention; `at` counts its lines from 0. */
export interface ParagraphMentions {
  /** Of its rows, each where it stands first. */
  readonly abbreviations: readonly { readonly at: number; readonly mention: AbbreviationMention }[];
  readonly abbreviationSet: AbbreviationSet;
  /** Lines that mention more than words. */
  readonly telling: readonly { readonly at: number; readonly mentions: Mentions }[];
  /** In lower case. */
  readonly words: ReadonlySet<string>;
  /** Capitals that stand alone, as letters of yarns do. */
  readonly letters: ReadonlySet<string>;
}

/** Found once for each paragraph, whatever is edited elsewhere. */
export const mentionsInParagraph = keptBy(({ lines }: ParagraphContent): ParagraphMentions => {
  const all = lines.map((line, at) => ({ at, isWorked: isWorked(line), mentions: mentionsOf(line) }));
  const abbreviations = new Map<string, { at: number; mention: AbbreviationMention }>();
  for (const { at, isWorked, mentions } of all)
    for (const mention of isWorked ? mentions.abbreviations : [])
      if (!abbreviations.has(mention.key)) abbreviations.set(mention.key, { at, mention });
  return {
    abbreviations: [...abbreviations.values()],
    abbreviationSet: setOf([...abbreviations.keys()]),
    telling: all.filter(({ mentions }) => !mentions.isPlain),
    words: new Set(all.flatMap(({ mentions }) => mentions.words)),
    letters: new Set(all.flatMap(({ mentions }) => mentions.letters)),
  };
});

/** What some paragraphs mention; `in` counts them from 0. */
export interface ChunkMentions extends Pick<ParagraphMentions, "words" | "letters"> {
  /** The first paragraph with each set of abbreviations. */
  readonly sets: readonly (Pick<ParagraphMentions, "abbreviations" | "abbreviationSet"> & {
    readonly in: number;
  })[];
  readonly telling: readonly (ParagraphMentions["telling"][number] & { readonly in: number })[];
}

/** Put together once for each chunk of paragraphs, whatever is edited elsewhere. */
export const mentionsInChunk = keptBy(({ items }: Chunk<ParagraphContent>): ChunkMentions => {
  const all = items.map((content, at) => ({ ...mentionsInParagraph(content), in: at }));
  const firsts = new Map<AbbreviationSet, (typeof all)[number]>();
  for (const one of all) if (!firsts.has(one.abbreviationSet)) firsts.set(one.abbreviationSet, one);
  return {
    sets: [...firsts.values()],
    telling: all.flatMap((one) => one.telling.map((line) => ({ ...line, in: one.in }))),
    words: union(all.map(({ words }) => words)),
    letters: union(all.map(({ letters }) => letters)),
  };
});

function union(sets: readonly ReadonlySet<string>[]): ReadonlySet<string> {
  return new Set(sets.flatMap((set) => [...set]));
}

function isWorked({ kind }: LineContent): boolean {
  return kind === "row" || kind === "foundation" || kind === "copy";
}

const sets = new Lately<AbbreviationSet>(1_000);

function setOf(keys: readonly string[]): AbbreviationSet {
  const name = keys.toSorted().join(" ");
  let found = sets.get(name);
  if (!found) {
    found = { keys };
    sets.set(name, found);
  }
  return found;
}
