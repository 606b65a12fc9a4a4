import { forSize, type Instruction } from "../fabric/instructions";
import type { WorkedRow } from "../fabric/worked";

/** A small change that would make a row fit. */
export interface Mend {
  readonly title: string;
  readonly question: string;
}

/** Which nearby number of times, count or stitch would make the row fit. */
export function nearestMends(row: WorkedRow): Mend[] {
  const outcome = row.outcome;
  if (!outcome || outcome.needs.length !== 1) return [];
  const [needs, has, makes] = [outcome.needs[0], outcome.has[0], outcome.makes[0]];
  if (needs == null || has == null || makes == null) return [];
  const plan = row.line.plan;
  const repeats = (plan?.instructions ?? []).filter((one): one is Extract<Instruction, { op: "repeat" }> => one.op === "repeat" && (one.times.how === "fixed" || one.times.how === "doubtful"));
  if (repeats.length !== 1) return [];
  const [repeat] = repeats as [Extract<Instruction, { op: "repeat" }>];
  const times = repeat.times.how === "fixed" || repeat.times.how === "doubtful" ? (forSize(repeat.times.n, 0) ?? 0) : 0;
  const outside = (plan?.instructions.length ?? 0) > 1 ? null : 0;
  if (outside !== 0 || times === 0 || needs % times !== 0) return [];
  const perPass = needs / times;
  const passes = has / perPass;
  if (Number.isInteger(passes) && passes > 0) return [{ title: `Change to x${passes}`, question: `Did you mean x${passes}?` }];
  return [];
}
