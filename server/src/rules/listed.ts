import type { AbbreviationList } from "../notation/front-matter/abbreviations";
import type { Definition } from "../notation/front-matter/definitions";
import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import { keptBy } from "../text/kept-by";
import { isAbbreviation, keyOfAbbreviation } from "../trade/abbreviations";
import type { WorkedPattern } from "./rule";

/** The list that means to hold all abbreviations of a pattern; null where there is none. */
export function wholeList({ lines }: Pick<WorkedPattern, "lines">): AbbreviationList | null {
  const { abbreviations } = frontMatterOf(lines);
  return (
    abbreviations.find(({ isWhole, entries }) => isWhole && entries.every(({ meaning }) => meaning)) ?? null
  );
}

/** Lists of abbreviations with their meanings, also those that hold only the stitches. */
export function explainingLists({ lines }: Pick<WorkedPattern, "lines">): AbbreviationList[] {
  const { abbreviations } = frontMatterOf(lines);
  const isExplained = ({ names, meaning }: Definition): boolean =>
    meaning !== null && names.some(isAbbreviation);
  return abbreviations.filter(
    ({ isWhole, entries }) =>
      entries.every(({ meaning }) => meaning) && (isWhole || entries.every(isExplained)),
  );
}

/** Every name that some list of a pattern explains, as keys of abbreviations. */
export const explainedBy = keptBy((front: FrontMatter): ReadonlySet<string> => {
  const all = [...front.abbreviations.flatMap(({ entries }) => entries), ...front.specialStitches];
  return new Set(all.flatMap(keysOf));
});

/** `sl = slip stitch` explains `sl st` too; `ch sp` explains `ch` and `sp`. */
function keysOf({ names, meaning }: Definition): string[] {
  const meant = meaning?.text.toLowerCase().replace(/\s*[.([].*$/, "") ?? "";
  const parts = names.flatMap((name) => [name, ...name.split(/[\s-]+/)]);
  return [...parts, meant].map(keyOfAbbreviation);
}
