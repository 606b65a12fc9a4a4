import type { EachRun, Instruction, Take } from "./instructions";

/** `sc in each dc and 3 sc in each corner sp around`: runs over the same stretch, for different places. */
export function sideBySide(all: readonly Instruction[]): readonly Instruction[] {
  const out: Instruction[] = [];
  for (let i = 0; i < all.length; i++) {
    const runs = runsFrom(all, i);
    const [first] = runs;
    if (!first || runs.length < 2) {
      out.push(all[i] as Instruction);
      continue;
    }
    const last = runs.at(-1)?.takes[0];
    out.push({ op: "whichever", runs, until: last?.how === "each" ? last.until : null, span: first.span });
    i += runs.length - 1;
  }
  return out;
}

/** `sc in each dc, 3 sc in ch-2 sp`: the space lies somewhere among the stitches. */
function wherever(run: EachRun, before: number): Take | undefined {
  const [take] = run.takes;
  const among = before > 0 && take?.how === "next" && take.bare === true && take.of.sort === "space";
  return among ? { how: "each", of: [take.of], until: null } : take;
}

function runsFrom(all: readonly Instruction[], from: number): EachRun[] {
  const runs: EachRun[] = [];
  const sorts = new Set<string>();
  for (const instruction of all.slice(from)) {
    if (instruction.op !== "work" && instruction.op !== "group") break;
    const take = wherever(instruction, runs.length);
    if (instruction.takes.length !== 1 || take?.how !== "each") break;
    const own = take.of.map(
      (target) => `${target.sort}${target.chains ?? ""}${target.corner ? "c" : ""}${target.part ?? ""}`,
    );
    if (own.every((sort) => sorts.has(sort)) || (take.until !== null && runs.length === 0)) break;
    for (const sort of own) sorts.add(sort);
    runs.push({ ...instruction, takes: [take] });
  }
  return runs;
}
