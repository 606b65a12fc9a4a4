import type { Instruction } from "../../fabric/instructions";
import type { WorkedRow } from "../../fabric/worked";
import type { Span } from "../../text/span";
import { innerOf, instructionsOf } from "../row-instructions";

/** The innermost instruction of a row's own words that an offset of its text lies in: of equal ones, the one inside. */
export function instructionAt({ line }: WorkedRow, offset: number): Instruction | null {
  if (!line.plan) return null;
  const { instructions } = line.plan;
  const around = [...instructionsOf({ instructions, carried: [] })]
    .filter(([span]) => span.start <= offset && offset < span.end)
    .reverse()
    .sort(([a], [b]) => a.end - a.start - (b.end - b.start));
  return around[0]?.[1] ?? null;
}

/** The spans of an instruction and of all inside it. */
export function spansIn(instruction: Instruction): ReadonlySet<Span> {
  const spans = new Set([instruction.span]);
  for (const inner of innerOf(instruction))
    for (const one of inner) for (const span of spansIn(one)) spans.add(span);
  return spans;
}
