import { say } from "../../text/say";
import type { Refusal } from "../row-trial";
import type { SizedList } from "./size-lists";

/*
 * One more size. Lists of one pattern go up together: chains, counts and repeats are on a line with the count of the
 * widest rows. A list that is on such a line goes on along it; any other by its last step.
 */

/** Why a pattern has no new size whose lists tell nothing of how they go up. */
export function noDriver(): string {
  return say`No count of the pattern rises with its sizes`;
}

/** The entries of a new size, one for each list, null where a list has names; or why there is none. */
export function nextSize(lists: readonly SizedList[], by: number): (string | null)[] | Refusal {
  const driver = driverOf(lists);
  const last = driver?.at(-1) ?? null;
  if (!driver || last === null) return { why: noDriver() };
  const to = stepsTo(driver, last * by, lists);
  const entries = lists.map((list) => {
    const values = valuesOf(list);
    return values && entry(list, values, driver, to);
  });
  const at = entries.findIndex((text, i) => text !== null && isTooFew(text, lists[i]));
  const list = lists[at];
  return list
    ? {
        why: say`Line ${list.line + 1}, ${list.of}: ${entries[at]} in the new size. Add the size as a column of the grading sheet, with numbers of your own`,
      }
    : entries;
}

/** Less than there can be of it, where the last size has more. */
function isTooFew(text: string, list: SizedList | undefined): boolean {
  const last = list?.cells.at(-1)?.text;
  return text !== last && Number(text) < (list?.least ?? 1);
}

/** The whole numbers of a list, null for a size that has none; null for a list of names. */
function valuesOf({ cells }: SizedList): (number | null)[] | null {
  const values = cells.map(({ text }) => (/^[-–—]$/.test(text) ? null : numberOf(text)));
  return values.some((n) => Number.isNaN(n)) ? null : values;
}

const parts: Readonly<Record<string, number>> = { "½": 0.5, "¼": 0.25, "¾": 0.75 };

function numberOf(text: string): number {
  const [, whole = "", sign, over, under] =
    /^(\d+(?:[.,]\d+)?)(?:\s?([½¼¾])|\s(\d)\/(\d))?$/.exec(text) ?? [];
  if (whole === "") return Number.NaN;
  return (
    Number(whole.replace(",", ".")) + (sign ? (parts[sign] ?? 0) : over ? Number(over) / Number(under) : 0)
  );
}

/** The list of counts that the others go by: the one that comes most often among those that rise with every size. */
function driverOf(lists: readonly SizedList[]): number[] | null {
  const often = new Map<string, { values: number[]; n: number }>();
  for (const list of lists) {
    const values = valuesOf(list);
    if (!list.of.endsWith(": count") || !values || values.some((n) => n === null)) continue;
    const key = `${values}`;
    const rises = values.every((n, i) => i === 0 || (n ?? 0) > (values[i - 1] ?? 0));
    if (rises) often.set(key, { values: values as number[], n: (often.get(key)?.n ?? 0) + 1 });
  }
  return [...often.values()].sort((a, b) => b.n - a.n)[0]?.values ?? null;
}

/** The count nearest to the wanted one, by the step in which the counts of the sizes go. */
function stepsTo(driver: readonly number[], wanted: number, lists: readonly SizedList[]): number {
  const last = driver.at(-1) ?? 0;
  const step = lists.reduce(
    (all, list) => {
      const values = valuesOf(list);
      const line = values && isWhole(values) ? lineOf(values, driver) : null;
      // A list of whole numbers stays whole.
      return line && line.each !== 0 ? common(all, wholeStep(line.each)) : all;
    },
    driver.slice(1).reduce((all, n, i) => divisor(all, n - (driver[i] ?? 0)), 0) || 1,
  );
  const steps = Math.round((wanted - last) / step);
  // Wider by less than a step is wider all the same, and narrower narrower.
  return last + (steps || Math.sign(wanted - last)) * step;
}

function isWhole(values: readonly (number | null)[]): boolean {
  return values.every((n) => n === null || Number.isInteger(n));
}

/** The least step of the driver at which so much of another list each is whole: 4 for a quarter. */
function wholeStep(each: number): number {
  for (let n = 1; n <= 64; n++) if (Math.abs(each * n - Math.round(each * n)) < 1e-9) return n;
  return 1;
}

function divisor(a: number, b: number): number {
  return b === 0 ? Math.abs(a) : divisor(b, a % b);
}

function common(a: number, b: number): number {
  return (a * b) / divisor(a, b);
}

interface Line {
  readonly base: number;
  readonly each: number;
}

/** Of a list that is on a line with the driver, whatever sizes have no entry. */
function lineOf(values: readonly (number | null)[], driver: readonly number[]): Line | null {
  const points = values.flatMap((n, i) => (n === null ? [] : [{ n, at: driver[i] ?? 0 }]));
  const [first] = points;
  const last = points.at(-1);
  if (!first || !last) return null;
  const each = last.at === first.at ? 0 : (last.n - first.n) / (last.at - first.at);
  const base = last.n - each * last.at;
  return points.every(({ n, at }) => Math.abs(base + each * at - n) < 1e-9) ? { base, each } : null;
}

function entry(
  { cells }: SizedList,
  values: readonly (number | null)[],
  driver: readonly number[],
  to: number,
): string {
  if (values.at(-1) === null) return cells.at(-1)?.text ?? "-";
  const [before, last] = [values.at(-2) ?? values.at(-1), values.at(-1)];
  const line = lineOf(values, driver);
  const along = (to - (driver.at(-1) ?? 0)) / ((driver.at(-1) ?? 1) - (driver.at(-2) ?? 0) || 1);
  const next = line ? line.base + line.each * to : (last ?? 0) + ((last ?? 0) - (before ?? 0)) * along;
  return printed(next, isWhole(values));
}

function printed(n: number, whole: boolean): string {
  return `${whole ? Math.round(n) : Math.round(n * 4) / 4}`;
}

/** The count of the last size that the others go by. */
export function widestIn(lists: readonly SizedList[]): number | null {
  return driverOf(lists)?.at(-1) ?? null;
}
