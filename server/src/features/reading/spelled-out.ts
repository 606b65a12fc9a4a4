import { stitchOf, type Terms } from "../../trade/stitches";
import { nameIn } from "../shown/stitch-names";

/** What is said for the short words that a proof is told in. */
const words: ReadonlyMap<string, string> = new Map([
  ["st", "stitch"],
  ["sts", "stitches"],
  ["sp", "space"],
  ["sps", "spaces"],
  ["chs", "chains"],
]);

/** A text without abbreviations: stitches by their names in the terms in force, `ch 2` as chains, `3–12` as `3 to 12`. */
export function spelledOut(text: string, terms: Terms): string {
  return text
    .replace(/\bch[- ](\d+) (sps?)\b/g, (_, n: string, sp: string) => `${words.get(sp)} of ${chains(n)}`)
    .replace(/\bch (\d+)/g, (_, n: string) => chains(n))
    .replace(/(\d)\s*[–-]\s*(\d)/g, "$1 to $2")
    .replace(/\bsl st\b|\b\d*1st\b|\p{L}[\p{L}\d]*(?:-\p{L}+)*/gu, (word) => spelled(word, terms));
}

function chains(n: string): string {
  return n === "1" ? "1 chain" : `${n} chains`;
}

function spelled(word: string, terms: Terms): string {
  const known = words.get(word);
  if (known !== undefined) return known;
  const stitch = word.length <= 12 ? stitchOf(word.toLowerCase(), terms) : undefined;
  return stitch ? nameIn(stitch, terms) : word;
}
