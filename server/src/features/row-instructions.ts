import type { Instruction, RowPlan } from "../fabric/instructions";
import type { RowLine } from "../fabric/pattern";
import { isStepLoop, type Steps } from "../fabric/steps";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { Span } from "../text/span";

/** Instructions by their spans: a step keeps the very span object of the instruction it was made by. */
export type InstructionBySpan = ReadonlyMap<Span, Instruction>;

/** All instructions of a plan, those inside others too. */
export function instructionsOf({
  instructions,
  carried,
}: Pick<RowPlan, "instructions" | "carried">): InstructionBySpan {
  const out = new Map<Span, Instruction>();
  addAll(instructions, out);
  addAll(carried, out);
  return out;
}

function addAll(list: readonly Instruction[], out: Map<Span, Instruction>): void {
  for (const instruction of list) {
    out.set(instruction.span, instruction);
    for (const inner of innerOf(instruction)) addAll(inner, out);
  }
}

/** The lists of instructions that an instruction holds in its own words. */
export function innerOf(instruction: Instruction): readonly (readonly Instruction[])[] {
  switch (instruction.op) {
    case "group":
      return [instruction.body];
    case "repeat":
      return [instruction.body, instruction.ending?.with ?? []];
    case "either":
      return instruction.options;
    case "whichever":
      return [instruction.runs];
    default:
      return [];
  }
}

/** The line whose words a row was worked by: its own, or that of the row it stands for ("Rep Rnd 8"). */
export function wordsBehind(row: WorkedRow, piece: WorkedPiece): RowLine {
  const spans = new Set((row.outcome?.steps ?? []).flatMap((steps) => spansOf(steps)));
  const says = ({ plan }: RowLine) =>
    plan !== null && [...instructionsOf(plan).keys()].some((span) => spans.has(span));
  if (spans.size === 0 || says(row.line)) return row.line;
  return piece.rows.slice(0, piece.rows.indexOf(row)).findLast(({ line }) => says(line))?.line ?? row.line;
}

function spansOf(steps: readonly Steps[]): Span[] {
  return steps.flatMap((step) => (isStepLoop(step) ? spansOf(step.steps) : [step.span]));
}

/** What a row was worked by, with the chain that the row before ended with. */
export function instructionsBehind(row: WorkedRow, words: RowLine): InstructionBySpan {
  const carried = row.below?.plan?.carried ?? [];
  const { instructions = [], carried: own = [] } = words.plan ?? {};
  return instructionsOf({ instructions: [...carried, ...own, ...instructions], carried: [] });
}
