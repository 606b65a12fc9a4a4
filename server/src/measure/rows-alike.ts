import type { RowsAlike } from "../fabric/outcome";
import type { Steps } from "../fabric/steps";

/** Adds up what each row of a line comes to; rows that change evenly are added by arithmetic. */
export function sumOverRows(
  rows: readonly RowsAlike[],
  size: number,
  ofRow: (steps: readonly Steps[], row: RowsAlike) => number,
): number {
  return rows.reduce((sum, row) => {
    const n = ofRow(row.steps[size] ?? [], row);
    const change = row.before === null ? 0 : n - ofRow(row.before[size] ?? [], row);
    return sum + row.times * n + (change * row.times * (row.times + 1)) / 2;
  }, 0);
}
