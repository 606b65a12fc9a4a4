import { type Part, partsOf } from "../fabric/parts";
import type { WorkedPiece } from "../fabric/worked";
import type { PatternLine } from "../notation/lines";
import { keptBy } from "../text/kept-by";
import type { Span } from "../text/span";
import type { WorkedPattern } from "./rule";

export type WorkedPart = Part<WorkedPiece>;

/** The parts of a pattern, read once for all rules that ask. */
export const outlineOf = keptBy((pattern: WorkedPattern): readonly WorkedPart[] => partsOf(pattern));

/** The lines of a part that lie wholly between two of its rows. */
export function linesBetween(part: WorkedPart, before: Span, after: Span): readonly PatternLine[] {
  return part.lines.filter((line) => line.start >= before.end && line.end <= after.start);
}
