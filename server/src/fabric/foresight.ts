import { type Outcome, type State, stateKey } from "./outcome";

/** A row worked on what it finds: its ways in the order they are tried, and the one that is taken. */
export interface RowWorked {
  readonly ways: readonly Outcome[];
  readonly taken: Outcome;
}

/** Works the row that comes as number `pass`. */
export type WorkRow = (pass: number, state: State) => RowWorked;

/** Rows told by arithmetic: `times` times the `period` rows before them, and what the last one leaves. */
export interface Leap {
  readonly period: number;
  readonly times: number;
  readonly state: State;
}

/** Goes through the rows of a line after which places are looked at for an even change. */
const longestPeriod = 12;
/** A leap over fewer periods is not worth its proof. */
const leastTimes = 6;

/**
 * Tells rows by arithmetic where their places change by the same numbers in every period.
 *
 * All numbers of a row come from those of its places by sums, whole parts of quotients, and the less or
 * greater of two. From places on a line such numbers stay on a line until one of these turns, and what
 * the row uses and makes, stitch for stitch, shows the turn. So the periods between are taken as told
 * only if the last two, the middle one, the next one and the two behind all have the same steps, with all
 * numbers on one line. What does not pass is worked row by row.
 */
export class Foresight {
  private seen: Taken[] = [];
  private readonly lastSeen = new Map<string, number>();
  private tryAgainAt = 0;

  constructor(
    private readonly cycle: number,
    private readonly work: WorkRow,
  ) {}

  /** How far rows can be told from the one numbered `pass` on, which finds `state`; at most `room` rows. */
  leap(pass: number, state: State, room: number): Leap | null {
    const periods = this.periodsAt(state);
    if (pass < this.tryAgainAt) return null;
    for (const period of periods) {
      const slope = this.slopeOver(period);
      const line = slope && new Line(state, slope);
      const most = line ? Math.min(Math.floor(room / period), line.length) : 0;
      if (!line || most < leastTimes) continue;
      const times = new Course(line, pass, period, this.work).onLineFor(most);
      if (times > 0) return this.leapTo(line.at(times), period, times);
      this.tryAgainAt = 2 * pass;
    }
    return null;
  }

  /** A size has had its rows: those before tell nothing of what is to come. */
  forget(): void {
    this.seen = [];
    this.lastSeen.clear();
  }

  private leapTo(state: State, period: number, times: number): Leap {
    this.forget();
    return { period, times, state };
  }

  /** Short ones, and the one after which the places are the same again. */
  private periodsAt(state: State): number[] {
    const { cycle, seen } = this;
    const key = `${seen.length % cycle} ${stateKey(state)}`;
    const again = seen.length - (this.lastSeen.get(key) ?? seen.length);
    this.lastSeen.set(key, seen.length);
    seen.push(takeApart(state));
    return [again, ...Array.from({ length: longestPeriod }, (_, i) => (i + 1) * cycle)].filter((n) => n > 0);
  }

  /** By how much the numbers changed in each of the last two periods, where that is the same. */
  private slopeOver(period: number): readonly number[] | null {
    const [now, once, twice] = [1, period + 1, 2 * period + 1].map((back) => this.seen.at(-back));
    if (!now || !once || !twice || now.shape !== once.shape || now.shape !== twice.shape) return null;
    const slope = now.numbers.map((n, i) => n - (once.numbers[i] ?? 0));
    return slope.every((n, i) => n === (once.numbers[i] ?? 0) - (twice.numbers[i] ?? 0)) ? slope : null;
  }
}

/** The periods from a row on, by number: 0 is the next one, -1 the one just worked. */
class Course {
  private readonly twice: Trace;
  private readonly once: Trace;

  constructor(
    private readonly line: Line,
    private readonly pass: number,
    private readonly period: number,
    private readonly work: WorkRow,
  ) {
    this.twice = this.trace(-2);
    this.once = this.trace(-1);
  }

  /** How many periods, at most so many, go on as the last two did; 0 where that is not proved. */
  onLineFor(most: number): number {
    if (!this.leadsOn(this.once) || !this.isOnLine(this.trace(0))) return 0;
    // Rows that have few stitches left differ from those before: the end is looked for from behind.
    for (let back = 0; most - back >= leastTimes; back = 4 * back + 1)
      if (this.holdsFor(most - back)) return most - back;
    return 0;
  }

