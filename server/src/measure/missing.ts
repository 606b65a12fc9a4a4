import type { FrontMatter } from "../notation/front-matter/front-matter";
import { readLengthPairs } from "../notation/front-matter/lengths";
import { say } from "../text/say";
import { convertLength } from "../trade/units";
import type { Basis } from "./basis";
import { isBelievable } from "./basis";
import type { Ground } from "./ground";
import type { ListedYarn } from "./yarn-list";

/** What the front matter lacks or cannot mean, and what was taken instead, in whole sentences. */
export function missingNotes(front: FrontMatter, ground: Ground): string[] {
  const { basis } = ground;
  if (basis === null) return [];
  return [
    ...gaugeNotes(front, basis, ground),
    ...measureNotes(front, ground, basis),
    ...labelNotes(ground.list.yarns, basis),
    ...amountNotes(ground.list.yarns),
  ];
}

function gaugeNotes({ gaugeLines }: FrontMatter, basis: Basis, { problems }: Ground): string[] {
  if (basis.gauge === null && problems.length === 0) {
    const what =
      gaugeLines.length > 0
        ? say`The gauge does not tell how wide a stitch is`
        : say`The pattern gives no gauge`;
    const isOwn = basis.sort === "measured" || basis.sort === "swatch";
    const instead = isOwn ? say`the usual stitch of the hook or yarn` : basis.says;
    return [say`${what}: sizes go by ${instead}, and may well be others.`];
  }
  return gaugeLines.flatMap((line) =>
    readLengthPairs(line).flatMap(({ first, second }) => {
      const [a = 0, b = 0] = [first, second].map(({ values: [value = 0], unit }) =>
        convertLength(value, unit, "mm"),
      );
      const isSame = Math.abs(Math.log(a / b)) < disagree;
      return isSame
        ? []
        : [say`The gauge says ${first.text} and ${second.text}, which differ: ${first.text} was taken.`];
    }),
  );
}

/** 4 in and 10 cm are the same to all hands. */
const disagree = 0.1;

/** Measures that cannot be, and a swatch that nothing turns into metres. */
function measureNotes(
  { measuredYarn, swatches }: FrontMatter,
  { paths, list }: Ground,
  basis: Basis,
): string[] {
  const wrong = measuredYarn
    .filter(({ word, millimetres }) => !isBelievable(millimetres, paths.of(word), basis))
    .map(
      ({ text }) =>
        say`"${text.trim()}" cannot be the yarn of a stitch here, and was left aside. Look whether a figure or a unit is mistyped.`,
    );
  const isWeighed = swatches.some(({ grams, metres }) => grams !== null && metres === null);
  const hasLabel = list.yarns.some(({ label }) => label !== null);
  if (!isWeighed || hasLabel || basis.sort === "measured") return wrong;
  return [
    ...wrong,
    say`Your swatch is weighed, and no label tells how many metres that is: it was left aside. Write the label with the yarn: 50 g / 125 m.`,
  ];
}

function labelNotes(yarns: readonly ListedYarn[], basis: Basis): string[] {
  const without = yarns.filter(({ yarn, label }) => yarn !== null && label === null).map(nameOf);
  if (without.length === 0) return [];
  const grams = basis.weight
    ? say`grams are by what such yarn usually weighs, and balls cannot be told`
    : say`grams and balls cannot be told`;
  return [
    say`No label tells how long a ball of ${listed(without)} is: ${grams}. Write it as in: 50 g / 125 m.`,
  ];
}

function amountNotes(yarns: readonly ListedYarn[]): string[] {
  const without = yarns.filter(({ yarn, amounts }) => yarn !== null && amounts.length === 0).map(nameOf);
  return without.length > 0 ? [say`The list of materials says no amount of ${listed(without)}.`] : [];
}

function nameOf({ name }: ListedYarn): string {
  return name || say`the yarn`;
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : say`${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
}
