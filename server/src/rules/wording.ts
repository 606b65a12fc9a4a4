import type { WorkedRow } from "../fabric/worked";
import { everyPlace } from "../fabric/strip";

/** Numbers of all sizes in a maker's words: `48`, or `40, 44 and 48` for several sizes. */
export function numbers(list: readonly (number | null)[]): string {
  const shown = [...new Set(list.filter((n) => n !== null))].map(String);
  if (shown.length <= 1) return shown[0] ?? "no";
  return `${shown.slice(0, -1).join(", ")} and ${shown.at(-1)}`;
}

/** The name of a row in a sentence. */
export function rowName(row: WorkedRow): string {
  return row.line.headText;
}

/** `stitches`, `chains` or `places`: what the row below leaves. */
export function placesName(row: WorkedRow, n: number): string {
  const chain = row.below?.kind === "foundation" || row.line.plan?.foundation != null;
  const noun = chain ? "chain" : "stitch";
  return n === 1 ? noun : chain ? "chains" : "stitches";
}

void everyPlace;
