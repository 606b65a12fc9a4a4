import type { FrontLine } from "./sections";
import type { Stretch } from "./stretch";

/** What a pattern says of its gauge, line by line, as it is written. */
export function readGauge(lines: readonly FrontLine[]): Stretch[] {
  return lines
    .filter(({ topic, content }) => topic === "gauge" && content.text !== "")
    .map(({ content }) => content);
}
