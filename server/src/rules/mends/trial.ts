import type { PatternContext } from "../../fabric/context";
import { type Outcome, type State, stateKey, WaysToWork } from "../../fabric/outcome";
import { isRight, isWorkedOnce, reworking } from "../../fabric/rework";
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

/** Null for rows whose text is not what was worked: rows that repeat others, rows without numbers. */
export function trialOf(row: WorkedRow, context: PatternContext): Trial | null {
  const { found, outcome, line } = row;
  if (!found || !outcome || !isOwnText(row) || line.text.length > longestMended) return null;
  const ways = reworking(row, context);
  const asWritten = ways(line.text).find((one) => sameNumbers(one, outcome));
  if (!asWritten) return null;
  return {
    row,
    text: line.text,
    words: readWords(line.text, context.lexicon),
    terms: context.terms,
    asWritten,
    size: firstWrong(asWritten),
    // Readings are told apart by what they assume.
    rework: (text) => ways(text).readAs(asWritten),
    // A slip is mended in the reading that shows it: one further from usual would only explain it away.
    isRight: (text) =>
      ways(text).find((one) => isRight(one) && staysRight(one, row), asWritten.cost) !== undefined,
    isRightOn: (state) =>
      isWorkedOnce(row) && new WaysToWork(found.plan, state, found.setting).find(isRight) !== undefined,
  };
}

/** Whether what the line says is what was worked, a known number of times: not so where it stands for other rows. */
function isOwnText({ found, line, times }: WorkedRow): boolean {
  return found?.plan.instructions.at(-1) === line.plan?.instructions.at(-1) && times !== null;
}

/** A row that is worked again must hand on what it found, or it would be another row the next time. */
function staysRight({ leaves }: Outcome, row: WorkedRow): boolean {
  return isWorkedOnce(row) || (row.found !== null && stateKey(leaves.state) === stateKey(row.found.state));
}

/** Whether a text in the place of a row's would fit and agree with its count. */
export function tryOut(row: WorkedRow, context: PatternContext): (text: string) => boolean {
  if (row.line.text.length > longestMended) return () => false;
  const ways = reworking(row, context);
  return (text) => ways(text).find(isRight) !== undefined;
}

function sameNumbers(a: Outcome, b: Outcome): boolean {
  return a.cost === b.cost && `${a.needs}/${a.has}/${a.makes}` === `${b.needs}/${b.has}/${b.makes}`;
}

function firstWrong({ needs, has, counted }: Outcome): number {
  const unfit = needs.findIndex((n, size) => n !== has[size]);
  const miscounted = counted.findIndex((one) => one !== null && !one.matches);
  return Math.max(unfit >= 0 ? unfit : miscounted, 0);
}
