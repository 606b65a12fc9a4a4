import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import { type AbbreviationMention, abbreviationsIn } from "../notation/mentions/abbreviations";
import { say } from "../text/say";
import type { TextEdit } from "../text/span";
import { keyOfAbbreviation } from "../trade/abbreviations";
import { abbreviationOf, stitchOf, stitchSpellings, type Terms } from "../trade/stitches";
import { type TermsMark, termsMarkOf } from "../trade/terms";
import { explainedBy } from "./listed";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { placeOf, rowOf, type Used, usesOf } from "./uses";

/** Stitch names of both dialects in one pattern. */
export const mixedTerms: PatternRule = {
  id: "mixed-terms",
  severity: "warning",
  documentation: `## What it finds
A stitch name that only UK patterns have in a pattern in US terms, or the other way round. A gloss such as "sc (UK dc)" is no mixture.

## Why it matters
The same letters are other stitches in the two: once both are met, nobody knows which stitch a dc is.

## Example
\`\`\`crochet
Terms: US

Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)
Row 2: Ch 2, turn, htr in each st across. (10)
\`\`\`

## Mended
\`\`\`crochet
Terms: US

Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)
Row 2: Ch 2, turn, hdc in each st across. (10)
\`\`\`
`,
  check(pattern) {
    const front = frontMatterOf(pattern.lines);
    const declared = front.terms?.terms ?? null;
    const marked = markedUses(pattern);
    const terms = declared ?? pattern.context.terms;
    const ours = marked.find(({ mark }) => mark.terms === terms);
    if (declared === null && !ours) return [];
    const explained = explainedBy(front);
    return marked
      .filter(
        ({ mark, used: { mention } }) =>
          mark.terms !== terms &&
          (!explained.has(mention.key) || (declared !== null && isListedIn(mark.terms, mention.key, front))),
      )
      .map(({ used }) => foundOn(used, terms, declared === null ? (ours?.used ?? null) : null, pattern));
  },
};

/** A list may explain a name as its own pattern means it; one that gives the other terms' name for it explains nothing. */
function isListedIn(terms: Terms, key: string, { abbreviations }: FrontMatter): boolean {
  const entries = abbreviations.flatMap((list) => list.entries);
  return entries.some(({ names, meaning }) => {
    const mark = termsMarkOf(meaning?.text.toLowerCase().replace(/\s*[.([].*$/, "") ?? "");
    return names.map(keyOfAbbreviation).includes(key) && mark?.terms === terms && mark.strength !== "weak";
  });
}

interface Marked {
  readonly used: Used<AbbreviationMention>;
  readonly mark: TermsMark;
}

function markedUses(pattern: WorkedPattern): Marked[] {
  return [...usesOf(pattern).abbreviations.values()].flatMap((used) => {
    const mark = termsMarkOf(used.mention.word.toLowerCase());
    return mark && mark.strength !== "weak" ? [{ used, mark }] : [];
  });
}

function foundOn(
  used: Used<AbbreviationMention>,
  terms: Terms,
  ours: Used<AbbreviationMention> | null,
  pattern: WorkedPattern,
): Found {
  const { word } = used.mention;
  const name = ourName(word, terms);
  const says = ours
    ? say`"${word}" is a ${other(terms)} name, and "${ours.mention.word}" in ${rowOf(ours) ?? say`another row`} a ${terms} one`
    : say`"${word}" is a ${other(terms)} name, and the pattern says ${terms} terms`;
  return {
    span: placeOf(used),
    message: `${says}. ${name ? say`In ${terms} terms the stitch is ${name}.` : say`Write all stitches in the same terms.`}`,
    fixes: name
      ? [{ title: say`Write "${name}" throughout`, edits: () => renamed(pattern, used.mention.key, name) }]
      : [],
    related: [],
  };
}

function other(terms: Terms): Terms {
  return terms === "US" ? "UK" : "US";
}

/** What the stitch is called in the pattern's terms; its word has no other meaning there. */
function ourName(word: string, terms: Terms): string | null {
  const neutral = stitchSpellings.get(word.toLowerCase()) ?? word.toLowerCase();
  const stitch = stitchOf(neutral, terms);
  return stitch ? abbreviationOf(stitch, terms) : null;
}

function renamed({ lines }: WorkedPattern, key: string, name: string): TextEdit[] {
  const worked = lines.filter(({ kind }) => kind === "row" || kind === "foundation" || kind === "copy");
  return worked.flatMap((line) =>
    everyMention(line.text, key).map(({ start, end }) => ({
      span: { start: line.start + start, end: line.start + end },
      newText: name,
    })),
  );
}

/** All mentions in a line, where the reader of mentions gives the first only. */
function everyMention(text: string, key: string): AbbreviationMention[] {
  const found: AbbreviationMention[] = [];
  for (let rest = text; ; ) {
    const next = abbreviationsIn(rest).find((mention) => mention.key === key);
    if (!next) return found;
    found.push(next);
    rest = rest.slice(0, next.start) + " ".repeat(next.end - next.start) + rest.slice(next.end);
  }
}
