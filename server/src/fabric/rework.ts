import { keptBy } from "../text/kept-by";
import type { PatternContext } from "./context";
import { work } from "./cursor";
import { forSize, type RowPlan } from "./instructions";
import { type Outcome, type State, type Ways, WaysToWork } from "./outcome";
import { RowReader } from "./row-reader";
import type { WorkedRow } from "./worked";

/** Places looked at while changes of one row are tried. */
const placesAtMost = 20_000;

/** The ways to work a changed text of a row on the places that it found, or on others. */
export type Reworking = (text: string, on?: State) => Ways;

/** What was tried before is tried again: for the next count, or by the next rule. */
const readers = keptBy((_: PatternContext) => new RowReader());

const noWays: Ways = { all: () => [], readAs: () => undefined, find: () => undefined };

/** Tries changes of one row; `placesTried`: how many places may be looked at before no more is tried. */
export function reworking(
  row: WorkedRow,
  context: PatternContext,
  placesTried: number = placesAtMost,
): Reworking {
  const reader = readers(context);
  const kept = new Map<string, Ways>();
  const startedAt = work.placesVisited;
  return (text, on) => {
    const known = on ? undefined : kept.get(text);
    if (known) return known;
    // A row that is long to work is not tried over and over: no change is better than a wait.
    if (work.placesVisited - startedAt > placesTried) return noWays;
    const plan = reader.read(text, context);
    const ways = plan && plan.unknown.length === 0 ? reworked(row, plan, on) : noWays;
    if (!on) kept.set(text, ways);
    return ways;
  };
}

/** Its text is what was worked, once: no repeated row, no range. */
export function isWorkedOnce({ found, line, times }: WorkedRow): boolean {
  const own = found?.plan.instructions.at(-1) === line.plan?.instructions.at(-1);
  return own && times?.every((n) => n === 1) === true;
}

/** It fits, agrees with its count, and nothing of it is in doubt. */
export function isRight({ fits, counts, counted, outOfReach }: Outcome): boolean {
  return fits && counts && outOfReach === null && counted.every((one) => !one?.unknownNoun && !one?.doubt);
}

function reworked({ found, line }: WorkedRow, plan: RowPlan, on: State | undefined): Ways {
  if (!found) return noWays;
  const below = on ?? found.state;
  const state = onlyIts(line.sizes, plan.foundation ? alongChain(plan, below.length) : below);
  return new WaysToWork(carriedOver(plan, found.plan, line.plan), state, found.setting);
}

function onlyIts(sizes: readonly number[] | null, state: State): State {
  return sizes === null ? state : state.map((below, size) => (sizes.includes(size) ? below : null));
}

function alongChain({ foundation }: RowPlan, sizes: number): State {
  return [...Array(sizes).keys()].map((size) => ({
    strip: [],
    chain: forSize(foundation ?? [], size) ?? 0,
    ring: false,
    marked: null,
  }));
}

/** The chain that the row before ended with opens the changed row too. */
function carriedOver(plan: RowPlan, worked: RowPlan, written: RowPlan | null): RowPlan {
  const [start] = worked.instructions;
  const choice = worked.choices.at(-1);
  if (start?.op !== "start" || !choice || start === written?.instructions[0]) return plan;
  return {
    ...plan,
    choices: [...plan.choices, choice],
    instructions: [{ ...start, choice: plan.choices.length }, ...plan.instructions],
  };
}
