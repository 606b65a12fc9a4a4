import type { RowPlan } from "../fabric/instructions";
import { stateKey } from "../fabric/outcome";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { shift } from "../text/span";
import { firstChain } from "./mends/first-chain";
import { incOrDec } from "./mends/inc-or-dec";
import { leaveRest } from "./mends/leave-rest";
import type { Mend } from "./mends/mend";
import { nearbyNumber } from "./mends/nearby-number";
import { spaceLength } from "./mends/space-length";
import { startingChain } from "./mends/starting-chain";
import { statedCount } from "./mends/stated-count";
import { together } from "./mends/together";
import { type Trial, trialOf } from "./mends/trial";
import type { Fix } from "./rule";

export type { Mend } from "./mends/mend";

/** What may have been meant by a wrong row; each way is proved. */
export interface Mends {
  /** Changes of the instructions, the likeliest first. */
  readonly instructions: readonly Mend[];
  /** The count itself. */
  readonly count: Mend | null;
}

const none: Mends = { instructions: [], count: null };
const mendsAtMost = 3;

/** Kept with the plan of the row, so that an edit elsewhere costs nothing here. */
const kept = new WeakMap<RowPlan, Map<string, Mends>>();

/** A mend as a finding offers it. */
export function fixOf(mend: Mend, { line, below }: WorkedRow): Fix {
  const starts = { row: line.start, below: below?.start ?? line.start };
  const edits = () =>
    mend.edits.map(({ line: which, span, newText }) => ({ span: shift(span, starts[which]), newText }));
  return { title: mend.title, kind: mend.kind, edits };
}

/** The proved ways to mend a wrong row; none for a row that is not wrong. */
export function mendsOf(row: WorkedRow, piece: WorkedPiece): Mends {
  const { found, line, below } = row;
  if (!found || !line.plan) return none;
  const ofPlan = kept.get(line.plan) ?? new Map<string, Mends>();
  kept.set(line.plan, ofPlan);
  const key = JSON.stringify([
    stateKey(found.state),
    found.setting,
    below?.text,
    line.sizes,
    found.plan.instructions[0],
  ]);
  const known = ofPlan.get(key);
  if (known) return known;
  const trial = trialOf(row, piece.context);
  const mends = trial ? proved(trial) : none;
  ofPlan.set(key, mends);
  return mends;
}

/** What to ask about the likeliest ways; two ways that fit alike are named together. */
export function questionFor([first, second]: readonly Mend[]): string | null {
  if (!first) return null;
  if (!second) return first.question;
  return first.exchange === second.exchange
    ? say`It fits with ${first.exchange}, in one place or in another.`
    : say`It fits with ${first.exchange}, or with ${second.exchange}.`;
}

function proved(trial: Trial): Mends {
  const inRow = [nearbyNumber, together, incOrDec, firstChain, startingChain].flatMap((mend) => mend(trial));
  const instructions = (inRow.length > 0 ? inRow : leaveRest(trial)).slice(0, mendsAtMost);
  return { instructions, count: statedCount(trial)[0] ?? spaceLength(trial)[0] ?? null };
}
