import { keptBy } from "../../text/kept-by";
import type { LineContent } from "../document";
import { type HookSize, hooksIn } from "../front-matter/hooks";
import { type LengthPair, readLengthPairs } from "../front-matter/lengths";
import { stretchAt } from "../front-matter/stretch";
import { type AbbreviationMention, abbreviationsIn } from "./abbreviations";
import { type SizeList, sizeListsIn } from "./size-lists";
import { lettersAlone, type YarnMention, yarnsIn, yarnsInHeading, yarnsInRow } from "./yarns";

/** What a line names of what the front matter lists, in offsets of the line. */
export interface Mentions {
  readonly abbreviations: readonly AbbreviationMention[];
  /** In lower case; `sc2tog` is `sc` and `tog`. */
  readonly words: readonly string[];
  /** Capitals that stand alone, as letters of yarns do: `B`, `MC`. */
  readonly letters: readonly string[];
  readonly yarns: readonly YarnMention[];
  readonly hooks: readonly HookSize[];
  readonly lengthPairs: readonly LengthPair[];
  readonly sizeLists: readonly SizeList[];
  /** Nothing but words. */
  readonly isPlain: boolean;
}

/** Characters; a longer line is no pattern's. */
const longestLine = 5_000;

/** Found once for each line, whatever is edited elsewhere. */
export const mentionsOf = keptBy(({ text, kind }: LineContent): Mentions => {
  const line = text.length > longestLine ? "" : text;
  const here = stretchAt(line, 0);
  const others = {
    yarns: kind === "heading" ? yarnsInHeading(line) : kind === "row" ? yarnsInRow(line) : yarnsIn(line),
    hooks: hooksIn(here, false),
    lengthPairs: readLengthPairs(here),
    sizeLists: sizeListsIn(line),
  };
  return {
    abbreviations: abbreviationsIn(line),
    words: line.toLowerCase().match(/\p{L}+/gu) ?? [],
    letters: lettersAlone(line),
    ...others,
    isPlain: Object.values(others).every((list) => list.length === 0),
  };
});
