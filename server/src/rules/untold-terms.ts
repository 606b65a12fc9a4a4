import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import type { AbbreviationMention } from "../notation/mentions/abbreviations";
import { say } from "../text/say";
import { stitchOf, type Terms } from "../trade/stitches";
import { termsMarkOf } from "../trade/terms";
import type { Fix, PatternRule } from "./rule";
import { placeOf, type Used, usesOf } from "./uses";

/** The pattern leaves open what its dc is. */
export const untoldTerms: PatternRule = {
  id: "untold-terms",
  severity: "information",
  documentation: `## What it finds
A pattern with front matter that does not say whether it is in US or UK terms, and whose stitches are called alike in both but are not the same.

## Why it matters
A dc of US terms is taller than one of UK terms. The counts are right either way, so nobody notices until the piece has the wrong size.

## Example
\`\`\`crochet
Gauge: 16 dc and 9 rows = 10 cm

Ch 18.
Row 1: Dc in 4th ch from hook and in each ch across. (16 dc)
\`\`\`

## Mended
\`\`\`crochet
Terms: US

Gauge: 16 dc and 9 rows = 10 cm

Ch 18.
Row 1: Dc in 4th ch from hook and in each ch across. (16 dc)
\`\`\`
`,
  check(pattern) {
    const front = frontMatterOf(pattern.lines);
    const first = front.lines.find(({ topic }) => listTopics.has(topic));
    if (front.terms || !first) return [];
    const uses = [...usesOf(pattern).abbreviations.values()];
    const doubtful = uses.find(isDoubtful);
    if (!doubtful || uses.some(tellsTerms) || listTellsTerms(front)) return [];
    const { word } = doubtful.mention;
    return [
      {
        span: placeOf(doubtful),
        message: say`The pattern does not say its terms, and "${word.toLowerCase()}" is one stitch in US and another in UK terms. It is read in ${pattern.context.terms} terms. Write which at the top: "Terms: US" or "Terms: UK".`,
        fixes: likeliestFirst(pattern.context.terms).map((terms) => sayTerms(terms, first.at)),
        related: [],
      },
    ];
  },
};

const listTopics = new Set(["abbreviations", "stitches", "materials", "yarn", "hook", "gauge"]);

function isDoubtful({ mention: { key } }: Used<AbbreviationMention>): boolean {
  const [us, uk] = [stitchOf(key, "US"), stitchOf(key, "UK")];
  return us !== undefined && uk !== undefined && us.id !== uk.id;
}

function tellsTerms({ mention: { word } }: Used<AbbreviationMention>): boolean {
  const mark = termsMarkOf(word.toLowerCase());
  return mark !== undefined && mark.strength !== "weak";
}

/** A list that spells a stitch out by a name of one side only tells the terms too. */
function listTellsTerms({ abbreviations }: FrontMatter): boolean {
  const entries = abbreviations.flatMap((list) => list.entries);
  return entries.some(({ meaning, names }) => {
    const meant = meaning?.text.toLowerCase().replace(/\s*[.([].*$/, "") ?? "";
    return [meant, ...names].some((word) => (termsMarkOf(word)?.strength ?? "weak") !== "weak");
  });
}

function likeliestFirst(read: Terms): readonly Terms[] {
  return read === "US" ? ["US", "UK"] : ["UK", "US"];
}

function sayTerms(terms: Terms, at: number): Fix {
  const newText = `Terms: ${terms}\n\n`;
  return { title: say`Write "Terms: ${terms}"`, edits: () => [{ span: { start: at, end: at }, newText }] };
}
