import type { Instruction } from "../../fabric/instructions";
import { countStitches, isStepLoop, type Step, type StepLoop, type Steps } from "../../fabric/steps";
import type { WorkedRow } from "../../fabric/worked";
import type { Span } from "../../text/span";
import { isGroup } from "../proof/done";
import { innerOf, instructionsOf } from "../row-instructions";

/** The places and stitches of a row that some of its words account for. */
export interface Share {
  readonly uses: number;
  readonly makes: number;
}

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

/** What the steps of some instructions use and make, all their repeats together. */
export function shareOf(steps: readonly Steps[], spans: ReadonlySet<Span>): Share {
  const sum = { uses: 0, makes: 0 };
  for (const step of steps) {
    const { uses, makes } = isStepLoop(step) ? loopShare(step, spans) : stepShare(step, spans);
    sum.uses += uses;
    sum.makes += makes;
  }
  return sum;
}

function stepShare(step: Step, spans: ReadonlySet<Span>): Share {
  if (!spans.has(step.span)) return { uses: 0, makes: 0 };
  return { uses: (step.n / step.perPlace) * step.uses, makes: step.sort === "stitch" ? step.n : 0 };
}

/** A group is all its instruction's, also where its stitches come from a definition. */
function loopShare(loop: StepLoop, spans: ReadonlySet<Span>): Share {
  const whole = isGroup(loop) && spans.has(spanOf(loop));
  const { uses, makes } = whole
    ? { uses: (loop.steps[0] as Step).uses, makes: countStitches(loop.steps) }
    : shareOf(loop.steps, spans);
  return { uses: uses * loop.times, makes: makes * loop.times };
}

/** The span of the instruction that a step, or a group of steps, was made by; of a loop, that of its first. */
export function spanOf(step: Steps): Span {
  return isStepLoop(step) ? spanOf(step.steps[0] as Steps) : step.span;
}
