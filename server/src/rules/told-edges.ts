import { type Sentence, sentencesOf } from "../notation/assembly";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { inProse } from "./outline";
import type { Found, WorkedPattern } from "./rule";

/** A sentence that sews so many stitches to another number of them. */
export function toldEdges(pattern: WorkedPattern): Found[] {
  return told(pattern).map(({ said: { start, end, numbers }, line }) => ({
    span: { start: line.start + start, end: line.start + end },
    message: say`${numbers[0]} stitches are sewn to ${numbers[1]}. Make the numbers agree, or say how the larger one is eased in.`,
    fixes: [],
    related: [],
  }));
}

interface ToldEdges extends Span {
  readonly numbers: readonly [number, number];
}

const stitches = String.raw`(\d{1,3})\s+(?:\p{L}+\s+)?(?:sts|stitches)`;
/** `matching its 14 sts to the 16 sts of the opening`. */
const oneToOne = new RegExp(
  String.raw`\b(?:match|sew|join|whip\s?stitch|graft)\w*\b[^.;]*?\b${stitches}\b(?:\s+(?:of|on|at|along)\b[^.;,\d]*)?\s+(?:to|with)\s+(?:the|its|all)\s+(?:other\s+)?${stitches}\b`,
  "iu",
);
const eased = /\b(?:eas(?:e|ing)|gather|stretch|pleat|fold|fit|evenly|half|twice|two)/i;

const told = inProse((line) => sentencesOf(line).flatMap(edgesIn));

function edgesIn({ text, start }: Sentence): ToldEdges[] {
  const match = /\bst(?:itche)?s\b/i.test(text) && !eased.test(text) ? oneToOne.exec(text) : null;
  const numbers = [Number(match?.[1]), Number(match?.[2])] as const;
  if (!match || numbers[0] === numbers[1]) return [];
  const at = start + match.index;
  return [{ start: at, end: at + match[0].length, numbers }];
}
