import { keptBy } from "../../text/kept-by";
import type { LineContent } from "../document";
import type { ParagraphContent } from "../paragraphs";
import type { AbbreviationMention } from "./abbreviations";
import { type Mentions, mentionsOf } from "./mentions";
import type { WordSet } from "./word-set";

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
  readonly wordSets: readonly WordSet[];
}

/** Found once for each paragraph, whatever is edited elsewhere. */
export const mentionsInParagraph = keptBy(({ lines }: ParagraphContent): ParagraphMentions => {
  const abbreviations = new Map<string, { at: number; mention: AbbreviationMention }>();
  const telling: { at: number; mentions: Mentions }[] = [];
  const wordSets = new Set<WordSet>();
  lines.forEach((line, at) => {
    const mentions = mentionsOf(line);
    wordSets.add(mentions.wordSet);
    if (!mentions.isPlain) telling.push({ at, mentions });
    if (isWorked(line))
      for (const mention of mentions.abbreviations)
        if (!abbreviations.has(mention.key)) abbreviations.set(mention.key, { at, mention });
  });
  const found = [...abbreviations.values()];
  return {
    abbreviations: found,
    abbreviationSet: setOf([...abbreviations.keys()]),
    telling,
    wordSets: [...wordSets],
  };
});

function isWorked({ kind }: LineContent): boolean {
  return kind === "row" || kind === "foundation" || kind === "copy";
}

const setsAtMost = 10_000;
const sets = new Map<string, AbbreviationSet>();

function setOf(keys: readonly string[]): AbbreviationSet {
  const name = keys.toSorted().join(" ");
  let found = sets.get(name);
  if (!found) {
    if (sets.size >= setsAtMost) sets.clear();
    found = { keys };
    sets.set(name, found);
  }
  return found;
}
