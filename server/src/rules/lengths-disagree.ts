import type { Length, LengthPair } from "../notation/front-matter/lengths";
import { say } from "../text/say";
import { convertLength, sameLength } from "../trade/units";
import type { Fix, Found, PatternRule } from "./rule";
import { type Used, usesOf } from "./uses";

/** Centimetres and inches that stand beside each other are not the same length. */
export const lengthsDisagree: PatternRule = {
  id: "lengths-disagree",
  severity: "warning",
  documentation: `## What it finds
A length given in centimetres and in inches, one in brackets behind the other, that is not the same length in both. Rounding is allowed: to half a centimetre, a quarter of an inch or the nearest whole, and 10 cm for 4 in.

## Why it matters
Half of the makers work to a size that is not yours.

## Example
\`\`\`crochet
Finished size: 15 cm (8 in) across

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
\`\`\`

## Mended
\`\`\`crochet
Finished size: 15 cm (6 in) across

Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
\`\`\`
`,
  check(pattern) {
    return usesOf(pattern).lengthPairs.flatMap(foundOn);
  },
};

function foundOn({ line, mention: { first, second } }: Used<LengthPair>): Found[] {
  const wrong = first.values.findIndex(
    (value, i) => !agree(value, first, second.values[i] as number, second),
  );
  if (wrong < 0) return [];
  const [a, b] = [first.values[wrong] as number, second.values[wrong] as number];
  const inSecond = inUnit(a, first, second);
  const message = say`${printed(a, first)} is ${printed(inSecond, second)}, and the line says ${printed(b, second)}.`;
  const single = first.values.length === 1;
  return [
    {
      span: { start: first.start + line.start, end: second.end + line.start },
      message,
      fixes: single
        ? [writing(inSecond, second, line.start), writing(inUnit(b, second, first), first, line.start)]
        : [],
      related: [],
    },
  ];
}

/** As each may have been rounded from the other; 2.5 cm go for an inch where 10 cm go for 4. */
function agree(a: number, first: Length, b: number, second: Length): boolean {
  if (sameLength(a, first.unit, b, second.unit)) return true;
  const [cm, inch] = first.unit === "in" ? [second, first] : [first, second];
  const [cms, inches] = first.unit === "in" ? [b, a] : [a, b];
  return [2.54, 2.5].some(
    (factor) => rounded(cms / factor, inch.step) === inches || rounded(inches * factor, cm.step) === cms,
  );
}

function rounded(value: number, step: number): number {
  return Math.round(value / step) * step;
}

/** The length in the other's unit, to the half centimetre or quarter inch. */
function inUnit(value: number, from: Length, to: Length): number {
  return rounded(convertLength(value, from.unit, to.unit), to.unit === "in" ? 0.25 : 0.5);
}

const quarters = ["", "1/4", "1/2", "3/4"];

/** `5 1/2 in`, `14.5 cm`. */
function printed(value: number, { unit }: Length): string {
  return `${figures(value, unit)} ${unit}`;
}

function figures(value: number, unit: Length["unit"]): string {
  const quarter = (value % 1) * 4;
  if (unit !== "in" || !Number.isInteger(quarter) || quarter === 0) return `${value}`;
  return [value < 1 ? "" : Math.floor(value), quarters[quarter]].filter((part) => part !== "").join(" ");
}

function writing(value: number, { numbers, unit }: Length, offset: number): Fix {
  const newText = figures(value, unit);
  const span = { start: numbers.start + offset, end: numbers.end + offset };
  return { title: say`Write ${newText} ${unit}`, edits: () => [{ span, newText }] };
}
