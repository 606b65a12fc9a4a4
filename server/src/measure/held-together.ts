import { lettersAlone } from "../notation/mentions/yarns";
import { numberWords } from "../trade/number-words";
import type { YarnKey, YarnList } from "./yarn-list";

/** Words without which nothing is said of several strands. */
export const tellsOfStrands = /\b(?:held|hold(?:ing)?|strands?)\b/i;

const phrase =
  /\b(?:with|using|hold(?:ing)?|join(?:ing)?)\s+([^.;:]*?)\s*(?:\b(?:held(?:\s+double)?|together|at once|double[ds]?)\b|[,.;:]|$)/gi;
const strandsOf = /\b(\d|\p{L}+)\s+strands?\b/iu;

/**
 * The yarns that a text holds together from there on, one entry a strand: `with A and B held together`,
 * `with two strands of A`, `holding the yarn double`; null where it says nothing of the kind.
 */
export function heldIn(text: string, list: YarnList, inHand: readonly YarnKey[]): readonly YarnKey[] | null {
  if (!tellsOfStrands.test(text)) return null;
  for (const { 0: all, 1: said = "" } of text.matchAll(phrase)) {
    if (!tellsOfStrands.test(all)) continue;
    const named = namedIn(said, list);
    const own = named.length > 0 ? named : inHand.slice(0, 1);
    const each = /\bdouble/i.test(all) ? 2 : strandsIn(said);
    if (named.length > 1 || each !== null) return own.flatMap((yarn) => Array<YarnKey>(each ?? 1).fill(yarn));
  }
  return null;
}

/** `two strands of A`; a strand of each is one. */
function strandsIn(said: string): number | null {
  const [, word = ""] = strandsOf.exec(said) ?? [];
  const n = numberWords.get(word.toLowerCase()) ?? Number(word);
  if (/^(?:an?|single)$/i.test(word)) return 1;
  return Number.isInteger(n) && n > 0 && n <= strandsAtMost ? n : null;
}

const strandsAtMost = 6;

function namedIn(said: string, list: YarnList): YarnKey[] {
  const letters = lettersAlone(said);
  const words = said.toLowerCase();
  return list.yarns.flatMap(({ yarn }, at) => {
    const colour = yarn?.colour?.text.toLowerCase();
    const isNamed =
      (yarn?.letter && letters.includes(yarn.letter.text)) || (colour && words.includes(colour));
    return isNamed ? [at] : [];
  });
}
