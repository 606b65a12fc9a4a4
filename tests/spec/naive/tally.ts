import type { Made } from "./instructions";
import { Unreadable } from "./spelling";
import type { Stated } from "./stated";

/** What a row comes to, counted as its designer counts; `kinds` by the noun of the count, as tidied. */
export interface Tally {
  readonly makes: number;
  readonly kinds: Readonly<Record<string, number>>;
  readonly agrees: boolean;
  /** `10 ch` for ten spaces of two chains: spaces are meant, or the chains are miscounted. */
  readonly chainsOrSpaces: boolean;
}

const spaces = /^(?:sp#\d*|eyelets?|holes?|(?:open )?mesh(?:es)?)$/;
const apart = /^(?:sp#\d*|eyelets?|holes?|(?:open )?mesh(?:es)?|ch|ch \d+|picots?)$/;
const single = /^(?:|st|sl st|(?:fp|bp)?(?:sc|hdc|htr|dc|dtr|tr)s?)$/;

export function tally(made: readonly Made[], stated: Stated | null): Tally {
  const only = stated?.kinds[0];
  if (stated === null || !only)
    return { makes: plainCount(made, null), kinds: {}, agrees: true, chainsOrSpaces: false };
  if (stated.kinds.length === 1 && single.test(only.noun)) {
    const makes = plainCount(made, only.count);
    const agrees = makes === only.count || namedCount(made, only.noun) === only.count;
    return { makes, kinds: { [only.noun]: makes }, agrees, chainsOrSpaces: false };
  }
  return byKind(made, stated);
}

/** One number for the row: all stitches; where only that agrees, without the slip stitches or with the chains. */
function plainCount(made: readonly Made[], wanted: number | null): number {
  const stitches = made.filter(({ sort }) => sort === "st");
  const slipped = stitches.filter(({ name }) => name === "sl st").length;
  const chains = made.reduce((sum, { sort, chains }) => sum + (sort === "sp" ? chains : 0), 0);
  const all = stitches.length;
  return [all, all - slipped, all + chains].find((count) => count === wanted) ?? all;
}

/** `39 dc` of a row that has sc besides: true as far as it goes. */
function namedCount(made: readonly Made[], noun: string): number | null {
  const named = made.filter(({ sort, name }) => sort === "st" && [name, `${name}s`].includes(noun));
  return named.length === 0 ? null : named.length;
}

function byKind(made: readonly Made[], { kinds }: Stated): Tally {
  const nouns = kinds.map(({ noun }) => noun);
  const counts = kinds.map(({ noun }) => countOf(noun, made, nouns));
  const stitches = counts.filter((_, index) => !apart.test(nouns[index] ?? ""));
  const added = stitches.length > 0 ? stitches : counts;
  return {
    makes: added.reduce((sum, count) => sum + count, 0),
    kinds: Object.fromEntries(nouns.map((noun, index) => [noun, counts[index] ?? 0])),
    agrees: kinds.every(({ count }, index) => count === counts[index]),
    chainsOrSpaces: kinds.some(
      ({ noun, count }, index) =>
        noun === "ch" && count !== counts[index] && count === spacesOf("sp#", made, nouns),
    ),
  };
}

function countOf(noun: string, made: readonly Made[], nouns: readonly string[]): number {
  if (spaces.test(noun)) return spacesOf(noun, made, nouns);
  if (noun === "ch") return made.reduce((sum, { sort, chains }) => sum + (sort === "sp" ? chains : 0), 0);
  if (/^ch \d/.test(noun)) return made.filter(({ unit }) => unit === "turning").length;
  if (/^picots?$/.test(noun)) return made.filter(({ sort }) => sort === "picot").length;
  if (/^(?:solid mesh(?:es)?|blocks?)$/.test(noun) && made.length > oneCorner) return meshesFilled(made);
  const name = /^(?:petal|scallop)s?$/.test(noun) ? "group" : noun;
  const units = made.filter(({ unit, lead }) => lead && (unit === name || `${unit}s` === name)).length;
  return units > 0 ? units : stitchesOf(noun, made, nouns);
}

/** Stitches of a single block, which begins a square at its corner. */
const oneCorner = 5;

/** Columns that are no open mesh, behind the one that begins the row: three to a block of filet. */
function meshesFilled(made: readonly Made[]): number {
  const open = made.filter(({ sort }) => sort === "sp").length;
  const stitches = made.filter(({ sort }) => sort === "st").length;
  return (stitches - open - 1) / ((made.find(({ sort }) => sort === "sp")?.chains ?? 2) + 1);
}

/** `corner sps` beside `ch-1 sps` are all spaces of another size. */
function spacesOf(noun: string, made: readonly Made[], nouns: readonly string[]): number {
  const all = made.filter(({ sort }) => sort === "sp");
  const size = /^sp#(\d+)$/.exec(noun)?.[1];
  if (size) return all.filter(({ chains }) => chains === Number(size)).length;
  const others = nouns
    .filter((other) => other !== noun)
    .map((other) => Number(/^sp#(\d+)$/.exec(other)?.[1] ?? -1));
  return all.filter(({ chains }) => !others.includes(chains)).length;
}

/** Stitches of a name that no other kind of the count has counted already. */
function stitchesOf(noun: string, made: readonly Made[], nouns: readonly string[]): number {
  const taken = (one: Made): boolean =>
    (one.unit === "turning" && nouns.some((other) => /^ch \d/.test(other))) ||
    (one.unit !== "" && nouns.some((other) => other === one.unit || other === `${one.unit}s`));
  if (!single.test(noun) && !made.some(({ name }) => name === noun || `${name}s` === noun)) {
    throw new Unreadable(`nothing explains what ${noun} are`);
  }
  return made.filter((one) => one.sort === "st" && !taken(one) && [one.name, `${one.name}s`].includes(noun))
    .length;
}
