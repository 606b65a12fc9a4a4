import { type Part, partsOf } from "../fabric/parts";
import type { WorkedPiece } from "../fabric/worked";
import type { PatternLine } from "../notation/lines";
import type { Span } from "../text/span";
import type { WorkedPattern } from "./rule";

export type WorkedPart = Part<WorkedPiece>;

const kept = new WeakMap<WorkedPattern, readonly WorkedPart[]>();

/** The parts of a pattern, read once for all rules that ask. */
export function outlineOf(pattern: WorkedPattern): readonly WorkedPart[] {
  const known = kept.get(pattern);
  if (known) return known;
  const parts = partsOf(pattern);
  kept.set(pattern, parts);
  return parts;
}

/** The lines of a part that lie wholly between two of its rows. */
export function linesBetween(part: WorkedPart, before: Span, after: Span): readonly PatternLine[] {
  return part.lines.filter((line) => line.start >= before.end && line.end <= after.start);
}
