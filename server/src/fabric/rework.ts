import { keptBy } from "../text/kept-by";
import type { PatternContext } from "./context";
import { work } from "./cursor";
import { forSize, type RowPlan } from "./instructions";
import { type Outcome, type State, type Ways, WaysToWork } from "./outcome";
import { readerIn } from "./row-reader";
import type { WorkedRow } from "./worked";

/** Places looked at while changes of one row are tried. */
const placesAtMost = 20_000;

/** The ways to work a changed text of a row on the places that it found, or on others. */
export type Reworking = (text: string, on?: State) => Ways;

const noWays: Ways = { all: () => [], readAs: () => undefined, find: () => undefined };

/** By the places that a text was tried on, then by the text: one count asks what the one before has asked. */
const tried = keptBy((_: WorkedRow) => new WeakMap<State, Map<string, Ways>>());

/** Texts on the same places. */
const textsKept = 1_000;

/** Tries changes of one row; `placesTried`: how many places may be looked at before no more is tried. */
export function reworking(
  row: WorkedRow,
  context: PatternContext,
  placesTried: number = placesAtMost,
): Reworking {
  const { found } = row;
  if (!found) return () => noWays;
  const reader = readerIn(context);
  const startedAt = work.placesVisited;
  return (text, on = found.state) => {
    const kept = textsTried(row, on);
    const known = kept.get(text);
    if (known) return known;
    // A row that is long to work is not tried over and over: no change is better than a wait.
    if (work.placesVisited - startedAt > placesTried) return noWays;
    const plan = reader.read(text, row.line.sizes);
    const ways = plan && plan.unknown.length === 0 ? reworked(row, plan, on) : noWays;
    kept.set(text, ways);
    return ways;
  };
}

function textsTried(row: WorkedRow, on: State): Map<string, Ways> {
  const ofRow = tried(row);
  const known = ofRow.get(on);
  if (known && known.size < textsKept) return known;
  const texts = new Map<string, Ways>();
  ofRow.set(on, texts);
  return texts;
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

function reworked({ found, line }: WorkedRow, plan: RowPlan, below: State): Ways {
  if (!found) return noWays;
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
