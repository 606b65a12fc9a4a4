import type { Gathered } from "./bind-stitches";
import type { Instruction } from "./instructions";
import { intoRing } from "./row-choices";

/** `(shell made)`: what the last one is called. */
export function nameLast(out: Instruction[], name: string): void {
  const last = out.at(-1);
  if (last?.op === "work") out[out.length - 1] = { ...last, stitch: { ...last.stitch, begins: name } };
  if (last?.op === "group") out[out.length - 1] = { ...last, unit: name };
}

/** What was told so far becomes one group, but for the slip stitches that lead to it; in a ring it stays as it is. */
export function gather(out: Instruction[], { takes, span }: Gathered): void {
  if (takes.some(({ how }) => how === "nowhere")) return void out.splice(0, out.length, ...out.map(intoRing));
  const from = out.findIndex(({ op }) => op !== "slip" && op !== "turn" && op !== "mark");
  if (from >= 0) out.push({ op: "group", body: out.splice(from), takes, span });
}
