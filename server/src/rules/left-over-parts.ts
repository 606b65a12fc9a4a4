import { type SaidWord, type Sentence, sentencesOf } from "../notation/assembly";
import type { PatternLine } from "../notation/lines";
import type { Found, WorkedPattern } from "./rule";

/** Parts that things are put together of; one alone is no whole. */
const families: readonly (readonly string[])[] = [
  ["leg", "arm", "ear", "foot", "paw", "wing", "fin", "flipper", "trunk", "snout", "beak", "horn", "hoof"],
  ["square", "hexagon", "motif", "medallion", "granny"],
  ["sleeve", "cuff", "yoke"],
];

/** `Stuff the leg` in a pattern that has neither a leg nor any other part of an animal: text of another one. */
export function leftOverParts({ pieces, lines }: WorkedPattern): Found[] {
  const begins = pieces[0]?.rows[0]?.line.span.end;
  if (begins === undefined) return [];
  const prose = lines.filter(({ kind, start }) => kind === "prose" && start >= begins);
  const all = prose.flatMap((line) =>
    sentencesOf(line.content).flatMap((sentence) => partsIn(sentence).map((part) => ({ line, part }))),
  );
  return all
    .filter(({ line, part }) => !isSpokenOf(part, line, lines))
    .map(({ line, part }) => foundOn(part, line));
}

const lead = /\b(?:sew|stuff|join|attach|fill)\s+(?:the|all|both|each)\s+(?:\p{L}+\s+){0,2}?$/iu;

/** What a sentence sews or stuffs, if it is such a part. */
function partsIn({ words, text, start }: Sentence): SaidWord[] {
  return words.filter(({ noun, start: at }) => familyOf(noun) && lead.test(text.slice(0, at - start)));
}

function familyOf(noun: string): readonly string[] | undefined {
  return families.find((family) => family.includes(noun));
}

function isSpokenOf({ noun, start }: SaidWord, own: PatternLine, lines: readonly PatternLine[]): boolean {
  const family = familyOf(noun) ?? [];
  const isOfFamily = (line: PatternLine, word: SaidWord): boolean =>
    family.includes(word.noun) && (line !== own || word.start !== start);
  return lines.some(
    (line) =>
      line.kind !== "blank" &&
      sentencesOf(line.content).some(({ words }) => words.some((word) => isOfFamily(line, word))),
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
