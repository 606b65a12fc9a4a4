/** One number a size; null where the size is not worked or nothing is stated. */
export type Numbers = readonly (number | null)[];

/** A cell of a table: one number a size, the kinds it lists (if it lists any), or nothing. */
export interface Amount {
  readonly numbers: Numbers | null;
  /** Keyed as the cell prints them, spaces in the singular; empty where the cell names no kind. */
  readonly kinds: Readonly<Record<string, Numbers>>;
}

/** Kinds that are not added up with the stitches: spaces by their many names, loops, chains and picots. */
const apart =
  /(^|[\s-])(sp|sps|spaces?|loops?|lps?|eyelets?|holes?|handles?|corners?|picots?|ch|chs)$|^ch-\d+$/;

/** `18 or 24`: the readings of a cell; one of them where nothing is in doubt. */
export function readingsOf(cell: string): readonly Amount[] {
  return cell.split(" or ").map(amountOf);
}

/** `60/64/68`, `12 dc + 4 ch-2 sp` or `-`. */
export function amountOf(cell: string): Amount {
  if (cell === "-") return { numbers: null, kinds: {} };
  if (/^[\d/-]+$/.test(cell)) return { numbers: numbersOf(cell), kinds: {} };
  const kinds: Record<string, Numbers> = {};
  for (const part of cell.split(" + ")) {
    const split = /^([\d/-]+) (.+)$/.exec(part);
    if (!split?.[1] || !split[2]) throw new Error(`cannot read "${cell}"`);
    kinds[split[2]] = numbersOf(split[1]);
  }
  return { numbers: sumOf(kinds), kinds };
}

function numbersOf(list: string): Numbers {
  return list.split("/").map((number) => (number === "-" ? null : Number(number)));
}

/** What the kinds come to: the stitches, or everything where only spaces and the like are counted. */
export function sumOf(kinds: Readonly<Record<string, Numbers>>): Numbers {
  const stitches = Object.keys(kinds).filter((kind) => !apart.test(kind));
  const counted = stitches.length > 0 ? stitches : Object.keys(kinds);
  const lists = counted.map((kind) => kinds[kind] ?? []);
  return (lists[0] ?? []).map((_, size) => addUp(lists.map((list) => list[size] ?? null)));
}

function addUp(numbers: Numbers): number | null {
  return numbers.reduce<number | null>((sum, n) => (sum === null || n === null ? null : sum + n), 0);
}

/** As a table prints it; a list without a single number is `-`. */
export function printNumbers(numbers: Numbers | null): string {
  if (numbers === null || numbers.every((number) => number === null)) return "-";
  return numbers.map((number) => number ?? "-").join("/");
}

export function printKinds(kinds: Readonly<Record<string, Numbers>>): string {
  return Object.entries(kinds)
    .map(([kind, numbers]) => `${printNumbers(numbers)} ${kind}`)
    .join(" + ");
}
