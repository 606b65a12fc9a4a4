import { frontMatterOf } from "../../notation/front-matter/front-matter";
import { yarnLetter } from "../../notation/front-matter/yarns";
import { mentionsOf } from "../../notation/mentions/mentions";
import { readWords } from "../../notation/words";
import type { WorkedPattern } from "../../rules/rule";
import { say } from "../../text/say";
import { type Span, shift } from "../../text/span";
import { holds, type NamedThing, type NameSource } from "./named-thing";

const isLetter = new RegExp(`^${yarnLetter}$`);

/** `A`, `MC`: a yarn by its letter. */
export const yarnLetters: NameSource = {
  at({ pattern, offset }) {
    const all = lettersOf(pattern);
    const found = all.find(({ span }) => holds(span, offset));
    return found ? namedThing(found, all, pattern) : null;
  },
};

interface Letter {
  readonly letter: string;
  readonly span: Span;
  readonly defines: boolean;
}

function lettersOf(pattern: WorkedPattern): Letter[] {
  const defined = frontMatterOf(pattern.lines).yarns.flatMap(({ letter }) =>
    letter ? [{ letter: letter.text, span: { start: letter.start, end: letter.end }, defines: true }] : [],
  );
  const known = new Set(defined.map(({ span }) => span.start));
  const used = [...inRows(pattern), ...inProse(pattern)].filter(({ span }) => !known.has(span.start));
  return [...defined, ...used];
}

/** A row that has a letter at all is read for what its letters are. */
const any = new RegExp(`(?<![\\p{L}\\d])${yarnLetter}(?![\\p{L}\\d'’])`, "u");

function inRows({ pieces, context }: WorkedPattern): Letter[] {
  return pieces.flatMap(({ rows }) =>
    rows.flatMap(({ line: { text, start } }) => {
      if (!any.test(text)) return [];
      return readWords(text, context.lexicon)
        .filter((word) => word.cls === "K" && isLetter.test(text.slice(word.start, word.end)))
        .map((word) => ({
          letter: text.slice(word.start, word.end),
          span: shift({ start: word.start, end: word.end }, start),
          defines: false,
        }));
    }),
  );
}

function inProse({ lines }: WorkedPattern): Letter[] {
  return lines.flatMap(({ kind, content, start }) =>
    kind === "row" || kind === "copy"
      ? []
      : mentionsOf(content)
          .yarns.filter((one) => one.kind === "letter")
          .map((one) => ({
            letter: one.name,
            span: shift({ start: one.start, end: one.end }, start),
            defines: false,
          })),
  );
}

function namedThing({ letter, span }: Letter, all: readonly Letter[], pattern: WorkedPattern): NamedThing {
  const same = all.filter((one) => one.letter === letter);
  return {
    span,
    name: pattern.text.slice(span.start, span.end),
    definitions: same.filter(({ defines }) => defines).map((one) => one.span),
    uses: same.filter(({ defines }) => !defines).map((one) => one.span),
    fixed: null,
    renamed: (to) => {
      if (!isLetter.test(to))
        return { why: say`A yarn is told by one of the letters A to H, or by MC, CC, CA to CH or C1 to C9.` };
      if (all.some((one) => one.letter === to))
        return { why: say`Another yarn has the letter ${to} already.` };
      return same.map((one) => ({ span: one.span, newText: to }));
    },
  };
}
