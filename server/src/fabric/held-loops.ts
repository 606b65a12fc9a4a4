import { isStepLoop, type Step, type Steps } from "./steps";

/** What may hang on a loop without parting it: a picot, a slip stitch that holds another motif, places passed over. */
const hanging = new Set(["picot", "tie", "skip"]);

/**
 * `ch 3, picot, ch 3` is one loop: chains with nothing between them but what hangs on them are drawn
 * together.
 */
export function heldTogether(steps: readonly Steps[]): readonly Steps[] {
  if (!steps.some(hangsIn)) return steps;
  const out: Steps[] = [];
  let open = -1;
  for (const step of steps) {
    if (isStepLoop(step)) {
      out.push({ ...step, steps: heldTogether(step.steps) });
      open = -1;
    } else if (step.sort !== "space") {
      out.push(step);
      if (!hangs(step)) open = -1;
    } else if (open >= 0) out[open] = joined(out[open] as Step, step);
    else open = out.push(step) - 1;
  }
  return out;
}

function joined(one: Step, other: Step): Step {
  return {
    ...one,
    chains: (one.chains ?? 1) + (other.chains ?? 1),
    halves: (one.halves ?? 1) + (other.halves ?? 1),
  };
}

function hangs(step: Step): boolean {
  return step.sort === "none" && hanging.has(step.kind);
}

function hangsIn(step: Steps): boolean {
  return isStepLoop(step) ? step.steps.some(hangsIn) : hangs(step) && step.kind !== "skip";
}
