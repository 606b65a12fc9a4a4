import { type Sentence, sentencesOf } from "../notation/assembly";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import { type Length, readLengths } from "../notation/front-matter/lengths";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { convertLength } from "../trade/units";
import { inProse } from "./outline";
import type { Found, WorkedPattern } from "./rule";

/** The work is blocked to a size that is none of the finished ones. */
export function otherSizes(pattern: WorkedPattern): Found[] {
  const sizes = blockedSizes(pattern);
  if (sizes.length === 0) return [];
  const stated = frontMatterOf(pattern.lines).measurements.filter(({ lengths }) => lengths.length > 1);
  const known = stated.flatMap(({ lengths }) => lengths).flatMap(inCentimetres);
  return sizes
    .filter(
      ({ said }) =>
        known.length > 0 && !said.sides.flatMap(inCentimetres).some((side) => isAmong(side, known)),
    )
    .map(({ said: { start, end, text }, line }) => ({
      span: { start: line.start + start, end: line.start + end },
      message: say`The work is blocked to ${text}, and the finished size is ${stated.map(({ content }) => content.text.trim()).join(", ")}. Is one of them left over from another pattern?`,
      fixes: [],
      related: stated.map(({ content }) => ({
        span: { start: content.start, end: content.end },
        message: say`The finished size.`,
      })),
    }));
}

interface BlockedSize extends Span {
  readonly text: string;
  readonly sides: readonly Length[];
}

const blockedSizes = inProse((line) => sentencesOf(line).flatMap(sizeIn));

/** `block to 90 x 120 cm`: both sides, or one alone. */
function sizeIn({ text, start }: Sentence): BlockedSize[] {
  const [lead] = /^.*\b(?:block|pin|stretch|steam)\w*\b[^.;]*?\bto\s+(?:measure\s+)?(?=\d)/i.exec(text) ?? [];
  if (lead === undefined) return [];
  const sides = readLengths({ text, start, end: start + text.length }).filter(
    (one) => one.start - start >= lead.length,
  );
  const [first, last] = [sides[0], sides.at(-1)];
  if (!first || !last || sides.some(({ unit }) => unit === "mm")) return [];
  const span = { start: first.start, end: last.end };
  return [{ ...span, text: text.slice(span.start - start, span.end - start), sides }];
}

function inCentimetres({ values, unit }: Length): number[] {
  return values.map((value) => convertLength(value, unit, "cm"));
}

/** Blocking stretches a little, and sizes are rounded. */
const leeway = 0.1;

function isAmong(side: number, known: readonly number[]): boolean {
  return known.some((one) => Math.abs(one - side) <= leeway * one);
}
