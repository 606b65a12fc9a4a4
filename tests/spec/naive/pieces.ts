import type { Made } from "./instructions";
import { space } from "./instructions";

/** A round over the ends of other pieces, as one round of places in the order in which it names them. */
export interface OverPieces {
  readonly text: string;
  readonly places: readonly Made[];
}

const onPiece = /\b(?:on|of) (?:first|1st|2nd|other) (\w+)|\b(?:on|of) (\w+) [12]\b/;
const onChain = /\b(?:along|on) ch\b|\bin (?:next |each of |other side of )*(\d+) ch\b/;
const named = new RegExp(`${onPiece.source}|${onChain.source}`, "g");
const joined = /\b(?:and )?join to (?:first \w+|\w+ [12]) with (?:a )?(?=sc\b)/;

/** The row with all its places; null where it names no other piece, or one that has no end. */
export function overPieces(text: string, ends: ReadonlyMap<string, readonly Made[]>): OverPieces | null {
  const bridge = Number(/^(?:[a-z ]+: )?(?:ch (\d)|(\d) ch)\b/.exec(text)?.slice(1).find(Boolean) ?? 0);
  if (!onPiece.test(text) || bridge === 0) return null;
  const places: Made[] = [];
  let last = "";
  for (const match of text.matchAll(named)) {
    const name = match[1] ?? match[2];
    const end = name === undefined ? bridging(bridge) : endOf(name, ends);
    if (!end) return null;
    if (match[0] !== last) places.push(...end);
    last = name === undefined ? "" : match[0];
  }
  const plain = text
    .replace(/^(?:[a-z ]+: )?(?:ch \d|\d ch),? ?/, "")
    .replace(joined, "")
    .replace(new RegExp(` ?(?:${onPiece.source})`, "g"), "")
    .replace(/ (?:along|on) ch\b/g, "")
    .replace(/\bin (?:next |each of |other side of )*(\d+) ch\b/g, "in next $1 st")
    .replace(/\bin (\d+) st\b/g, "in next $1 st");
  return { text: plain, places };
}

function bridging(n: number): readonly Made[] {
  return Array.from({ length: n }, () => ({ ...space(1), sort: "st" as const }));
}

/** The end of a piece by the last word of its heading: "Foot and leg", "Legs". */
function endOf(name: string, ends: ReadonlyMap<string, readonly Made[]>): readonly Made[] | undefined {
  const alike = (heading: string): boolean => new RegExp(`\\b${name}s?(?: [12])?$`, "i").test(heading);
  return [...ends].findLast(([heading]) => alike(heading))?.[1];
}
