import type { Sized } from "../notation/words";
import { say } from "../text/say";
import { compare, statesEverySize, tally } from "./count";
import { Foresight, isRight, type Leap, type RowWorked, type WorkRow } from "./foresight";
import { forSize, type RowPlan } from "./instructions";
import { Leaves, type Outcome, type RowSetting, type RowsAlike, type State } from "./outcome";
import type { RowLine } from "./pattern";
import type { Fabric } from "./worked";

/** One row of a schedule. */
export interface ScheduledRow {
  readonly plan: RowPlan;
  /** What was taken for granted where the row was worked before; null where it was not. */
  readonly readAs: readonly string[] | null;
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

/** Rows worked one by one; what comes after them is told by arithmetic or not at all. */
const rowsAtMost = 2000;

/** Every usual way the first row may be worked, each followed to the last. */
export function workSchedule(fabric: Fabric, schedule: Schedule, state: State): readonly Outcome[] {
  const [first] = schedule.rows as readonly [ScheduledRow];
  if (Math.max(...schedule.each) === 1)
    return usualFirst(fabric.outcomes(stating(first.plan, schedule.stated), state, first.setting), first);
  const ways = usualFirst(fabric.outcomes(stating(first.plan, null), state, first.setting), first);
  return ways.map((outcome) => follow(fabric, schedule, outcome));
}

function follow(fabric: Fabric, schedule: Schedule, first: Outcome): Outcome {
  const { each, rows } = schedule;
  const work: WorkRow = (pass, state) => workRow(fabric, schedule, first, pass, state);
  const foresight = new Foresight(rows.length, work);
  const made = new MadeInAll(first, rows.length);
  const most = Math.max(...each);
  let [last, onebyone] = [first, 0];
  let fits: Pick<Outcome, "fits" | "misfit"> = { fits: first.fits };
  for (let pass = 1; pass < most; pass++) {
    if (each.includes(pass)) foresight.forget();
    const leap = foresight.leap(pass, last.leaves.state, stretchFrom(each, pass) - 1);
    if (leap) {
      made.repeat(leap);
      last = { ...last, leaves: new Leaves(null, leap.state) };
      pass += leap.period * leap.times;
    }
    if (onebyone++ > rowsAtMost) return outOfReach(last, say`these are too many rows to follow one by one`);
    const { taken } = work(pass, last.leaves.state);
    if (fits.fits && !taken.fits) fits = misfitAt(pass, taken);
    last = outOfReach(freeze(taken, last, each, pass), last.outOfReach);
    made.add(taken);
    if (last.inAll.some((n) => n !== null && n > Number.MAX_SAFE_INTEGER))
      return outOfReach(last, say`these rows come to more stitches than can be counted`);
  }
  const { needs, has, cost, reading, assumptions, meant } = first;
  const found = {
    needs,
    has,
    inAll: made.inAll,
    worked: made.worked,
    ...fits,
    cost,
    reading,
    assumptions,
    meant,
  };
  return recount(outOfReach({ ...last, ...found }, first.outOfReach), schedule.stated);
}

function misfitAt(pass: number, { needs, has }: Outcome): Pick<Outcome, "fits" | "misfit"> {
  return { fits: false, misfit: { after: pass, needs, has } };
}

function outOfReach(outcome: Outcome, why: string | null): Outcome {
  return { ...outcome, outOfReach: outcome.outOfReach ?? why };
}

/** Works one row for the sizes that are not done; of its ways the first that is right, or the one the first row was worked in. */
function workRow(
  fabric: Fabric,
  { rows, each }: Schedule,
  first: Outcome,
  pass: number,
  state: State,
): RowWorked {
  const row = rows[pass % rows.length] as ScheduledRow;
  const going = state.map((below, size) => (pass < (each[size] ?? 1) ? below : null));
  const ways = fabric.outcomes(stating(row.plan, null), going, row.setting);
  const right = ways.filter(isRight);
  const readAs = row.readAs ?? (pass % rows.length === 0 ? first.assumptions : null);
  const alike = right.find((way) => readAs !== null && isReadAs(way, readAs));
  return { ways, taken: alike ?? right[0] ?? (ways[0] as Outcome) };
}

function isReadAs({ assumptions }: Outcome, readAs: readonly string[]): boolean {
  return assumptions.join("\n") === readAs.join("\n");
}

/** A row that was worked before is usually worked the same way again. */
function usualFirst(ways: readonly Outcome[], { readAs }: ScheduledRow): readonly Outcome[] {
  if (readAs === null || !ways.some((way) => isReadAs(way, readAs))) return ways;
  return ways.map((way) => ({ ...way, cost: isReadAs(way, readAs) ? 0 : way.cost + 1 }));
}

/** How many rows there are from here on until a size is done. */
function stretchFrom(each: readonly number[], pass: number): number {
  return Math.min(...each.filter((n) => n > pass)) - pass;
}

/** Adds up what the rows of a line make one after the other; rows that a size does not work add nothing. */
class MadeInAll {
  readonly worked: RowsAlike[] = [];
  private readonly rows: Outcome[];
  private sums: Outcome["inAll"];

  constructor(
    first: Outcome,
    private readonly cycle: number,
  ) {
    this.rows = [first];
    this.sums = first.inAll;
    this.worked.push(...first.worked);
  }

  add(row: Outcome): void {
    const turn = this.rows.length % this.cycle;
    this.rows.push(row);
    this.count((size) => row.inAll[size] ?? 0);
    const last = this.worked.at(-1);
    for (const one of row.worked)
      if (last?.steps === one.steps && last.before === null && last.turn === turn)
        this.worked[this.worked.length - 1] = { ...last, times: last.times + 1 };
      else this.worked.push({ ...one, turn });
  }

  /** The rows of the last period again and again, changing each time by what they changed last. */
  repeat({ period, times }: Leap): void {
    for (let back = period; back > 0; back--) {
      const [now, before] = [this.rows.at(-back), this.rows.at(-back - period)];
      this.count((size) => {
        const n = now?.inAll[size] ?? 0;
        const change = n - (before?.inAll[size] ?? 0);
        return times * n + (change * times * (times + 1)) / 2;
      });
      const turn = (this.rows.length - back) % this.cycle;
      for (const one of now?.worked ?? [])
        this.worked.push({ ...one, turn, times, before: before?.steps ?? null });
    }
  }

  private count(made: (size: number) => number): void {
    this.sums = this.sums.map((sum, size) => (sum === null ? null : sum + made(size)));
  }

  /** Null where the number is too large to be exact. */
  get inAll(): Outcome["inAll"] {
    return this.sums.map((n) => (n !== null && Number.isSafeInteger(n) ? n : null));
  }
}

/** Sizes that have had their rows stay as they are. */
function freeze(next: Outcome, last: Outcome, each: readonly number[], pass: number): Outcome {
  const done = (size: number): boolean => pass >= (each[size] ?? 1);
  if (!each.some((_, size) => done(size))) return next;
  const [before, after] = [last.leaves.state, next.leaves.state];
  const places = after.map((below, size) => (done(size) ? (before[size] ?? null) : below));
  return {
    ...next,
    leaves: new Leaves(null, places),
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
  const counts = counted.every((one) => one === null || one.matches) && statesEverySize(stated, counted);
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
  const known = ofPlan.get(key) ?? { ...plan, stated, hadCount: plan.stated !== null };
  ofPlan.set(key, known);
  return known;
}
