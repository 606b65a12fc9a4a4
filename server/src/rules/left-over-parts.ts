import { type SaidWord, type Sentence, sentencesOf } from "../notation/assembly";
import type { PatternLine } from "../notation/lines";
import { say } from "../text/say";
import { inProse } from "./outline";
import type { Found, WorkedPattern } from "./rule";

/** Parts that things are put together of, and words of a pattern that may have them. */
interface Family {
  readonly parts: readonly string[];
  readonly besides: readonly string[];
}

const families: readonly Family[] = [
  {
    parts: "leg arm ear foot paw wing fin flipper trunk snout beak horn hoof".split(" "),
    besides:
      "limb hand tentacle toy doll amigurumi stuff stuffing filling fiberfill fibrefill polyfill".split(" "),
  },
  {
    parts: "square hexagon motif medallion granny".split(" "),
    besides: "block patch tile flower circle".split(" "),
  },
  { parts: ["sleeve", "cuff", "yoke"], besides: ["arm", "armhole"] },
];

/** `Stuff the leg` in a pattern that has neither a leg nor any other part of an animal: text of another one. */
export function leftOverParts(pattern: WorkedPattern): Found[] {
  const { pieces, lines } = pattern;
  const begins = pieces[0]?.rows[0]?.line.span.end;
  // What is made several times may go by another name.
  if (begins === undefined || pieces.some(({ piece }) => piece.make > 1)) return [];
  return partsSaid(pattern)
    .filter(({ line, said }) => line.start >= begins && !isSpokenOf(said, line, lines))
    .map(({ line, said }) => foundOn(said, line));
}

const partsSaid = inProse((line) => sentencesOf(line).flatMap(partsIn));

const lead =
  /\b(?:sew|stuff|join|attach|fill|stitch)\s+(?:(?:on|in|up|down)\s+)?(?:the|all|both|each)\s+(?:\p{L}+\s+){0,2}?$/iu;

/** What a sentence sews or stuffs, if it is such a part. */
function partsIn({ words, text, start }: Sentence): SaidWord[] {
  return words.filter(({ noun, start: at }) => familyOf(noun) && lead.test(text.slice(0, at - start)));
}

function familyOf(noun: string): Family | undefined {
  return families.find(({ parts }) => parts.includes(noun));
}

function isSpokenOf({ noun, start }: SaidWord, own: PatternLine, lines: readonly PatternLine[]): boolean {
  const { parts, besides } = familyOf(noun) ?? { parts: [], besides: [] };
  const isOfFamily = (line: PatternLine, word: SaidWord): boolean =>
    (parts.includes(word.noun) && (line !== own || word.start !== start)) ||
    (besides.includes(word.noun) && line !== own);
  return lines.some(
    (line) =>
      line.kind !== "blank" &&
      sentencesOf(line.content).some(({ words }) => words.some((word) => isOfFamily(line, word))),
  );
}

function foundOn({ word, start, end }: SaidWord, line: PatternLine): Found {
  return {
    span: { start: line.start + start, end: line.start + end },
    message: say`This speaks of "${word}", and nothing else in the pattern does. Is it left over from another pattern?`,
    fixes: [],
    related: [],
  };
}
