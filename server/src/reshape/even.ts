/*
 * Increases or decreases ("units") spread over a row. A row of that sort is a list of groups: plain stitches, then
 * units. Where there are fewer units than plain stitches each group has one unit, otherwise one plain stitch.
 */

export interface Group {
  readonly plain: number;
  readonly units: number;
}

/**
 * So many units among so many plain stitches: groups that differ by at most one, the long and the short
 * ones spread. The order is that of Euclid's algorithm on the numbers of long and short groups (G. T. Toussaint,
 * "The Euclidean algorithm generates traditional musical rhythms", 2005).
 */
export function spread(units: number, plain: number): Group[] {
  if (units > plain) return shares(plain, units).map((n) => ({ plain: 1, units: n }));
  return shares(units, plain).map((n) => ({ plain: n, units: 1 }));
}

/** So many groups that hold so many together; one group of no kind where there are none to be. */
function shares(groups: number, all: number): number[] {
  const least = Math.floor(all / groups);
  const longer = all % groups;
  const isMostlyLong = longer > groups - longer;
  const many = isMostlyLong ? longer : groups - longer;
  return mixed([isMostlyLong ? least + 1 : least], many, [isMostlyLong ? least : least + 1], groups - many);
}

/** Euclid's algorithm: what there is less of is put behind what there is more of, until one is left over. */
function mixed(a: readonly number[], many: number, b: readonly number[], few: number): number[] {
  if (few <= 1) return [...Array(many).fill(a).flat(), ...Array(few).fill(b).flat()];
  const both = [...a, ...b];
  const left = many - few;
  return left >= few ? mixed(a, left, both, few) : mixed(both, few, a, left);
}

/** The groups of a row, in the round: whole ones; also of a row without units, or without plain stitches. */
export function linedUp(units: number, plain: number): Group[] {
  return units === 0 || plain === 0 ? [{ plain, units }] : spread(units, plain);
}

/** The same groups moved on by half a group: the row begins and ends with half of one. */
export function staggered(units: number, plain: number): Group[] {
  const groups = linedUp(units, plain);
  const split = groups.at(-1);
  if (units === 0 || plain === 0 || !split) return groups;
  const others = groups.slice(0, -1);
  if (units > plain) {
    const before = Math.floor(split.units / 2);
    return [{ plain: 0, units: before }, ...others, { plain: 1, units: split.units - before }].filter(isSome);
  }
  const before = Math.floor(split.plain / 2);
  return [{ plain: before, units: 1 }, ...others, { plain: split.plain - before, units: 0 }].filter(isSome);
}

function isSome({ plain, units }: Group): boolean {
  return plain + units > 0;
}

/** Whether the row begins and ends with a part of a group. */
export function isStaggered(groups: readonly Group[]): boolean {
  const [first, last] = [groups[0], groups.at(-1)];
  return (
    groups.length > 1 && first !== undefined && last !== undefined && (last.units === 0 || first.plain === 0)
  );
}

/** Whether groups differ by at most one and the long ones are spread; where the row begins does not matter. */
export function isEven(groups: readonly Group[]): boolean {
  const units = groups.reduce((sum, one) => sum + one.units, 0);
  const plain = groups.reduce((sum, one) => sum + one.plain, 0);
  const row = oneByOne(groups);
  return (row + row).includes(oneByOne(linedUp(units, plain)));
}

/** `--+--+`: each plain stitch and each unit in turn. */
export function oneByOne(groups: readonly Group[]): string {
  return groups.map(({ plain, units }) => "-".repeat(plain) + "+".repeat(units)).join("");
}
