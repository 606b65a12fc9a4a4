import type { Sized } from "../notation/words";
import { compare, tally } from "./count";
import { forSize, type RowPlan } from "./instructions";
import { type Outcome, type RowSetting, type State, stateKey } from "./outcome";
import type { RowLine } from "./pattern";
import type { Fabric } from "./worked";

/** One row of a schedule. */
export interface ScheduledRow {
  readonly plan: RowPlan;
  readonly setting: RowSetting;
}

/**
 * What a line asks for: one row, a range, or rows in turn ("Rep Rows 2 and 3 alternately"). The rows
 * are worked over and over until each size has had its number of them.
 */
export interface Schedule {
  readonly rows: readonly ScheduledRow[];
  readonly each: readonly number[];
  /** As reported: null for an open number of rows. */
  readonly times: readonly number[] | null;
  readonly stated: RowPlan["stated"];
}

/** More rows than this, none like the one before, are not worked one by one. */
const rowsAtMost = 2000;

/** Every usual way the first row may be worked, each followed to the last. */
export function workSchedule(fabric: Fabric, schedule: Schedule, state: State): readonly Outcome[] {
  const most = Math.max(...schedule.each);
  const [first] = schedule.rows as readonly [ScheduledRow];
  if (most === 1) return fabric.outcomes(stating(first.plan, schedule.stated), state, first.setting);
  return outcomesUncounted(fabric, first, state).map((outcome) => follow(fabric, schedule, outcome, most));
}

function outcomesUncounted(fabric: Fabric, row: ScheduledRow, state: State): readonly Outcome[] {
  return fabric.outcomes(stating(row.plan, null), state, row.setting);
}

function follow(fabric: Fabric, schedule: Schedule, first: Outcome, most: number): Outcome {
  const cycle = schedule.rows.length;
  let [last, fits, keyBefore] = [first, first.fits, stateKey(first.after)];
  const made = new MadeInAll(schedule.each, first);
  for (let pass = 1; pass < most; pass++) {
    if (pass > rowsAtMost) return { ...last, outOfReach: "these are too many rows to follow one by one" };
    const all = outcomesUncounted(fabric, schedule.rows[pass % cycle] as ScheduledRow, last.after);
    const next = all.find((one) => one.fits && one.outOfReach === null) ?? (all[0] as Outcome);
    fits &&= next.fits;
    last = freeze(next, last, schedule.each, pass);
    made.add(next, pass);
    if (pass % cycle !== 0) continue;
    const key = stateKey(last.after);
    if (key === keyBefore && isSteady(schedule.each, pass)) {
      const again = Math.floor((most - 1 - pass) / cycle);
      made.repeat(pass, cycle, again);
      pass += again * cycle;
    }
    keyBefore = key;
  }
  const { needs, has, cost, assumptions, meant } = first;
  const outOfReach = last.outOfReach ?? first.outOfReach;
  const { inAll } = made;
  return recount({ ...last, needs, has, inAll, fits, cost, assumptions, meant, outOfReach }, schedule.stated);
}

/** Adds up what the rows of a line make one after the other; each size for as many rows as it has. */
class MadeInAll {
  private readonly rows: Outcome["inAll"][] = [];
  inAll: Outcome["inAll"];

  constructor(
    private readonly each: readonly number[],
    first: Outcome,
  ) {
    this.inAll = first.inAll.map((n) => n && 0);
    this.add(first, 0);
  }

  add({ inAll }: Outcome, pass: number): void {
    this.rows.push(inAll);
    this.count(inAll, pass, 1);
  }

  /** The last `cycle` rows are worked `again` more times. */
  repeat(pass: number, cycle: number, again: number): void {
    for (const row of this.rows.slice(-cycle)) this.count(row, pass, again);
  }

  private count(row: Outcome["inAll"], pass: number, times: number): void {
    this.inAll = this.inAll.map((sum, size) =>
      sum === null || pass >= (this.each[size] ?? 1) ? sum : sum + (row[size] ?? 0) * times,
    );
  }
}

function isSteady(each: readonly number[], pass: number): boolean {
  return each.every((n) => n === each[0] || n <= pass);
}

/** Sizes that have had their rows stay as they are. */
function freeze(next: Outcome, last: Outcome, each: readonly number[], pass: number): Outcome {
  const done = (size: number): boolean => pass >= (each[size] ?? 1);
  if (!each.some((_, size) => done(size))) return next;
  return {
    ...next,
    after: next.after.map((below, size) => (done(size) ? (last.after[size] ?? null) : below)),
    steps: next.steps.map((steps, size) => (done(size) ? (last.steps[size] ?? []) : steps)),
    makes: next.makes.map((n, size) => (done(size) ? (last.makes[size] ?? null) : n)),
    counted: next.counted.map((one, size) => (done(size) ? (last.counted[size] ?? null) : one)),
  };
}

/** The count of a line is the count of its last row. */
function recount(outcome: Outcome, stated: RowPlan["stated"]): Outcome {
  if (stated === null) return outcome;
  const counted = outcome.steps.map((steps, size) =>
    outcome.counted[size] === null ? null : compare(stated, tally(steps), size),
  );
  const counts = counted.every((one) => one === null || one.matches);
  return { ...outcome, counted, counts, makes: counted.map((one) => one?.makes ?? null) };
}

/** How many rows a head stands for. */
export function rowsOfHead(line: RowLine, sizes: number): Pick<Schedule, "each" | "times"> {
  const { head } = line;
  if (!head || (head.to === null && head.many === null))
    return { each: Array(sizes).fill(1), times: head?.open ? null : [1] };
  const { from } = head;
  const list: Sized = head.many ?? (head.to ?? []).map((n) => (n === null ? null : n - (from ?? 1) + 1));
  const each = [...Array(sizes).keys()].map((size) => Math.max(forSize(list, size) ?? 1, 1));
  return { each, times: each };
}

const uncounted = {};
const statings = new WeakMap<RowPlan, WeakMap<object, RowPlan>>();

/** A plan with another stated count; the same object for the same two. */
function stating(plan: RowPlan, stated: RowPlan["stated"]): RowPlan {
  if (plan.stated === stated) return plan;
  const ofPlan = statings.get(plan) ?? new WeakMap<object, RowPlan>();
  statings.set(plan, ofPlan);
  const key = stated ?? uncounted;
  const known = ofPlan.get(key) ?? { ...plan, stated };
  ofPlan.set(key, known);
  return known;
}