  private holdsFor(times: number): boolean {
    const last = this.trace(times - 1);
    return (
      this.isOnLine(last) &&
      this.leadsOn(last) &&
      staysWrong(this.twice, last) &&
      [times - 2, Math.floor(times / 2)].every((t) => this.isOnLine(this.trace(t)))
    );
  }

  private trace(t: number): Trace {
    const rows: (readonly Outcome[])[] = [];
    const taking: number[] = [];
    let state = this.line.at(t);
    for (let i = 0; i < this.period; i++) {
      const { ways, taken } = this.work(this.pass + i, state);
      rows.push(ways);
      taking.push(ways.indexOf(taken));
      const found = state;
      state = taken.leaves.state.map((below, size) => below ?? found[size] ?? null);
    }
    const decided = [taking, rows.map((ways) => ways.map(decisive))];
    return { ...takeApart(decided), t, ways: rows.flat(), leaves: stateKey(state) };
  }

  private isOnLine(other: Trace): boolean {
    const { twice, once } = this;
    if (twice.shape !== once.shape || twice.shape !== other.shape) return false;
    return other.numbers.every((n, i) => {
      const before = once.numbers[i] ?? 0;
      return n === before + (other.t - once.t) * (before - (twice.numbers[i] ?? 0));
    });
  }

  /** Leaves what the next period finds. */
  private leadsOn({ leaves, t }: Trace): boolean {
    return leaves === stateKey(this.line.at(t + 1));
  }
}

/** A value taken apart: its numbers, and the rest as a text that is equal where only numbers differ. */
interface Taken {
  readonly shape: string;
  readonly numbers: readonly number[];
}

/** All that was decided in the period number `t`. */
interface Trace extends Taken {
  readonly t: number;
  readonly ways: readonly Outcome[];
  readonly leaves: string;
}

function takeApart(value: unknown): Taken {
  const numbers: number[] = [];
  const shape = JSON.stringify(value, (_, part) => {
    if (typeof part !== "number") return part;
    numbers.push(part);
    return 0;
  });
  return { shape, numbers };
}

/** The same value with its numbers shifted, in the order in which they are taken apart. */
function shifted(value: unknown, by: () => number): unknown {
  if (typeof value === "number") return value + by();
  if (Array.isArray(value)) return value.map((part) => shifted(part, by));
  if (value === null || typeof value !== "object" || value instanceof Map) return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, shifted(part, by)]));
}

/** States that lie evenly apart: this one, and by number those before and after it. */
class Line {
  constructor(
    private readonly state: State,
    private readonly slope: readonly number[],
  ) {}

  at(t: number): State {
    let i = 0;
    return shifted(this.state, () => t * (this.slope[i++] ?? 0)) as State;
  }

  /** How far the line goes while all numbers are exact and more than none. */
  get length(): number {
    const lengths = takeApart(this.state).numbers.map((n, i) => {
      const by = this.slope[i] ?? 0;
      if (by === 0) return Number.MAX_SAFE_INTEGER;
      return by > 0 ? Math.floor((Number.MAX_SAFE_INTEGER - n) / by) : Math.floor((n - 1) / -by);
    });
    return Math.min(Number.MAX_SAFE_INTEGER, ...lengths);
  }
}

function decisive({
  needs,
  has,
  inAll,
  steps,
  leaves,
  fits,
  stopsEarly,
  outOfReach,
  supposed,
}: Outcome): unknown {
  return { needs, has, inAll, steps, after: leaves.state, fits, stopsEarly, outOfReach, supposed };
}

export function isRight(outcome: Outcome): boolean {
  return outcome.fits && outcome.outOfReach === null;
}

/** No way that was passed over comes right between two periods: what it leaves over never changes sides. */
function staysWrong(first: Trace, last: Trace): boolean {
  return first.ways.every((way, i) => {
    if (isRight(way) || way.outOfReach !== null) return true;
    const [left, leftLast] = [leftOver(way), leftOver(last.ways[i] as Outcome)];
    return left.some((n, size) => n * (leftLast[size] ?? 0) > 0);
  });
}

function leftOver({ needs, has }: Outcome): number[] {
  return has.map((n, size) => (n ?? 0) - (needs[size] ?? 0));
}
