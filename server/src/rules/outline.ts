import type { WorkedPart } from "../fabric/parts";
import type { PatternLine } from "../notation/lines";
import type { Span } from "../text/span";

/** The lines of a part or pattern that lie wholly between two of its rows. */
export function linesBetween(
  part: Pick<WorkedPart, "lines">,
  before: Span,
  after: Span,
): readonly PatternLine[] {
  return part.lines.filter((line) => line.start >= before.end && line.end <= after.start);
}
