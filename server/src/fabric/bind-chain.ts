import type { Sized } from "../notation/words";
import { say } from "../text/say";
import { stitchOf } from "../trade/stitches";
import type { BindContext } from "./bind";
import { asSpace, type Declared, firstKind, slipsIntoSpace, type Way } from "./bind-start";
import type { Choice, Instruction } from "./instructions";

/** `dc in 4th ch from hook`: the chains before it may be a stitch, and a space in a mesh. */
export function skippedChains(
  all: readonly Instruction[],
  foundation: Sized | null,
  choices: Choice[],
  declared: Declared | null,
  context: BindContext,
): Instruction[] | null {
  const n = firstFromHook(all);
  if (n === null) return null;
  const kind = declared?.kind ?? firstKind(all) ?? "sc";
  const usual = skippedWays(n - 1, kind, firstChain(all), declared, context);
  const isBlock = foundation !== null && (foundation[0] ?? 0) <= longestBlock && n > 2;
  const block = asSpace(n - 1, kind);
  const ways =
    isBlock && declared === null
      ? explainsBlocks(context) || all.some(slipsIntoSpace)
        ? [{ ...block, cost: 0 }]
        : [...usual, block]
      : usual;
  choices.push({
    options: ways.map((way) => way.says),
    costs: ways.map((way) => way.cost),
    about: { chains: n - 1 },
  });
  return [
    {
      op: "start",
      n: [n - 1],
      choice: choices.length - 1,
      options: ways.map((way) => way.option),
      span: all[0]?.span ?? { start: 0, end: 0 },
    },
    ...all,
  ];
}

/** Whether the pattern explains a block as joined by a slip stitch to the next one. */
function explainsBlocks({ definitions }: BindContext): boolean {
  return [...definitions.values()].some(({ sequence }) => sequence?.some(slipsIntoSpace) ?? false);
}

/** Chains of a block that a row begins with: `ch 6, dc in 4th ch from hook and in next 2 ch`. */
const longestBlock = 8;

function skippedWays(
  n: number,
  kind: string,
  chain: number,
  declared: Declared | null,
  context: BindContext,
): Way[] {
  const height = stitchOf(kind, context.terms)?.turningChain || 1;
  const way = (counted: boolean, space: number, cost: number): Way => ({
    option: { counted, takesPlace: false, kind, space },
    says: counted
      ? say`the ${n} skipped chains count as a ${kind}${space ? say` and a ch-${space} space` : ""}`
      : say`the skipped chains do not count as a stitch`,
    cost,
  });
  // `(counts as first mesh)` names neither the stitch nor the space: they are as ever.
  const asMesh = declared?.counts === "yes" && declared.kind === null && n > height && chain > 0;
  if (declared && !asMesh)
    return [way(declared.counts === "yes", declared.counts === "yes" ? declared.space : 0, 0)];
  if (n < height || n <= 1) return [way(false, 0, 0)];
  // `sc in 6th ch from hook, *ch 5, …`: the first loop, and no stitch.
  if (height <= 1 && n > 2 && chain > 2)
    return [{ ...asSpace(n, kind), cost: 0 }, way(false, 0, 1), way(true, chain, 1)];
  if (n > height + 1 || (n > height && chain > 0))
    return [way(true, chain > 0 ? chain : n - height, 0), way(true, 0, 1), way(false, 0, 1)];
  if (height <= 1) return [way(false, 0, 0), way(true, 0, 1)];
  if (height === 2) {
    const noted = context.conventions.startCounts.get(n);
    return [way(true, 0, noted === false ? 1 : 0), way(false, 0, noted === true ? 1 : 0)];
  }
  return [way(true, 0, 0), way(false, 0, 1)];
}

function firstFromHook(all: readonly Instruction[]): number | null {
  for (const instruction of all) {
    if (instruction.op === "chain" || instruction.op === "other-side") return null;
    if (instruction.op === "begin-at") return null;
    if ("body" in instruction) {
      const n = firstFromHook(instruction.body);
      if (n !== null) return n;
    }
    if (!("takes" in instruction)) continue;
    const take = instruction.takes.find((one) => one.how === "from-hook");
    if (take?.how === "from-hook") return take.n[0] ?? null;
    if (instruction.op === "work" || instruction.op === "group") return null;
  }
  return null;
}

function firstChain(all: readonly Instruction[]): number {
  for (const instruction of all) {
    if (instruction.op === "chain") return instruction.n[0] ?? 0;
    if (instruction.op === "repeat") {
      const n = firstChain(instruction.body);
      if (n > 0) return n;
    }
  }
  return 0;
}
