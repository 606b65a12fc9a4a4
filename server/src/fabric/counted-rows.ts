import { addedUp, statedTotal } from "./count";
import { forSize, type RowPlan } from "./instructions";
import { Leaves, type Outcome, type State } from "./outcome";
import { changed, kindOf } from "./row-states";
import { countPlaces } from "./strip";

/** Only where all rows are alike is it known what they make together. */
function evenly(makes: Outcome["makes"], isEven: boolean, times: readonly number[] | null): Outcome["inAll"] {
  const rows = isEven && times !== null ? times[0] : null;
  return makes.map((n) => (n === null || rows == null ? null : n * rows));
}

/** What rows come to that are told only by how many stitches more or fewer they make. */
export function countedOutcome(
  state: State,
  by: readonly number[],
  times: readonly number[] | null,
  stated: RowPlan["stated"],
): Outcome {
  const before = state.map((below) => (below === null ? null : countPlaces(below.strip)));
  const isEven = by.every((n) => n === 0);
  const after = isEven ? state : state.map((below, size) => below && changed(below, forSize(by, size) ?? 0));
  const makes = after.map((below) => (below === null ? null : countPlaces(below.strip)));
  const counts = makes.every((n, size) => n === null || stated === null || n === statedTotal(stated, size));
  return {
    ...plainOutcome(before, after, makes, counts, besides(stated)),
    inAll: evenly(makes, isEven, times),
  };
}

/** What a count says beside its total: of such rows nobody knows it. */
function besides(stated: RowPlan["stated"]): string | null {
  const inTotal = stated === null ? [] : addedUp(stated);
  return stated?.find((term) => !inTotal.includes(term))?.noun ?? null;
}

function plainOutcome(
  before: readonly (number | null)[],
  after: State,
  makes: readonly (number | null)[],
  counts: boolean,
  unknownNoun: string | null,
): Omit<Outcome, "inAll"> {
  const counted = makes.map((n, size) => {
    if (n === null) return null;
    const kinds = new Map([[kindOf(after[size] ?? null), n]]);
    return { matches: counts, makes: n, kinds, chainsCounted: false, unknownNoun, doubt: null };
  });
  const steps = makes.map(() => []);
  const plainly = {
    worked: [],
    fits: true,
    stopsEarly: false,
    cost: 0,
    reading: [],
    assumptions: [],
    meant: [],
    outOfReach: null,
    supposed: null,
  };
  return {
    needs: before,
    has: before,
    makes,
    counted,
    steps,
    leaves: new Leaves(null, after),
    counts,
    ...plainly,
  };
}
