import { type Multiple, multipleOf } from "../fabric/multiple";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";

/** Numbers that leave the same rest: a multiple of `of`, and `plus` more. */
export type Congruence = Pick<Multiple, "of" | "plus">;

/** A row with the numbers of stitches that it can be worked on. */
export interface RowNeeds extends Congruence {
  readonly row: WorkedRow;
}

/** Two rows that no number of stitches suits both of. */
export interface Clash {
  readonly rows: readonly [WorkedRow, WorkedRow];
}

/**
 * The numbers that suit two at once, by the Chinese remainder theorem for moduli that may share divisors (C. F.
 * Gauss, Disquisitiones Arithmeticae, 1801, articles 32 to 36); null where none does.
 */
export function both(a: Congruence, b: Congruence): Congruence | null {
  const shared = divisor(a.of, b.of);
  if ((a.plus - b.plus) % shared !== 0) return null;
  const of = (a.of / shared) * b.of;
  let plus = a.plus;
  while ((((plus - b.plus) % b.of) + b.of) % b.of !== 0) plus += a.of;
  return { of, plus: plus % of };
}

function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}

/** The numbers that suit all rows at once, or two rows that stand against each other. */
export function suitingAll(needs: readonly RowNeeds[]): Congruence | Clash {
  let all: Congruence = { of: 1, plus: 0 };
  for (const [i, one] of needs.entries()) {
    const next = both(all, one);
    if (!next) return clashOf(needs.slice(0, i), one);
    all = next;
  }
  return all;
}

/** Congruences that have no number in common have two that have none. */
function clashOf(before: readonly RowNeeds[], one: RowNeeds): Clash {
  const other = before.find((earlier) => both(earlier, one) === null) ?? one;
  return { rows: [other.row, one.row] };
}

/** The counts that suit a stretch of rows. */
export interface Suiting extends Congruence {
  /** The stretch: rows next to each other that are worked on the same number of places. */
  readonly first: WorkedRow;
  readonly last: WorkedRow;
  /** The rows that not every count suits. */
  readonly needs: readonly RowNeeds[];
  /** The nearest that suit, below and above the count there is; `below` is null where it would be none. */
  readonly below: number | null;
  readonly above: number;
}

/** The counts that suit a row together with its neighbours on as many places; null where all do, or none is known. */
export function countsAround(row: WorkedRow, { rows, context }: WorkedPiece): Suiting | null {
  const places = placesOf(row);
  if (places === null || context.sizes.length > 1) return null;
  const at = rows.indexOf(row);
  const isAlike = (one: WorkedRow): boolean => one.result === "ok" && placesOf(one) === places;
  const from = rows.findLastIndex((one, i) => i < at && !isAlike(one)) + 1;
  const to = rows.findIndex((one, i) => i > at && !isAlike(one));
  const stretch = rows.slice(from, to < 0 ? undefined : to);
  const needs = stretch.flatMap(needsOf);
  const all = suitingAll(needs);
  const [first, last] = [stretch[0], stretch.at(-1)];
  if ("rows" in all || all.of === 1 || !first || !last) return null;
  const below = places - all.of;
  return {
    ...all,
    first,
    last,
    needs,
    below: below >= Math.max(all.plus, 1) ? below : null,
    above: places + all.of,
  };
}

function placesOf({ outcome, below }: WorkedRow): number | null {
  return below?.kind === "foundation" ? null : (outcome?.has[0] ?? null);
}

function needsOf(row: WorkedRow): RowNeeds[] {
  const multiple = row.outcome && multipleOf(row.outcome, 0);
  return multiple && multiple.of > 1 ? [{ of: multiple.of, plus: multiple.plus, row }] : [];
}

/** Rows next to each other on as many places, with the counts that suit all of them, or two that none suits. */
export interface Stretch {
  readonly first: WorkedRow;
  readonly last: WorkedRow;
  readonly places: number;
  readonly suits: Congruence | Clash;
  /** The rows that not every count suits. */
  readonly needs: readonly RowNeeds[];
  /** Chains besides one for each stitch, where its first row is worked along a chain. */
  readonly startingChain: number | null;
}

/** The stretches of a piece that not every count suits, in order; none of a piece in several sizes. */
export function stretchesOf({ rows, context }: WorkedPiece): Stretch[] {
  if (context.sizes.length > 1) return [];
  const runs: WorkedRow[][] = [];
  let places: number | null = null;
  for (const row of rows) {
    const own = isTold(row) ? (row.outcome?.has[0] ?? null) : null;
    if (own !== null && own === places) runs.at(-1)?.push(row);
    else if (own !== null) runs.push([row]);
    places = own;
  }
  return runs.filter(({ length }) => length > 1).flatMap(stretchOf);
}

/** Right, or wrong by the number of its places alone. */
function isTold({ result }: WorkedRow): boolean {
  return result === "ok" || result === "does-not-fit";
}

function stretchOf(rows: readonly WorkedRow[]): Stretch[] {
  const [first, last] = [rows[0], rows.at(-1)];
  const places = first?.outcome?.has[0];
  const needs = unlike(rows).flatMap(needsOf);
  if (!first || !last || places == null || needs.length === 0) return [];
  const startingChain = (first.outcome && multipleOf(first.outcome, 0)?.startingChain) ?? null;
  return [{ first, last, places, suits: suitingAll(needs), needs, startingChain }];
}

/** Rows that say the same need the same. */
function unlike(rows: readonly WorkedRow[]): WorkedRow[] {
  const plans = new Set<unknown>();
  return rows.filter(({ line: { plan } }) => {
    const isNew = plan?.instructions.some(({ op }) => op === "repeat" || op === "work") && !plans.has(plan);
    plans.add(plan);
    return isNew;
  });
}

/** The nearest that suit, on either side; below there may be none. */
export function nearestOf({ of, plus }: Congruence, places: number): number[] {
  const over = (((places - plus) % of) + of) % of;
  const below = over === 0 ? places - of : places - over;
  return [...(below >= Math.max(plus, 1) ? [below] : []), places + of - over];
}
