import { countStitches, isStepLoop, type Step, type StepLoop, type Steps } from "../fabric/steps";
import type { Span } from "../text/span";

/** The span of the instruction that a step was made by; of a loop, that of its first step. */
export function spanOf(step: Steps): Span {
  return isStepLoop(step) ? spanOf(step.steps[0] as Steps) : step.span;
}

/** Places of the row below that steps newly use. */
export function usesOf(steps: readonly Steps[]): number {
  return shareOf(steps, null).uses;
}

/** The places and stitches of a row that some of its words account for. */
export interface Share {
  readonly uses: number;
  readonly makes: number;
}

/** What the steps of some instructions use and make, all their repeats together; null for all instructions. */
export function shareOf(steps: readonly Steps[], spans: ReadonlySet<Span> | null): Share {
  const sum = { uses: 0, makes: 0 };
  for (const step of steps) {
    const { uses, makes } = isStepLoop(step) ? loopShare(step, spans) : stepShare(step, spans);
    sum.uses += uses;
    sum.makes += makes;
  }
  return sum;
}

function stepShare(step: Step, spans: ReadonlySet<Span> | null): Share {
  if (spans && !spans.has(step.span)) return { uses: 0, makes: 0 };
  // What makes nothing has one place each, however many stitches it speaks of.
  if (step.sort === "none") return { uses: step.n * step.uses, makes: 0 };
  return { uses: (step.n / step.perPlace) * step.uses, makes: step.sort === "stitch" ? step.n : 0 };
}

function loopShare(loop: StepLoop, spans: ReadonlySet<Span> | null): Share {
  const { uses, makes } =
    spans && isNamedGroup(loop) && spans.has(spanOf(loop))
      ? { uses: shareOf(loop.steps, null).uses, makes: countStitches(loop.steps) }
      : shareOf(loop.steps, spans);
  return { uses: uses * loop.times, makes: makes * loop.times };
}

/** The stitches of a group that the pattern defines come from the definition, not from the row's own words. */
function isNamedGroup({ group, steps: [first] }: StepLoop): boolean {
  return first !== undefined && !isStepLoop(first) && first.sort === "none" && first.kind === group;
}
