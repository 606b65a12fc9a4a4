import { removeAbbreviation } from "../notation/front-matter/abbreviations";
import type { Definition } from "../notation/front-matter/definitions";
import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { keyOfAbbreviation } from "../trade/abbreviations";
import { explainingLists } from "./listed";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { type Uses, usesOf } from "./uses";

/** The list explains an abbreviation that nothing in the pattern uses. */
export const unusedAbbreviation: PatternRule = {
  id: "unused-abbreviation",
  severity: "hint",
  documentation: `## What it finds
An entry in the list of abbreviations, or of the stitches used, that no row and no sentence of the pattern uses.

## Why it matters
It does no harm, but it may be left over from another pattern, or a row may lack the stitch it was listed for.

## Example
\`\`\`crochet
Abbreviations
sc - single crochet
inc - 2 sc in the same st
hdc - half double crochet

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
\`\`\`

## Mended
\`\`\`crochet
Abbreviations
sc - single crochet
inc - 2 sc in the same st

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
\`\`\`
`,
  check(pattern) {
    const uses = usesOf(pattern);
    if (uses.abbreviations.size === 0) return [];
    return explainingLists(pattern).flatMap(({ entries }) => unusedIn(entries, uses, pattern));
  },
};

function unusedIn(entries: readonly Definition[], uses: Uses, pattern: WorkedPattern): Found[] {
  const explaining = explainingWords(frontMatterOf(pattern.lines));
  return entries
    .filter(({ names }) => !names.some((name) => uses.abbreviations.has(keyOfAbbreviation(name))))
    .filter((entry) => !isSaid(entry, uses, explaining) && !isInAnother(entry, entries))
    .map((entry) => ({
      span: { start: entry.start, end: entry.end },
      message: say`"${entry.name.text}" is in the list of abbreviations, and nothing in the pattern uses it.`,
      fixes: [
        {
          title: say`Take it out of the list`,
          edits: () => removeAbbreviation(pattern.text, entries, entry),
        },
      ],
      related: [],
    }));
}

/** Special stitches, gauge and other lists use abbreviations too. */
const explainingWords = keptBy(({ lines, abbreviations }: FrontMatter): ReadonlySet<string> => {
  const others = lines.filter(
    ({ topic, content }) =>
      topic !== "abbreviations" &&
      topic !== "stitches" &&
      !abbreviations.some(({ title }) => title.start === content.start),
  );
  return new Set(others.flatMap(({ line }) => wordsOf(line.text.toLowerCase())));
});

function isSaid({ names }: Definition, uses: Uses, explaining: ReadonlySet<string>): boolean {
  const isWord = (word: string) => explaining.has(word) || uses.says(word);
  return names.some((name) => wordsOf(name).every(isWord));
}

/** `sc2tog` is used where `sc` and `tog` are. */
function wordsOf(name: string): string[] {
  return name.match(/\p{L}+/gu) ?? [];
}

/** `inc - 2 sc in the same st` uses `sc`. */
function isInAnother(entry: Definition, entries: readonly Definition[]): boolean {
  const [all, own] = [entriesThatSay(entries), wordsOfMeaning(entry)];
  return entry.names.some((name) => (all.get(name) ?? 0) > (own.has(name) ? 1 : 0));
}

/** In how many entries of a list a word is part of the meaning. */
const entriesThatSay = keptBy((entries: readonly Definition[]): ReadonlyMap<string, number> => {
  const sums = new Map<string, number>();
  for (const entry of entries)
    for (const word of wordsOfMeaning(entry)) sums.set(word, (sums.get(word) ?? 0) + 1);
  return sums;
});

const wordsOfMeaning = keptBy(
  ({ meaning }: Definition): ReadonlySet<string> => new Set(wordsOf(meaning?.text.toLowerCase() ?? "")),
);
