import type { Instruction } from "../../fabric/instructions";
import { countStitches, isStepLoop, type Step, type StepLoop, type Steps } from "../../fabric/steps";
import type { Noun } from "../../rules/wording";
import { say } from "../../text/say";
import type { InstructionBySpan } from "../row-instructions";
import { spanOf, usesOf } from "../step-sums";
import { intoPlaces, manyPlaces, type PlaceName, placeOf, takesOf } from "./place-names";

/** The same thing done on so many places, one after the other. */
export interface Done {
  /** Equal for what is done alike. */
  readonly key: string;
  readonly places: number;
  /** Places of the row below newly used, and stitches made, each time. */
  readonly uses: number;
  readonly makes: number;
  /** In a maker's words, for so many places. */
  readonly words: (places: number) => string;
}

/** What tells how a step is worded: its instruction, and what the row is worked into. */
export interface Telling {
  readonly instructions: InstructionBySpan;
  readonly noun: Noun;
  /** The row stands on a ring, or on nothing. */
  readonly onRing: boolean;
}

/** What one step of a row does. */
export function doneBy(step: Step, telling: Telling): Done {
  const { uses } = step;
  const makes = step.sort === "stitch" ? step.perPlace : 0;
  const words = wordsFor(step, telling);
  return { key: `${words(1)}/${uses}/${makes}`, places: step.n / step.perPlace, uses, makes, words };
}

function wordsFor(step: Step, telling: Telling): Done["words"] {
  const instruction = telling.instructions.get(step.span);
  if (step.sort === "space") return several(`ch ${step.chains ?? 1}`);
  if (step.sort === "none") return unmade(step);
  if (isOpening(step, instruction)) return several(say`the opening chain counts as 1 ${step.kind}`);
  if (step.uses === 0) return freely(step, onNothing(instruction, telling));
  return worked(step, placeOf(instruction, telling.noun));
}

/** `36 fsc`, `6 sc in the ring`, `dc in the same place`. */
function freely(step: Step, where: string): Done["words"] {
  const { kind, perPlace } = step;
  return (places) => `${places * perPlace === 1 ? "" : `${places * perPlace} `}${kind}${where}`;
}

/** Skips, joins and picots: they make no stitch. */
function unmade({ kind, uses }: Step): Done["words"] {
  if (kind === "skip") return uses === 0 ? several(say`skip`) : () => say`skip`;
  if (uses === 0) return several(kind);
  return (places) => (places === 1 ? kind : say`${kind} in each`);
}

function several(text: string): Done["words"] {
  return (places) => (places === 1 ? text : say`${text}, ${places} times`);
}

/** `sc in each`, `2 sc in one st`, `sc over 2 sts together`. */
function worked(step: Step, place: PlaceName): Done["words"] {
  const { kind, uses, perPlace } = step;
  if (uses > 1)
    return several(
      /\d+tog$/.test(kind) ? kind : say`${severalOf(step)} over ${uses} ${manyPlaces(place)} together`,
    );
  if (perPlace > 1) return (places) => `${severalOf(step)} ${intoPlaces(place, places)}`;
  return (places) => (places === 1 && place === "st" ? kind : `${kind} ${intoPlaces(place, places)}`);
}

function severalOf({ kind, perPlace }: Step): string {
  return perPlace > 1 ? `${perPlace} ${kind}` : kind;
}

/** An opening chain, or the chains skipped at the start of a starting chain, that count as a stitch. */
function isOpening({ uses }: Step, instruction: Instruction | undefined): boolean {
  if (instruction?.op === "start" || instruction?.op === "chain") return true;
  return uses === 0 && takesOf(instruction).some((take) => take.how === "from-hook");
}

/** Where stitches are worked that use no place of their own. */
function onNothing(instruction: Instruction | undefined, { onRing }: Telling): string {
  if (takesOf(instruction).some((take) => take.how === "same")) return say` in the same place`;
  return onRing && instruction?.op === "work" && instruction.stitch.uses > 0 ? say` in the ring` : "";
}

/** Whether a loop of steps is a group worked into one place, `times` of them. */
export function isGroup({ group }: StepLoop): boolean {
  return group !== undefined;
}

/** `(2 dc, ch 2, 2 dc) in one sp`, with its name where it has one. */
export function groupDone(loop: StepLoop, telling: Telling): Done {
  const parts = partsOf(loop.steps, telling);
  const all = `${loop.group ? `${loop.group}: ` : ""}${parts.length > 1 ? `(${parts.join(", ")})` : parts[0]}`;
  const [uses, makes] = [usesOf(loop.steps), countStitches(loop.steps)];
  const place = placeOf(telling.instructions.get(spanOf(loop)), telling.noun);
  const same = telling.onRing ? say`in the ring` : say`in the same place`;
  const words = (places: number): string => `${all} ${uses === 0 ? same : intoPlaces(place, places)}`;
  return { key: `${words(1)}/${uses}/${makes}`, places: loop.times, uses, makes, words };
}

/** The steps of a group; one that only says that a group begins is no part of it. */
function partsOf(steps: readonly Steps[], telling: Telling): string[] {
  return steps.flatMap((step): string[] => {
    if (!isStepLoop(step)) return isBeginning(step) ? [] : [partOf(step, telling)];
    const inner = partsOf(step.steps, telling);
    return step.times === 1 ? inner : [`(${inner.join(", ")}) x${step.times}`];
  });
}

function isBeginning({ sort, begins, kind }: Step): boolean {
  return sort === "none" && begins !== undefined && kind !== "picot";
}

function partOf(step: Step, { instructions }: Telling): string {
  if (step.sort === "space") return `ch ${step.chains ?? 1}`;
  if (isOpening(step, instructions.get(step.span))) return say`the opening chain as 1 ${step.kind}`;
  return step.n > 1 ? `${step.n} ${step.kind}` : step.kind;
}
