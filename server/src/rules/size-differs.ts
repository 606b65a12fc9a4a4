import { inBothUnits } from "../measure/lengths";
import { liesPlainly } from "../measure/plain-pieces";
import { type PieceSize, sizeOf } from "../measure/size";
import { yarnUseOf } from "../measure/yarn-used";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { Length } from "../notation/front-matter/lengths";
import type { Measurement } from "../notation/front-matter/measurements";
import { convertLength } from "../trade/units";
import type { Found, PatternRule, WorkedPattern } from "./rule";

/** The finished size a pattern states is not what its stitches come to at its gauge. */
export const sizeDiffers: PatternRule = {
  id: "size-differs",
  severity: "information",
  documentation: `## What it finds
A finished size that differs by more than a sixth from what the stitches and rows come to at the stated gauge. Only for a pattern of one plain piece: not for what is stuffed, ribbed, gathered, rippled, stretched, blocked or open work, whose size no count tells.

## Why it matters
Makers choose a pattern by its size. When gauge, counts and size do not agree, one of them is left over from an earlier version.

## Example
\`\`\`crochet
Terms: US
Finished size: 25 cm x 20 cm

Gauge: 20 sc and 22 rows = 10 cm

Ch 41.
Row 1: Sc in 2nd ch from hook and in each ch across. (40)
Rows 2-44: Ch 1, turn, sc in each st across. (40)
Fasten off.
\`\`\`

## Mended
\`\`\`crochet
Terms: US
Finished size: 20 cm x 20 cm

Gauge: 20 sc and 22 rows = 10 cm

Ch 41.
Row 1: Sc in 2nd ch from hook and in each ch across. (40)
Rows 2-44: Ch 1, turn, sc in each st across. (40)
Fasten off.
\`\`\`
`,
  check(pattern) {
    const [piece, second] = pattern.pieces;
    const { basis, paths } = yarnUseOf(pattern).ground;
    if (!piece || second || basis?.gauge == null || basis.gauge.line.blocked) return [];
    const measurements = frontMatterOf(pattern.lines).measurements.filter(isFinished);
    const prose = proseOf(pattern);
    if (measurements.length === 0 || !isDone.test(prose) || !liesPlainly(piece, prose)) return [];
    return pattern.context.sizes.flatMap((_, size) => {
      const own = sizeOf(piece, size, basis, paths);
      return own === null
        ? []
        : measurements.flatMap((one) => compare(one, own, size, basis.gauge?.height != null));
    });
  },
};

/** A draft that is not finished has no size yet. */
const isDone = /\b(?:fasten|finish|break|tie|end) off\b|\bf\.?\s?\/?o\b|\bweave\b|\bcut (?:the )?yarn\b/i;

function proseOf({ lines }: WorkedPattern): string {
  return lines
    .filter(({ kind }) => kind !== "row" && kind !== "foundation")
    .map(({ text }) => text)
    .join("\n");
}

function isFinished({ title, content }: Measurement): boolean {
  return title !== null && !/\bfit\b|\bbody\b|\bto fit\b/i.test(`${title.text} ${content.text}`);
}

/** What a stated length is of, and what the stitches come to. */
interface Told {
  readonly length: Length;
  readonly what: string;
  readonly comesTo: number;
}

function compare(measurement: Measurement, own: PieceSize, size: number, hasRows: boolean): Found[] {
  return toldIn(measurement, own, hasRows).flatMap((told) => {
    const stated = told.length.values[told.length.values.length === 1 ? 0 : size];
    if (stated === undefined) return [];
    const millimetres = convertLength(stated, told.length.unit, "mm");
    return differs(millimetres, told) ? [found(told, millimetres)] : [];
  });
}

function toldIn({ title, content, lengths }: Measurement, own: PieceSize, hasRows: boolean): Told[] {
  const said = `${title?.text ?? ""} ${content.text}`;
  const [first, second] = lengths;
  if (!first) return [];
  if (/\bcircumference\b|\baround\b/i.test(said)) return aroundOf(own, first);
  if (/\b(?:across|diameter)\b/i.test(said))
    return own.shape === "disc" && hasRows ? [{ length: first, what: "across", comesTo: own.across }] : [];
  if (
    own.shape !== "flat" ||
    own.narrowest < 0.95 * own.width ||
    !second ||
    second.unit !== first.unit ||
    !hasRows
  )
    return [];
  return /\d\s*(?:cm|in(?:ch(?:es)?)?|")?\s*(?:x|×|by)\s*\d/i.test(content.text)
    ? sides(own, first, second)
    : [];
}

function aroundOf(own: PieceSize, length: Length): Told[] {
  if (own.shape !== "tube" && own.shape !== "cup") return [];
  return [{ length, what: "around", comesTo: own.around }];
}

/** Width by height, or the other way round, as the stitches lie nearer to. */
function sides(own: Extract<PieceSize, { shape: "flat" }>, first: Length, second: Length): Told[] {
  const [a, b] = [first, second].map(({ values: [value = 0], unit }) => convertLength(value, unit, "mm")) as [
    number,
    number,
  ];
  const asTold = Math.abs(Math.log(a / own.width)) + Math.abs(Math.log(b / own.height));
  const turned = Math.abs(Math.log(a / own.height)) + Math.abs(Math.log(b / own.width));
  const [wide, high] = asTold <= turned ? [first, second] : [second, first];
  return [
    { length: wide, what: "wide", comesTo: own.width },
    { length: high, what: "high", comesTo: own.height },
  ];
}

/** Hands, edges and rounding account for less. */
const within = 1 / 6;

function differs(stated: number, { length, comesTo }: Told): boolean {
  const rounding = convertLength(length.step / 2, length.unit, "mm");
  return stated > 0 && Math.abs(stated - comesTo) > within * Math.max(stated, comesTo) + rounding;
}

function found({ length, what, comesTo }: Told, stated: number): Found {
  return {
    span: { start: length.start, end: length.end },
    message: `The finished size says ${inBothUnits(stated)} ${what}; at the stated gauge the stitches come to ${inBothUnits(comesTo)}. Gauge, counts or size are not of the same version.`,
    fixes: [],
    related: [],
  };
}
