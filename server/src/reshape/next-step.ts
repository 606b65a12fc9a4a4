import type { Outcome, State } from "../fabric/outcome";
import { isRight, reworking } from "../fabric/rework";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { rewriteOnToMake } from "./rewrite-row";
import { isRefusal } from "./row-trial";

/** What a row that goes on as the rows before it would say, without its head. */
export interface NextStep {
  /** It was read and worked on the places that the last row leaves, and is right there. */
  readonly text: string;
  /** Stitches made, for each size; null for one that does not work it. */
  readonly makes: readonly (number | null)[];
}

/** Rows that come again: each one, every other one, every third. */
const periods = [1, 2, 3] as const;

/** The row behind the last of some rows, where their numbers go up or down evenly: 6, 12, 18… */
export function nextStep(rows: readonly WorkedRow[], piece: WorkedPiece): NextStep | null {
  const own = rows.filter(({ line }) => line.kind !== "foundation");
  const on = own.at(-1)?.outcome?.leaves.state;
  if (!on) return null;
  const ways = periods.flatMap((period): Way[] => {
    const change = evenChange(own, period);
    const [model, before] = [own.at(-period), own.at(-2 * period)];
    if (change === null || !model || !before) return [];
    const makes = makesOf(model).map((n, size) => (n === null ? null : n + (change[size] ?? 0)));
    return [{ model, before, change, goal: { piece, on, goal: makes } }];
  });
  return (
    firstOf(ways, withNextNumbersOf) ??
    firstOf(ways, ({ model, goal }) => rewrittenLike(model, goal)) ??
    firstOf(ways, withOneMore)
  );
}

/** A row that another goes on like, and the one before it that it went on like itself. */
interface Way {
  readonly model: WorkedRow;
  readonly before: WorkedRow;
  /** What is added, for each size. */
  readonly change: readonly number[];
  readonly goal: Goal;
}

/** In the words of its model come before rows that are spaced anew: rows that are staggered in turn stay so. */
function withNextNumbersOf({ model, before, goal }: Way): NextStep | null {
  const text = withNextNumbers(instructionsOf(before), instructionsOf(model));
  return text === null ? null : workedAs(text, model, goal);
}

/** Places in a row where one stitch more may be meant. */
const slotsAtMost = 8;

/** A row for several sizes with one stitch more in one place: `hdc in next st` as `hdc in next 2 sts`. */
function withOneMore({ model, change, goal }: Way): NextStep | null {
  const { text, plan } = model.line;
  const count = plan?.statedSpan;
  if (!count || change.length < 2) return null;
  let size = 0;
  const numbers = text.slice(count.start, count.end).match(/\d+/g) ?? [];
  const stated = text
    .slice(count.start, count.end)
    .replace(/\d+/g, (digits) => `${Number(digits) + (change[size++] ?? 0)}`);
  if (numbers.length !== change.length) return null;
  const slots = [...text.slice(0, count.start).matchAll(/\d+|\bnext st\b/g)].slice(0, slotsAtMost);
  for (const { 0: slot, index } of slots) {
    const more = slot === "next st" ? "next 2 sts" : `${Number(slot) + 1}`;
    const row = text.slice(0, index) + more + text.slice(index + slot.length, count.start) + stated;
    const step = workedAs(withoutRemarks(row + text.slice(count.end), model), model, goal);
    if (step) return step;
  }
  return null;
}

function firstOf(ways: readonly Way[], step: (way: Way) => NextStep | null): NextStep | null {
  for (const way of ways) {
    const found = step(way);
    if (found) return found;
  }
  return null;
}

interface Goal {
  readonly piece: WorkedPiece;
  readonly on: State;
  readonly goal: readonly (number | null)[];
}

/** What is added from one row to the one a period further on, for each size; null where that is not even. */
function evenChange(rows: readonly WorkedRow[], period: number): number[] | null {
  const last = rows.slice(-3 * period);
  if (last.length < 2 * period || !last.every(isSettled)) return null;
  const changes = last.slice(period).map((row, i) => changeTo(row, last[i] as WorkedRow));
  const [first = []] = changes;
  return changes.every((one) => `${one}` === `${first}`) ? first : null;
}

function changeTo(row: WorkedRow, before: WorkedRow): number[] {
  const made = makesOf(before);
  return makesOf(row).map((n, size) => (n ?? 0) - (made[size] ?? 0));
}

function isSettled({ line, result, outcome, found }: WorkedRow): boolean {
  const isWhole = line.kind === "row" && line.sizes === null && line.plan !== null;
  return isWhole && result === "ok" && found !== null && outcome !== null && !line.plan?.copies;
}

function makesOf({ outcome }: WorkedRow): readonly (number | null)[] {
  return outcome?.makes ?? [];
}

function instructionsOf(row: WorkedRow): string {
  return withoutRemarks(row.line.text, row);
}

/** Up to its count: remarks behind that belong to the one row that was the model. */
function withoutRemarks(text: string, { line }: WorkedRow): string {
  const behind = line.text.slice(line.plan?.statedSpan?.end ?? line.text.length);
  const stop = /^\s*\.\s*$/.test(behind) ? "." : "";
  return `${text.slice(0, text.length - behind.length)}${stop}`.replace(/\s+/g, " ").trim();
}

/** Two texts that differ in their numbers only, and a third with the numbers that follow. */
function withNextNumbers(first: string, second: string): string | null {
  const before = numbersAsIn(first, second);
  if (before === null) return null;
  const next = [...second.matchAll(/\d+/g)].map(([digits], i) => 2 * Number(digits) - (before[i] ?? 0));
  let i = 0;
  return next.some((n) => n < 1) ? null : second.replace(/\d+/g, () => `${next[i++]}`);
}

const partsOfText = /\d+|\p{L}+|[^\s\p{L}\d]/gu;

/** A number for each one of the second text; "next st" says one less than "next 2 sts". */
function numbersAsIn(first: string, second: string): number[] | null {
  const said = first.match(partsOfText) ?? [];
  const numbers: number[] = [];
  let i = 0;
  for (const part of second.match(partsOfText) ?? []) {
    const own = said[i];
    if (/^\d/.test(part)) numbers.push(own !== undefined && /^\d/.test(own) ? Number(said[i++]) : 1);
    else if (own === part || `${own}s` === part) i++;
    else return null;
  }
  return i === said.length ? numbers : null;
}

function workedAs(text: string, model: WorkedRow, { piece, on, goal }: Goal): NextStep | null {
  const right = reworking(model, piece.context)(text, on).find((one) => isRight(one) && comesTo(one, goal));
  return right ? { text, makes: right.makes } : null;
}

function comesTo({ makes }: Outcome, goal: Goal["goal"]): boolean {
  return goal.every((n, size) => (makes[size] ?? null) === n);
}

function rewrittenLike(model: WorkedRow, { piece, on, goal }: Goal): NextStep | null {
  const [makes] = goal;
  if (goal.length !== 1 || makes == null || makes < 1) return null;
  const found = rewriteOnToMake(model, piece, on, makes);
  return isRefusal(found) ? null : { text: withoutRemarks(found.text, model), makes: [found.makes] };
}
