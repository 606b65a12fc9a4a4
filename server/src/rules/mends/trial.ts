import type { PatternContext } from "../../fabric/context";
import { work } from "../../fabric/cursor";
import { forSize, type RowPlan } from "../../fabric/instructions";
import { type Outcome, outcomesOf, type State } from "../../fabric/outcome";
import { RowReader } from "../../fabric/row-reader";
import type { WorkedRow } from "../../fabric/worked";
import { readWords, type Word } from "../../notation/words";
import type { Terms } from "../../trade/stitch";

/** A wrong row that can be changed, read again and worked again on the same places. */
export interface Trial {
  readonly row: WorkedRow;
  readonly text: string;
  readonly words: readonly Word[];
  /** The row as it stands, in the reading it is reported in. */
  readonly asWritten: Outcome;
  readonly terms: Terms;
  /** The first size that is wrong. */
  readonly size: number;
  /** The changed text in the same reading; undefined where it no longer has that reading. */
  rework(text: string): Outcome | undefined;
  /** Whether the changed text fits and agrees with its count, in some reading. */
  isRight(text: string): boolean;
  /** Whether the row is right as it stands on other places. */
  isRightOn(state: State): boolean;
}

/** Characters; mending a longer row would cost more than it helps. */
const longestMended = 600;

/** Places looked at while mends of one row are tried. */
const placesAtMost = 20_000;

/** Null for rows whose text is not what was worked: repeated rows, ranges, rows without numbers. */
export function trialOf(row: WorkedRow, context: PatternContext): Trial | null {
  const { found, outcome, line } = row;
  if (!found || !outcome || !isWorkedOnce(row) || line.text.length > longestMended) return null;
  const outcomes = reworking(row, context);
  const before = outcomes(line.text);
  const asWritten = before.find((one) => sameNumbers(one, outcome));
  if (!asWritten) return null;
  return {
    row,
    text: line.text,
    words: readWords(line.text, context.lexicon),
    terms: context.terms,
    asWritten,
    size: firstWrong(asWritten),
    // Readings are told apart by what they assume: a row that is right is tried in fewer of them.
    rework: (text) => outcomes(text).find((one) => sameReading(one, asWritten)),
    isRight: (text) => outcomes(text).some(isRight),
    isRightOn: (state) => outcomesOf(found.plan, state, found.setting).some(isRight),
  };
}

/** Whether a text in the place of a row's would fit and agree with its count. */
export function tryOut(row: WorkedRow, context: PatternContext): (text: string) => boolean {
  const outcomes = row.line.text.length > longestMended ? () => [] : reworking(row, context);
  return (text) => outcomes(text).some(isRight);
}

/** Every usual way to work a changed text on the places that the row found. */
function reworking(row: WorkedRow, context: PatternContext): (text: string) => readonly Outcome[] {
  const reader = new RowReader();
  const kept = new Map<string, readonly Outcome[]>();
  const startedAt = work.placesVisited;
  return (text) => {
    const known = kept.get(text);
    if (known) return known;
    // A row that is long to work is not tried over and over: no mend is better than a wait.
    if (work.placesVisited - startedAt > placesAtMost) return [];
    const plan = reader.read(text, context);
    const all = plan && plan.unknown.length === 0 ? reworked(row, plan) : [];
    kept.set(text, all);
    return all;
  };
}

function isWorkedOnce({ found, line, times }: WorkedRow): boolean {
  const own = found?.plan.instructions.at(-1) === line.plan?.instructions.at(-1);
  return own && times?.every((n) => n === 1) === true;
}

function reworked({ found, line }: WorkedRow, plan: RowPlan): Outcome[] {
  if (!found) return [];
  const state = onlyIts(line.sizes, plan.foundation ? alongChain(plan, found.state.length) : found.state);
  return outcomesOf(carriedOver(plan, found.plan, line.plan), state, found.setting);
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

function sameNumbers(a: Outcome, b: Outcome): boolean {
  return a.cost === b.cost && `${a.needs}/${a.has}/${a.makes}` === `${b.needs}/${b.has}/${b.makes}`;
}

function sameReading(a: Outcome, b: Outcome): boolean {
  return a.cost === b.cost && a.assumptions.join() === b.assumptions.join();
}

function isRight({ fits, counts, counted, outOfReach }: Outcome): boolean {
  return fits && counts && outOfReach === null && counted.every((one) => !one?.unknownNoun && !one?.doubt);
}

function firstWrong({ needs, has, counted }: Outcome): number {
  const unfit = needs.findIndex((n, size) => n !== has[size]);
  const miscounted = counted.findIndex((one) => one !== null && !one.matches);
  return Math.max(unfit >= 0 ? unfit : miscounted, 0);
}
