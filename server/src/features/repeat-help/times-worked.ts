import type { Instruction } from "../../fabric/instructions";
import type { Outcome } from "../../fabric/outcome";
import type { WorkedRow } from "../../fabric/worked";
import { belowName, placesNoun } from "../../rules/wording";
import { spansIn } from "../hover/instruction-at";
import { passesOfRepeat } from "../hover/repeat-passes";
import type { PlacedRow } from "../placed-row";
import { instructionsBehind, instructionsOf } from "../row-instructions";
import type { Block } from "../shown/blocks";
import { type Share, shareOf } from "../step-sums";
import { type Going, toldGoings } from "./told";

type Repeat = Extract<Instruction, { op: "repeat" }>;

/** How the repeat at a place of a worked row went; null where there is none that is worked more than once. */
export function timesWorked({ row, piece }: PlacedRow, at: number): Block[] | null {
  const { outcome, result } = row;
  const repeat = repeatAt(row, at);
  if (!outcome || !repeat || result === "unchecked") return null;
  const goings = outcome.steps.map((_, size) => goingOf(repeat, row, outcome, size));
  if (!goings.some((going) => going && going.times > 1)) return null;
  // No number says how often, as while a repeat is written: it is worked as often as it fits.
  const isTried = repeat.times.how === "lone" || repeat.times.how === "to-end";
  return toldGoings(goings, { below: belowName(row, piece), noun: placesNoun(row), isTried });
}

/** The innermost repeat of the row's own words around a place. */
function repeatAt({ line }: WorkedRow, at: number): Repeat | null {
  const all = [...instructionsOf({ instructions: line.plan?.instructions ?? [], carried: [] }).values()];
  const around = all.filter((one): one is Repeat => one.op === "repeat" && isIn(one, at));
  return around.sort((a, b) => a.span.end - a.span.start - (b.span.end - b.span.start))[0] ?? null;
}

function isIn({ span }: Instruction, at: number): boolean {
  return span.start < at && at <= span.end;
}

function goingOf(repeat: Repeat, row: WorkedRow, outcome: Outcome, size: number): Going | null {
  const steps = outcome.steps[size] ?? [];
  const telling = { instructions: instructionsBehind(row, row.line), noun: placesNoun(row), onRing: false };
  const passes = passesOfRepeat(repeat, steps, telling);
  if (!passes) return null;
  const { times, lastIsShort } = passes;
  const share = shareOf(steps, spansIn(repeat));
  const used = sum(upTo(repeat, row).map((one) => shareOf(steps, spansIn(one)))).uses;
  const each = lastIsShort ? null : { uses: share.uses / times, makes: share.makes / times };
  return { times, each, used, has: outcome.has[size] ?? null };
}

/** The instructions of a row up to the one that a repeat is, or lies in. */
function upTo(repeat: Repeat, row: WorkedRow): readonly Instruction[] {
  const all = row.line.plan?.instructions ?? [];
  return all.slice(0, all.findIndex((one) => spansIn(one).has(repeat.span)) + 1);
}

function sum(shares: readonly Share[]): Share {
  return shares.reduce((all, { uses, makes }) => ({ uses: all.uses + uses, makes: all.makes + makes }), {
    uses: 0,
    makes: 0,
  });
}
