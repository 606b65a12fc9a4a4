import { type UnknownWord, whyUnknown } from "../fabric/unknown-words";
import type { WorkedRow } from "../fabric/worked";
import { glossaryOf, languageOfWords } from "../notation/other-languages";
import { say } from "../text/say";
import type { Span } from "../text/span";
import type { RowRule } from "./rule";
import { saidAgain } from "./said-again";
import { listed, rowName, says } from "./wording";

/** Something in the row is not explained, so the row is not checked. Never an error. */
export const notUnderstood: RowRule = {
  id: "not-understood",
  severity: "information",
  documentation: `## What it finds
A row that is not checked, with the reason: a stitch that nobody explains, a place that cannot be counted, a row with nothing below it.

## Why it matters
A row that is not checked may still be right; it needs your own eyes.

## Example
\`\`\`crochet
R1: 6 sc in mr (6)
R2: lotus x6 (6)
\`\`\`

## Mended
\`\`\`crochet
Lotus = 3 dc in same st

R1: 6 sc in mr (6)
R2: lotus x6 (18)
\`\`\`
`,
  check(row) {
    if (row.result !== "unchecked" || row.fault || row.after || (row.line.plan && saidAgain(row.line.plan)))
      return [];
    const words = unknownWords(row);
    const isWord = words.length > 0 && row.reason === whyUnknown(row.line.plan?.unknown[0] as UnknownWord);
    const message = isWord ? unknownMessage(rowName(row), words) : reasonMessage(row);
    return [{ span: spanOf(row), message, fixes: [], related: [] }];
  },
};

/** Words of a row that may name stitches; none where something else is in the way first. */
export function unknownWords({ line }: WorkedRow): string[] {
  const unknown = line.plan?.unknown ?? [];
  if (unknown[0]?.sort !== "stitch") return [];
  const names = unknown.filter(({ sort }) => sort === "stitch").map(({ text }) => text);
  return [...new Set(names)].filter((text) => /\p{L}/u.test(text));
}

/** The first unknown word, else the row. */
function spanOf({ line }: WorkedRow): Span {
  const unknown = line.plan?.unknown[0];
  return unknown ? { start: line.start + unknown.span.start, end: line.start + unknown.span.end } : line.span;
}

function unknownMessage(name: string, words: readonly string[]): string {
  const quoted = listed(
    words.slice(0, 3).map((word) => say`"${word}"`),
    "and",
  );
  const ask =
    sayLanguage(words) ??
    say`If it is a stitch, say how it is worked on a line of its own: "${words[0]} = 3 dc in same st".`;
  return words.length === 1
    ? say`${says(name, "is")} not checked: ${quoted} is not explained in this pattern. ${ask}`
    : say`${says(name, "is")} not checked: ${quoted} are not explained in this pattern. ${ask}`;
}

/** `fM` is a stitch in German: perhaps the whole pattern is. */
function sayLanguage(words: readonly string[]): string | null {
  const language = languageOfWords(words);
  const us = language && glossaryOf(language).get(words[0]?.toLowerCase() ?? "");
  return us
    ? say`In ${language.name} "${words[0]}" is ${us}: if the pattern is in ${language.name}, say so at the top: "Language: ${language.name}".`
    : null;
}

function reasonMessage(row: WorkedRow): string {
  return say`${says(rowName(row), "is")} not checked: ${row.reason}. ${nextStep(row)}`;
}

/** What its designer can do about it. */
function nextStep({ line, has, outcome }: WorkedRow): string {
  if (line.plan === null) return say`Split it into shorter rows.`;
  if (line.kind === "copy") return say`Name a row that is written out above it.`;
  if (has === null && outcome === null && line.plan.outOfReach === null && line.plan.stated === null)
    return say`Write above it what it is worked on: a starting chain, a ring or a row with its count.`;
  if (line.plan.stated === null)
    return say`Add the count at its end, and the rows after it are checked from there.`;
  return say`The rows after it are checked from its count.`;
}
