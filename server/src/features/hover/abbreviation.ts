import { counted } from "../../rules/wording";
import { say } from "../../text/say";
import { meaningOf } from "../../trade/abbreviations";
import { line, title } from "../shown/blocks";
import { explained } from "./glossary";
import type { HoverPart, Place } from "./place";

/** `sk`, `BLO`, `ch-2 sp`: what is abbreviated, as the pattern explains it, else as the trade does. */
export const abbreviation: HoverPart = {
  at(place) {
    const { word, pattern } = place;
    // In a row, `rep from * around` is the repeat itself.
    if (!word || (word.cls === "r" && place.placed)) return null;
    const written = place.textOf(word);
    const own = explained(pattern, written);
    const means = own ?? spaceOf(place) ?? tradeMeaning(written, place);
    if (means === undefined) return null;
    const span = { start: word.start, end: word.end };
    return {
      span,
      blocks: [
        title(`${written}: ${means}`),
        ...(own !== null ? [line(say`As this pattern explains it.`)] : []),
      ],
    };
  },
};

function tradeMeaning(written: string, { pattern, placed }: Place): string | undefined {
  const { terms } = pattern.context;
  // `Sizes S (M)`, `25 m`: outside a row a letter stands for many things.
  if (written.length === 1 && (placed === null || written !== written.toLowerCase())) return undefined;
  const means = meaningOf(written, terms);
  const singular = means ?? meaningOf(written.replace(/s$/i, ""), terms);
  return means ?? (singular && plural(singular));
}

/** `stitches`, `chain spaces`. */
function plural(noun: string): string {
  return noun.endsWith("ch") ? `${noun}es` : `${noun}s`;
}

/** `ch-2 sp`: the number is that of its chains. */
function spaceOf({ word }: Place): string | undefined {
  const chains = word?.number?.[0];
  if (chains == null || (word?.cls !== "C" && word?.cls !== "H")) return undefined;
  const many = counted(chains, "chain");
  return word.cls === "C" ? say`the space under ${many}` : say`the ${many} made before`;
}
