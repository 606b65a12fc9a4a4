import type { Outcome, State } from "./outcome";
import { stateKey } from "./outcome";
import type { RowLine } from "./pattern";

/** One way a piece may have gone so far. Doubtful rows part the way; counts and fits close the wrong ones. */
export interface Path {
  readonly state: State | null;
  readonly outcome: Outcome | null;
  readonly previous: Path | null;
  /** How far from usual it is, all rows so far taken together. */
  readonly cost: number;
  /** The row whose stated count, not its made one, this way goes on from. */
  readonly stated: RowLine | null;
}

/** A way, and one way to work the next row on it. */
export interface Candidate {
  readonly path: Path;
  readonly outcome: Outcome;
}

/** Ways carried on at once; more doubts than this are not told apart. */
const pathsAtMost = 8;

/** The ways that go on after a row that is right on these, the usual ones first. */
export function pathsFrom(right: readonly Candidate[]): Path[] {
  const made = right.filter((one) => one.path.stated === null);
  const kept = distinct(made.length > 0 ? made : right)
    .map(goOn)
    .slice(0, pathsAtMost);
  // After a slip the made and the stated count both live on, until a count decides.
  const stated = made.length > 0 ? right.find((one) => one.path.stated !== null) : undefined;
  return stated ? [...kept, goOn(stated)] : kept;
}

function goOn({ path, outcome }: Candidate): Path {
  return {
    state: outcome.leaves.state,
    outcome,
    previous: path,
    cost: costOf({ path, outcome }),
    stated: path.stated,
  };
}

function costOf({ path, outcome }: Candidate): number {
  return path.cost + outcome.cost;
}

function distinct(all: readonly Candidate[]): readonly Candidate[] {
  if (all.length === 1) return all;
  const byNumbers = new Map<string, Candidate>();
  for (const one of [...all].sort((a, b) => costOf(a) - costOf(b))) {
    const key = `${stateKey(one.outcome.leaves.state)} ${one.outcome.makes} ${one.outcome.needs}`;
    if (!byNumbers.has(key)) byNumbers.set(key, one);
  }
  return [...byNumbers.values()];
}

/** The nearest to right: what fits, then what counts, then the usual reading on what was made. */
export function nearestToRight(all: readonly Candidate[]): Candidate {
  const blame = ({ path, outcome }: Candidate): number =>
    (outcome.fits ? 0 : 40) + (outcome.counts ? 0 : 20) + (path.stated ? 5 : 0) + 25 * outcome.cost;
  return [...all].sort((a, b) => blame(a) - blame(b))[0] as Candidate;
}

/** A way to work a row, with the cost of the cheapest way along the whole piece that takes it. */
export interface Way {
  readonly outcome: Outcome;
  readonly cost: number;
}

/** For each row, the ways to work it that its piece left open: followed back from the last row. */
export function survivors(history: readonly (readonly Path[])[]): Way[][] {
  const all: Way[][] = [];
  let next = new Map<Path, number>();
  for (const paths of history.toReversed()) {
    const costs = next.size === 0 ? new Map(paths.map((path) => [path, path.cost])) : costsBefore(next);
    const alive = paths.filter((path) => costs.has(path));
    const made = alive.filter((path) => path.stated === null);
    all.push(waysOf(made.length > 0 ? made : alive, costs));
    next = new Map(alive.map((path) => [path, costs.get(path) ?? path.cost]));
  }
  return all.reverse();
}

/** The cheapest way on from each path that is gone on from. */
function costsBefore(next: ReadonlyMap<Path, number>): Map<Path, number> {
  const costs = new Map<Path, number>();
  for (const [{ previous }, cost] of next)
    if (previous) costs.set(previous, Math.min(cost, costs.get(previous) ?? cost));
  return costs;
}

function waysOf(paths: readonly Path[], costs: ReadonlyMap<Path, number>): Way[] {
  const ways = new Map<Outcome, number>();
  for (const path of paths) {
    const cost = costs.get(path) ?? path.cost;
    if (path.outcome) ways.set(path.outcome, Math.min(cost, ways.get(path.outcome) ?? cost));
  }
  return [...ways].map(([outcome, cost]) => ({ outcome, cost }));
}

/** The first of each that comes to other numbers. */
export function differing(all: readonly Outcome[]): readonly Outcome[] {
  if (all.length === 1) return all;
  const byNumbers = new Map<string, Outcome>();
  for (const one of all) {
    const kinds = one.counted.map((counted) => counted && [...counted.kinds].join());
    const key = JSON.stringify([one.needs, one.makes, kinds]);
    if (!byNumbers.has(key)) byNumbers.set(key, one);
  }
  return [...byNumbers.values()];
}
