import type { WorkedRow } from "../../fabric/worked";
import { say } from "../../text/say";
import { nextStep } from "../next-step";
import { rewriteOnToMake } from "../rewrite-row";
import { isRefusal, type Refusal } from "../row-trial";
import type { DraftRow } from "./draft";
import type { DraftParts } from "./resize";
import type { Rung, Silhouette } from "./silhouette";
import type { Workbench } from "./workbench";

/** Rows put in at most. */
const newRowsAtMost = 300;

/** Increase rows are put in or left out at the top of the ladder; the last one may add fewer than the others. */
export function climb(
  parts: DraftParts,
  bench: Workbench,
  shape: Silhouette,
  widest: number,
): DraftParts | Refusal {
  const { rungs, first, begin, rate } = shape;
  const stuck = rungs.slice(begin, first + 1).find(({ turn }) => turn === "lace" || turn === "fall");
  if (stuck) return { why: say`${stuck.row.line.headText} is no plain row of increases` };
  const last = rungs[first];
  if (last && last.turn === "rise" && last.rows > 1) return longer(parts, last, widest);
  const top = rungs.findLastIndex(
    ({ turn, makes, by }, i) =>
      i <= first && makes <= widest && (turn === "start" || (turn === "rise" && by === rate)),
  );
  if (top < begin) return { why: say`its first row has ${rungs[begin]?.makes ?? 0} stitches already` };
  if (rate === null || (widest - (rungs[top]?.makes ?? 0)) / rate > newRowsAtMost)
    return { why: say`more than ${newRowsAtMost} rows would have to be put in` };
  const idle = rungs.slice(top + 1, first).find(({ turn }) => turn === "even");
  if (idle && !isRegularRise(shape))
    return { why: say`${idle.row.line.headText} lies between its increases` };
  const kept = parts.up.map((one, i): DraftRow => (i > top ? { ...one, state: "gone" } : one));
  const climbing = { bench, shape, widest, model: modelOf(shape), anchor: parts.up[top]?.row as WorkedRow };
  const up = climbed(kept, rungs[top]?.makes ?? 0, climbing);
  return isRefusal(up) ? up : { ...parts, up };
}

/** A line for several rows that add as many each stands for more of them, or fewer. */
function longer(parts: DraftParts, { row, rows, makes, by }: Rung, widest: number): DraftParts | Refusal {
  const to = rows + (widest - makes) / by;
  if (to < 1) return { why: say`${row.line.headText} begins with more than ${widest} stitches` };
  if (!Number.isInteger(to))
    return { why: say`${row.line.headText} go by ${by} stitches a row: ${widest} is between two` };
  return { ...parts, up: parts.up.map((one) => (one.row === row ? { ...one, rows: to } : one)) };
}

/** Whether as many plain rows lie between all increase rows. */
function isRegularRise({ rungs, begin, first }: Silhouette): boolean {
  const rises = rungs.flatMap(({ turn }, i) => (turn === "rise" && i > begin && i <= first ? [i] : []));
  const gaps = rises.slice(1).map((at, i) => at - (rises[i] ?? 0));
  return gaps.every((gap) => gap === gaps[0]);
}

function modelOf({ rungs, first, rate }: Silhouette): WorkedRow | null {
  return rungs.findLast(({ turn, by }, i) => i <= first && turn === "rise" && by === rate)?.row ?? null;
}

interface Climbing {
  readonly bench: Workbench;
  readonly shape: Silhouette;
  /** The count that is climbed to. */
  readonly widest: number;
  /** The increase row that others are written like, where nothing shows how they go on. */
  readonly model: WorkedRow | null;
  /** The last row that stays: the new ones stand behind it. */
  readonly anchor: WorkedRow;
}

function climbed(kept: readonly DraftRow[], from: number, climbing: Climbing): DraftRow[] | Refusal {
  const up = [...kept];
  for (let now = from; now < climbing.widest; ) {
    if (up.length - kept.length >= 2 * newRowsAtMost) return { why: say`its increases do not go on evenly` };
    const step = stepUp(up, now, climbing);
    if (isRefusal(step)) return step;
    up.push({ row: climbing.anchor, state: "new-behind", body: step.text, rows: 1 });
    now = step.makes;
  }
  return up;
}

interface StepUp {
  readonly text: string;
  readonly makes: number;
}

/** As the rows go on by themselves; where that would go past the width, one that adds what is missing. */
function stepUp(up: readonly DraftRow[], now: number, climbing: Climbing): StepUp | Refusal {
  const { bench, shape, widest, model } = climbing;
  const worked = bench.worked(up);
  const rows = worked?.rows ?? [];
  if (rows.length !== up.filter(({ state }) => state !== "gone").length)
    return { why: say`a new row would not be told apart from the others` };
  const like = worked && nextStep(rows, worked);
  const makes = like?.makes[0] ?? 0;
  if (like && makes >= now && makes <= widest && !isIdle(rows, makes)) return { text: like.text, makes };
  const on = rows.at(-1)?.outcome?.leaves.state;
  const to = Math.min(now + (shape.rate ?? 1), widest);
  const found = model && on ? rewriteOnToMake(model, bench.piece, on, to) : null;
  return found && !isRefusal(found)
    ? found
    : { why: say`no row of increases like the others comes to ${to}` };
}

/** Plain rows that would go on for ever. */
function isIdle(rows: readonly WorkedRow[], makes: number): boolean {
  return rows.slice(-3).every(({ outcome }) => outcome?.makes[0] === makes);
}
