import { inBothUnits } from "../measure/lengths";
import { type StatedLength, statedLengths } from "../measure/stated-size";
import { say, sayings } from "../text/say";
import { convertLength } from "../trade/units";
import type { Found, PatternRule } from "./rule";

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
    return statedLengths(pattern).filter(differs).map(found);
  },
};

/** Hands, edges and rounding account for less. */
const within = 1 / 6;

function differs({ stated, length, comesTo }: StatedLength): boolean {
  const rounding = convertLength(length.step / 2, length.unit, "mm");
  return Math.abs(stated - comesTo) > within * Math.max(stated, comesTo) + rounding;
}

const ways = sayings<StatedLength["what"]>({
  across: "across",
  around: "around",
  wide: "wide",
  high: "high",
});

function found({ length, what, comesTo, stated }: StatedLength): Found {
  return {
    span: { start: length.start, end: length.end },
    message: say`The finished size says ${inBothUnits(stated)} ${ways(what)}; at the stated gauge the stitches come to ${inBothUnits(comesTo)}. Gauge, counts or size are not of the same version.`,
    fixes: [],
    related: [],
  };
}
