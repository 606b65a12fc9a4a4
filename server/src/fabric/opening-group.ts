import { shapeOf } from "./groups";
import { isStepLoop, type StepLoop, type Steps, stripOf } from "./steps";

/**
 * `ch 3, (dc, ch 2, 2 dc) in same sp` opens a round of shells with one more of them: the group that an
 * opening chain begins takes the name of those that look like it.
 */
export function nameOpening(steps: readonly Steps[], opening: StepLoop): readonly Steps[] {
  const shape = shapeOf(stripOf(opening.steps));
  const name = namedGroups(steps).find((group) => shapeOf(stripOf(group.steps)) === shape)?.group;
  if (!name) return steps;
  const body = opening.steps.map((step) => called(name, step));
  return steps.map((step) => (step === opening ? { ...opening, steps: body, group: name } : step));
}

function called(name: string, step: Steps): Steps {
  if (isStepLoop(step)) return { ...step, steps: step.steps.map((inner) => called(name, inner)) };
  return step.begins === "group" ? { ...step, kind: name, begins: name } : { ...step, unit: name };
}

function namedGroups(steps: readonly Steps[]): StepLoop[] {
  return steps.flatMap((step) => {
    if (!isStepLoop(step)) return [];
    return step.group ? [step] : namedGroups(step.steps);
  });
}
