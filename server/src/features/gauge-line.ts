import type { Refusal } from "../reshape/row-trial";
import { say } from "../text/say";
import type { NotedEdit, Scene } from "./actions/action";
import { newLine } from "./actions/new-line";

/** A size was typed, and the pattern has no gauge that tells how many stitches it is. */
export interface NoGauge extends Refusal {
  readonly lacks: "gauge";
}

export function noGauge(): NoGauge {
  return {
    why: say`A size needs the gauge. Add a line to the pattern, such as "Gauge: 18 sc and 20 rows = 10 cm".`,
    lacks: "gauge",
  };
}

/** What the box says to it, and does. */
export interface GaugeLine {
  readonly fits: boolean;
  readonly says: string;
  readonly edits: readonly NotedEdit[];
}

/** As patterns write it, with blanks to be filled in: nothing is guessed. */
const gaugeToFill = "Gauge: __ sts and __ rows = 10 cm";

const above = [/^\W*(?:materials?|you(?:'ll| will)? need|supplies|hook)\b/i, /^\W*terms?\b/i];

/** Puts in a line for the gauge; null where something else is the matter, or the line would bring something new. */
export function gaugeLine({ worked, prover }: Scene, refusal: Refusal): GaugeLine | null {
  if (!("lacks" in refusal)) return null;
  const edit = newLine(worked, gaugeToFill, above);
  const after = prover.aftermath([edit], []);
  if (!after || after.fresh.length > 0) return null;
  return {
    fits: true,
    says: say`A size needs the gauge. Enter puts in a line for it, "${gaugeToFill}": fill in its numbers and ask again.`,
    edits: [edit],
  };
}
