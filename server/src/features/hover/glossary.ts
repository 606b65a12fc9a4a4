import { frontMatterOf } from "../../notation/front-matter/front-matter";
import type { PatternLine } from "../../notation/lines";
import type { WorkedPattern } from "../../rules/rule";
import { keptBy } from "../../text/kept-by";

/** What a pattern itself says that a name stands for, in any case; null where it says nothing. */
export function explained({ lines }: WorkedPattern, name: string): string | null {
  return glossaryOf(lines).get(name.toLowerCase()) ?? null;
}

const glossaryOf = keptBy((lines: readonly PatternLine[]): ReadonlyMap<string, string> => {
  const { abbreviations, specialStitches } = frontMatterOf(lines);
  const all = [...abbreviations.flatMap(({ entries }) => entries), ...specialStitches];
  return new Map(
    all.flatMap(({ names, meaning }) => (meaning ? names.map((name) => [name, meaning.text] as const) : [])),
  );
});
