import { addAbbreviation } from "../notation/front-matter/abbreviations";
import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import { type AbbreviationMention, abbreviationsIn } from "../notation/mentions/abbreviations";
import { say } from "../text/say";
import { entryFor, needsNoList } from "../trade/abbreviations";
import { explainedBy, wholeList } from "./listed";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { placeOf, rowOf, type Used, usesOf } from "./uses";

/** A row uses an abbreviation that the pattern's list leaves out. */
export const undefinedAbbreviation: PatternRule = {
  id: "undefined-abbreviation",
  severity: "warning",
  documentation: `## What it finds
An abbreviation that rows use and the pattern's list of abbreviations leaves out. Those that everybody knows need no entry: st, rnd, RS, WS, inc and dec. A list under another title, such as "Stitch guide", counts if it explains more than stitches, and a pattern without a list is left alone.

## Why it matters
Who meets an abbreviation in the rows looks for it in the list. One that is missing there makes a beginner stop.

## Example
\`\`\`crochet
Abbreviations
sc - single crochet
inc - 2 sc in the same st

Rnd 1: 6 sc in magic ring (6)
Rnd 2: (sc, inc) x3 (9)
Rnd 3: hdc in each st around (9)
\`\`\`

## Mended
\`\`\`crochet
Abbreviations
sc - single crochet
inc - 2 sc in the same st
hdc - half double crochet

Rnd 1: 6 sc in magic ring (6)
Rnd 2: (sc, inc) x3 (9)
Rnd 3: hdc in each st around (9)
\`\`\`
`,
  check(pattern) {
    const list = wholeList(pattern);
    if (!list) return [];
    const { terms } = pattern.context;
    const front = frontMatterOf(pattern.lines);
    const { abbreviations } = usesOf(pattern);
    const others = usedInStitches(pattern, front).filter(({ mention }) => !abbreviations.has(mention.key));
    return [...abbreviations.values(), ...others]
      .filter((used) => !isExplained(used, front))
      .map((used): Found => {
        const { word } = used.mention;
        const meaning = entryFor(word, terms) ?? "";
        return {
          span: placeOf(used),
          message: messageFor(used, meaning),
          fixes: [
            {
              title: say`Add "${nameOf(word)}" to the abbreviations`,
              edits: () => addAbbreviation(pattern.text, list, nameOf(word), meaning),
            },
          ],
          related: [{ span: list.title, message: say`The list of abbreviations.` }],
        };
      });
  },
};

/** What the explanations of special stitches use, each where it stands first. */
function usedInStitches(
  { lines }: WorkedPattern,
  { specialStitches }: FrontMatter,
): Used<AbbreviationMention>[] {
  const found = new Map<string, Used<AbbreviationMention>>();
  for (const { meaning } of specialStitches) {
    const line = lines.find(({ start, end }) => meaning && start <= meaning.start && meaning.end <= end);
    if (!meaning || !line) continue;
    for (const mention of abbreviationsIn(meaning.text))
      if (!found.has(mention.key))
        found.set(mention.key, { line, mention: shifted(mention, meaning.start - line.start) });
  }
  return [...found.values()];
}

function shifted(mention: AbbreviationMention, by: number): AbbreviationMention {
  return { ...mention, start: mention.start + by, end: mention.end + by };
}

/** As a list has it: rows may begin with a capital. */
function nameOf(word: string): string {
  return /^\p{Lu}\p{Ll}/u.test(word) ? word.toLowerCase() : word;
}

function messageFor(used: Used<AbbreviationMention>, meaning: string): string {
  const name = nameOf(used.mention.word);
  const row = rowOf(used);
  const where = row === null ? "" : say`, in ${row} first,`;
  return say`"${name}" is used${where} and is not in the list of abbreviations. Add "${name} - ${meaning}".`;
}

function isExplained(
  { line, mention: { key, word } }: Used<AbbreviationMention>,
  front: FrontMatter,
): boolean {
  if (needsNoList(word) || needsNoList(key)) return true;
  const explained = explainedBy(front);
  if (explained.has(key) || isLikeAnother(key, explained)) return true;
  // `BLO: sc in each st` says how a row is worked.
  const colon = loopOnly.test(word) ? "" : ":|";
  const inWords = new RegExp(
    `(?<![\\p{L}\\d])${escaped(word)}\\s?(?:=|${colon}\\(|means\\b|is\\b)|\\(\\s?${escaped(word)}\\s?\\)`,
    "iu",
  );
  return inWords.test(line.text) || front.lines.some(({ line: { text } }) => inWords.test(text));
}

const loopOnly = /^[bf]lo?$/i;

/** Who knows `dc2tog` knows `dc3tog`; `tog` explains all of them. */
function isLikeAnother(key: string, explained: ReadonlySet<string>): boolean {
  return /\dtog$/.test(key) && [...explained].some((other) => /tog$/.test(other));
}

function escaped(word: string): string {
  return word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
