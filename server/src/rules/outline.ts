import { inParts, type WorkedPart } from "../fabric/parts";
import type { WorkedPattern } from "../fabric/worked";
import type { LineContent } from "../notation/document";
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

/** What a line of prose says, with the part it stands in. */
export interface SaidInPart<T> {
  readonly said: T;
  readonly line: PatternLine;
  readonly part: WorkedPart;
}

/** All that the prose of a pattern says of something; a line is looked through once, whatever is edited elsewhere. */
export function inProse<T>(
  read: (line: LineContent) => readonly T[],
): (pattern: WorkedPattern) => SaidInPart<T>[] {
  const said = inParts(({ lines }) =>
    lines.flatMap(({ kind, content }, at) =>
      kind === "prose" ? read(content).map((one) => ({ at, said: one })) : [],
    ),
  );
  return (pattern) =>
    said(pattern).map(({ found, part }) => ({
      said: found.said,
      line: part.lineAt(found.at) as PatternLine,
      part,
    }));
}
