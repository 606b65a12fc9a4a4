import { type Length, readLengths } from "./lengths";
import type { FrontLine } from "./sections";
import type { Stretch } from "./stretch";

/** One line of finished or body measurements. */
export interface Measurement {
  /** `Finished size`, `To fit head`; null for a line below a title that stands alone. */
  readonly title: Stretch | null;
  readonly content: Stretch;
  readonly lengths: readonly Length[];
}

export function readMeasurements(lines: readonly FrontLine[]): Measurement[] {
  return lines
    .filter(({ topic }) => topic === "measurements" || topic === "sizes")
    .map(({ title, content }) => ({
      title,
      content,
      lengths: readLengths(content).filter(({ unit }) => unit !== "mm"),
    }))
    .filter(({ lengths }) => lengths.length > 0);
}
