import type { Choice, Instruction, RowPlan } from "./instructions";

export type Settling = Pick<RowPlan, "instructions" | "choices">;

/**
 * Instructions in their usual reading, without choice points: what a definition says is read once
 * and holds in every row that uses its name.
 */
export function settled({ instructions, choices }: Settling): readonly Instruction[] {
  return settle(instructions, choices);
}

/** A choice that no reading knows: its first option stands. */
const decided = -1;

function settle(list: readonly Instruction[], choices: readonly Choice[]): Instruction[] {
  return list.flatMap((instruction): Instruction[] => {
    switch (instruction.op) {
      case "either":
        return settle(instruction.options[usual(instruction.choice, choices)] ?? [], choices);
      case "start": {
        const option = instruction.options[usual(instruction.choice, choices)];
        return option ? [{ ...instruction, options: [option], choice: decided }] : [];
      }
      case "repeat":
        return [settledRepeat(instruction, choices)];
      case "group":
        return [{ ...instruction, body: settle(instruction.body, choices) }];
      case "work": {
        const { glued, ...work } = instruction;
        return glued !== undefined && usual(glued, choices) === 1 ? [instruction] : [work];
      }
      default:
        return [instruction];
    }
  });
}

function settledRepeat(
  repeat: Extract<Instruction, { op: "repeat" }>,
  choices: readonly Choice[],
): Instruction {
  const { ending: _, times, ...rest } = repeat;
  const body = settle(repeat.body, choices);
  if (times.how === "doubtful") return { ...rest, body, times: { how: "fixed", n: times.n } };
  if (times.how === "lone") return { ...rest, body, times: { how: "fixed", n: [1] } };
  return { ...rest, body, times };
}

function usual(choice: number, choices: readonly Choice[]): number {
  const costs = choices[choice]?.costs ?? [];
  return Math.max(costs.indexOf(Math.min(...costs)), 0);
}
