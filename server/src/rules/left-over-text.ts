import { type SaidWord, type Sentence, sentencesOf } from "../notation/assembly";
import type { LineContent } from "../notation/document";
import type { PatternLine } from "../notation/lines";
import { singular } from "../notation/nouns";
import { keptBy } from "../text/kept-by";
import { madeThings } from "./left-over-words";
import { inProse } from "./outline";
import type { Found, PatternRule } from "./rule";

/** A sentence speaks of a thing that the rest of the pattern knows nothing of. */
export const leftOverText: PatternRule = {
  id: "left-over-text",
  severity: "information",
  documentation: `## What it finds
A sentence behind the first row that speaks of an animal or a thing which no other line names, in a pattern of another one: the bear's body in a seal, a shawl to be blocked in a bag.

## Why it matters
Patterns are written over older ones. What stays behind makes a maker doubt the rest.

## Example
\`\`\`crochet
Market bag

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
Fasten off. Block the shawl to its full width.
\`\`\`

## Mended
\`\`\`crochet
Market bag

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
Fasten off. Block the bag to its full width.
\`\`\`
`,
  check(pattern) {
    const { lines, pieces } = pattern;
    const begins = pieces[0]?.rows[0]?.line.span.end;
    if (begins === undefined) return [];
    const asides = inProseSaid(pattern).filter(
      ({ line, said }) => line.start >= begins && isMeant(said, line),
    );
    if (asides.length === 0) return [];
    const all = lines.flatMap((line) => thingsIn(line.content).map((word) => ({ line, word })));
    return asides
      .filter(({ line, said }) => isAlone(said, line, all))
      .map(({ line, said }) => foundOn(said, line));
  },
};

/** The things that a line names, each where it stands first. */
const thingsIn = keptBy((line: LineContent): readonly SaidWord[] => {
  const found = new Map<string, SaidWord>();
  for (const { 0: typed, index } of line.text.matchAll(/\p{L}+/gu)) {
    const word = typed.toLowerCase();
    const noun = singular(word);
    if (madeThings.has(noun) && !found.has(noun))
      found.set(noun, { word, noun, start: index, end: index + typed.length });
  }
  return [...found.values()];
});

const inProseSaid = inProse(thingsIn);

interface Said {
  readonly line: PatternLine;
  readonly word: SaidWord;
}

/** No other line has it or a word like it, and another line names another thing. */
function isAlone({ noun }: SaidWord, line: PatternLine, said: readonly Said[]): boolean {
  const alike = madeThings.get(noun) ?? [];
  const others = said.filter((one) => one.line !== line);
  return others.length > 0 && !others.some(({ word }) => alike.includes(word.noun));
}

/** Neither a likeness nor somebody it is for: `like a scarf`, `for a doll`, `blanket stitch`. */
const likened =
  /\b(?:like|as|for|from|if|or|instead\s+of|by|under|inside|laundry|wash(?:ing)?)\s+(?:an?\s+|the\s+|your\s+)?(?:\p{L}+\s+)?$/iu;

function isMeant({ start, end }: SaidWord, { content }: PatternLine): boolean {
  const sentence = sentencesOf(content).find((one: Sentence) => one.start <= start && end <= one.end);
  if (!sentence) return false;
  const before = sentence.text.slice(0, start - sentence.start);
  const behind = sentence.text.slice(end - sentence.start);
  return (
    /\b(?:the|your|each|this|its|an?)\s+(?:\p{L}+\s+)?$/iu.test(before) &&
    !likened.test(before) &&
    !/^[\s-]+(?:stitch|st|pad|form|clips?|pins?|makers?|brush)\b/i.test(behind)
  );
}

function foundOn({ word, start, end }: SaidWord, line: PatternLine): Found {
  return {
    span: { start: line.start + start, end: line.start + end },
    message: `This speaks of "${word}", and nothing else in the pattern does. Is it left over from another pattern?`,
    fixes: [],
    related: [],
  };
}
