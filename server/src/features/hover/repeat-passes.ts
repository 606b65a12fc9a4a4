import type { Instruction } from "../../fabric/instructions";
import { isStepLoop, type Steps } from "../../fabric/steps";
import type { Span } from "../../text/span";
import { isGroup, type Telling } from "../proof/done";
import { passesOf } from "../proof/passes";
import { numbered } from "../proof/place-names";
import { type ProofLine, proofLines } from "../proof/proof-lines";
import { spanOf } from "../step-sums";
import { spansIn } from "./instruction-at";

type Repeat = Extract<Instruction, { op: "repeat" }>;

/** How a repeat went in one size, as its steps tell. */
export interface RepeatPasses {
  readonly times: number;
  /** The last time was not worked to its end. */
  readonly lastIsShort: boolean;
  /** One time, in a maker's words. */
  readonly once: string;
}

/** What a repeat did; null where nothing in it is done once in each pass. */
export function passesOfRepeat(
  repeat: Repeat,
  steps: readonly Steps[],
  telling: Telling,
): RepeatPasses | null {
  const anchors = repeat.body.filter(isDoneOncePerPass);
  const [first, last] = [anchors[0], anchors.at(-1)];
  if (!first || !last) return null;
  const times = timesOf(first, steps);
  if (times === 0) return null;
  const lines = proofLines(passesOf(firstPass(repeat, first, steps), telling));
  return {
    times,
    lastIsShort: timesOf(last, steps) < times,
    once: lines.map((one) => onceOf(one, telling)).join("; "),
  };
}

/** `sts 1–2: sc in each`. */
function onceOf({ places, does }: ProofLine, { noun }: Telling): string {
  return places === "" ? does : `${numbered(noun, places)}: ${does}`;
}

type Anchor = Extract<Instruction, { op: "work" | "group" | "skip" | "chain" }>;

function isDoneOncePerPass(instruction: Instruction): instruction is Anchor {
  return ["work", "group", "skip", "chain"].includes(instruction.op);
}

/** An instruction with several places is done once for each of them. */
function stepsPerPass(anchor: Anchor): number {
  return "takes" in anchor ? Math.max(anchor.takes.length, 1) : 1;
}

function timesOf(anchor: Anchor, steps: readonly Steps[]): number {
  return Math.ceil(stepsOf(anchor.span, steps) / stepsPerPass(anchor));
}

/** How many steps, or groups of steps, an instruction made. */
function stepsOf(span: Span, steps: readonly Steps[]): number {
  let sum = 0;
  for (const step of steps) {
    if (isStepLoop(step) && !isGroup(step)) sum += stepsOf(span, step.steps) * step.times;
    else if (spanOf(step) === span) sum++;
  }
  return sum;
}

/** The steps of a repeat until its first instruction comes again. */
function firstPass(repeat: Repeat, anchor: Anchor, steps: readonly Steps[]): Steps[] {
  const spans = spansIn(repeat);
  const out: Steps[] = [];
  let left = stepsPerPass(anchor);
  const visit = (list: readonly Steps[]): void => {
    for (const step of list) {
      if (isStepLoop(step) && !isGroup(step) && stepsOf(anchor.span, step.steps) > 0) visit(step.steps);
      else if (spanOf(step) === anchor.span && left-- <= 0) return;
      else if (spans.has(spanOf(step))) out.push(step);
      if (left < 0) return;
    }
  };
  visit(steps);
  return out;
}
