import type { RowPlan } from "./instructions";

/** The work is turned before the row is worked. */
export function turnsFirst(plan: RowPlan): boolean {
  const turn = plan.instructions.findIndex((one) => one.op === "turn");
  const working = plan.instructions.findIndex((one) =>
    ["work", "group", "repeat", "either"].includes(one.op),
  );
  return turn >= 0 && (working < 0 || turn < working);
}

/** The work is turned when the row is done. */
export function turnsLast(plan: RowPlan): boolean {
  return plan.turns && !turnsFirst(plan);
}
