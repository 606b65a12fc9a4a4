import { keptBy } from "../text/kept-by";
import { type Instruction, type RowPlan, type Take, takesIn } from "./instructions";
import { type Outcome, unknownNoun } from "./outcome";
import type { Candidate } from "./paths";
import type { Steps } from "./steps";

/** Only the places are out of reach, and how many stitches go there is told. */
export function isPlaceless({ outOfReach, unknown, instructions }: RowPlan, outcome: Outcome): boolean {
  if (outOfReach === null || outcome.outOfReach !== outOfReach || unknown.length > 0) return false;
  const told = takesIn(instructions).every((take) => take.how !== "unknown");
  return told && outcome.steps.some((steps) => steps.length > 0);
}

/** `22 sc evenly along each side (98 sc)`: wherever they go, they come to another number. */
export function isMiscounted(plan: RowPlan, outcome: Outcome): boolean {
  const isTold = plan.stated !== null && isLiteral(plan) && isPlaceless(plan, outcome);
  return isTold && !outcome.counts && unknownNoun(outcome) === null;
}

/** Whether a count that does not come out is wrong wherever the row goes: it tells of stitches alone, and of each kind once. */
export function tellsStitches(stated: RowPlan["stated"]): boolean {
  const nouns = stated?.map(({ noun }) => noun) ?? [];
  const areStitches = stated?.every(({ sort }) => sort === "stitch" || sort === "any") === true;
  return areStitches && new Set(nouns).size === nouns.length;
}

/** `22 sc evenly along each side (96 sc)`: wherever they go, they come to that number. */
export function isCounted(plan: RowPlan, outcome: Outcome): boolean {
  const fits = outcome.fits || takesIn(plan.instructions).some(({ how }) => how === "nowhere");
  return fits && isPlaceless(plan, outcome) && outcome.counts && unknownNoun(outcome) === null;
}

/** Whether a row whose places nobody knows says of everything how often it is worked. */
export const isLiteral = keptBy(({ instructions }: RowPlan): boolean => {
  const takes = takesIn(instructions.filter(({ op }) => op !== "skip"));
  const says = ({ how }: Take): boolean => how !== "each" && how !== "unknown" && how !== "from-hook";
  return takes.length > 0 && takes.every(says) && !runsOn(instructions);
});

function runsOn(list: readonly Instruction[]): boolean {
  return list.some((one) => one.op === "repeat" && (one.times.how !== "fixed" || runsOn(one.body)));
}

export function withoutPlaces({ path, outcome }: Candidate): Candidate {
  const unknown = outcome.needs.map(() => null);
  const steps = outcome.steps.map((own) => own.map(onNoPlaces));
  const worked = outcome.worked.map((row) => ({ ...row, steps }));
  const known = { needs: unknown, has: unknown, steps, worked, fits: true, outOfReach: null };
  return { path, outcome: { ...outcome, ...known } };
}

function onNoPlaces(step: Steps): Steps {
  return "steps" in step ? { ...step, shift: 0, steps: step.steps.map(onNoPlaces) } : { ...step, uses: 0 };
}
