import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { type Group, isEven, isStaggered } from "./even";
import type { Shaping, Spacing } from "./even-row";
import { spaced, spacingOf } from "./rewrite-row";
import type { Rewritten } from "./rewritten";
import { isRefusal, type RowTrial, trialOf } from "./row-trial";
import { type ShapedRow, shapedRow } from "./shaped-row";

/** Another way to spread the increases or decreases of a row; its count stays. */
export interface Respaced {
  readonly way: "evenly" | Spacing;
  readonly isIncrease: boolean;
  readonly rewritten: Rewritten;
}

/** Spread evenly where they are not; else moved on by half a group, or back. In flat rows half a group is as usual. */
export function respacings(row: WorkedRow, piece: WorkedPiece): Respaced[] {
  const trial = trialOf(row, piece);
  if (isRefusal(trial) || row.result !== "ok") return [];
  const { how } = trial.outcome;
  const own = how ? shapedRow(how.plan, trial.outcome, 0) : null;
  const shaping = own && shapingNow(own);
  if (!own || !shaping) return [];
  const way = wayFor(trial, own, shaping);
  if (way === null) return [];
  const rewritten = spaced(trial, own, shaping, way === "evenly" ? spacingOf(trial, own) : way);
  if (!rewritten || rewritten.edits.length === 0 || rewritten.makes !== trial.outcome.makes[0]) return [];
  return [{ way, isIncrease: shaping.unit.makes > 1, rewritten }];
}

function shapingNow({ groups, unit }: ShapedRow): Shaping | null {
  const sum = (of: (group: Group) => number): number => groups.reduce((all, group) => all + of(group), 0);
  const [units, plain] = [sum((one) => one.units), sum((one) => one.plain)];
  return unit && plain > 0 ? { units, plain, unit, filler: { uses: 1, makes: 1 } } : null;
}

function wayFor({ row }: RowTrial, { groups }: ShapedRow, { units, plain }: Shaping): Respaced["way"] | null {
  if (!isEven(groups)) return "evenly";
  if (row.found?.setting.flat || units < 2) return null;
  if (isStaggered(groups)) return "lined-up";
  return plain >= 2 * units ? "staggered" : null;
}
