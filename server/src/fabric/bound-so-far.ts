import type { Span } from "../text/span";
import type { Instruction, Take } from "./instructions";
import { intoRing } from "./row-choices";

/** A remark that says what the group before it is called. */
export interface Named {
  readonly op: "remark";
  readonly names: string;
}

/** `…, all into ring`: all that was said before it goes into one place. */
export interface Gathered {
  readonly op: "gather";
  readonly takes: readonly Take[];
  readonly span: Span;
}

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
