import type { State } from "../fabric/outcome";
import type { TextEdit } from "../text/span";
import type { Proved, RowTrial } from "./row-trial";
import { difference } from "./text-difference";

/** A row written anew; it was read and worked on its places, and is right. */
export interface Rewritten {
  readonly text: string;
  /** Stitches made then. */
  readonly makes: number;
  /** In offsets of the row's text. */
  readonly edits: readonly TextEdit[];
  /** Changes of the starting chain on the line before, in offsets of that line's text. */
  readonly chainEdits: readonly TextEdit[];
  readonly how: "count" | "numbers" | "spaced";
  /** What it leaves for the next row. */
  readonly after: State;
}

export function rewritten(trial: RowTrial, { text, outcome }: Proved, how: Rewritten["how"]): Rewritten {
  const [makes, after] = [outcome.makes[0] ?? 0, outcome.leaves.state];
  return { text, makes, edits: difference(trial.text, text), chainEdits: [], how, after };
}
