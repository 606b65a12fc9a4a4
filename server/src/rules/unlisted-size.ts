import type { PatternLine } from "../notation/lines";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { inProse } from "./outline";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { listed } from "./wording";

/** A line is for a size that the pattern does not have: text left over from another one. */
export const unlistedSize: PatternRule = {
  id: "unlisted-size",
  severity: "information",
  documentation: `## What it finds
A line such as "Size XXL only:" for a size that is not among the sizes of the pattern.

## Why it matters
It is text left over from another pattern or from before the grading, and makers wonder which size it means.

## Example
\`\`\`crochet
Sizes: S (M, L)

Ch 41 (47, 53).
Row 1: Sc in 2nd ch from hook and in each ch across. 40 (46, 52) sc.
Size XL only:
\`\`\`

## Mended
\`\`\`crochet
Sizes: S (M, L)

Ch 41 (47, 53).
Row 1: Sc in 2nd ch from hook and in each ch across. 40 (46, 52) sc.
\`\`\`
`,
  check(pattern) {
    const { lines, context } = pattern;
    const { sizes } = context;
    if (sizes.length < 2 || sizes.every((size) => /^size \d+$/.test(size))) return [];
    const told = lines.filter(({ kind }) => kind === "size").flatMap((line) => foundOn(line, sizes));
    return [...told, ...inSentences(pattern)];
  },
};

const names =
  /(?<![\p{L}\d])(?:\d?x{0,4}[sl]|xx?s|m|small|medium|large|\d{1,3}(?:[-–/]\d{1,3})?)(?![\p{L}\d])/giu;

function foundOn(line: PatternLine, sizes: readonly string[]): Found[] {
  return [...line.text.matchAll(names)]
    .filter(([name]) => !sizes.some((size) => isSame(name.toLowerCase(), size.toLowerCase())))
    .map(({ 0: name, index }) => foundAt(spanOf(line, index, name), name, sizes));
}

function foundAt(span: Span, name: string, sizes: readonly string[]): Found {
  return {
    span,
    message: say`Size ${name} is named here, and the pattern has ${listed(sizes, "and")}. Is this left over from another pattern?`,
    fixes: [],
    related: [],
  };
}

const letterName = "(?:\\d?x{0,4}[sl]|m|small|medium|large)";
const letterNames = `${letterName}(?:\\s*/\\s*${letterName})?`;
const sizeSaid = new RegExp(
  `\\bsizes?\\s+(${letterName}(?:\\s*(?:,|and|or|&|/)\\s*${letterName})*)(?![\\p{L}\\d/-]|\\s*(?:crochet\\s+)?(?:hook|needle))`,
  "giu",
);

/** `For size XXL only`, in a sentence. */
const saidSizes = inProse(({ text }) =>
  [...text.matchAll(sizeSaid)].map(({ 0: phrase, 1: said = "", index }) => ({
    said,
    at: index + phrase.length - said.length,
  })),
);

/** Where all sizes go by letters, as those do. */
function inSentences(pattern: WorkedPattern): Found[] {
  const { sizes } = pattern.context;
  if (!sizes.every((size) => new RegExp(`^${letterNames}$`, "i").test(size))) return [];
  return saidSizes(pattern).flatMap(({ line, said: { said, at } }) =>
    [...said.matchAll(names)]
      .filter(([name]) => !sizes.some((size) => isSame(name.toLowerCase(), size.toLowerCase())))
      .map(({ 0: name, index }) => foundAt(spanOf(line, at + index, name), name, sizes)),
  );
}

/** `M` is `Medium`; `Adult S` is `S`. */
function isSame(name: string, size: string): boolean {
  return (
    size === name ||
    size.startsWith(name) ||
    name.startsWith(size) ||
    size.split(/[^\p{L}\d-]+/u).includes(name)
  );
}

function spanOf(line: PatternLine, index: number, name: string): Span {
  return { start: line.start + index, end: line.start + index + name.length };
}
