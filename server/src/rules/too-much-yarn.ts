import { say } from "../text/say";
import type { Found, PatternRule } from "./rule";
import { forSize, queryOn, type YarnNeed, yarnNeeds } from "./yarn-needed";

/** The materials list more of a yarn than the rows take, by more than a whole ball. */
export const tooMuchYarn: PatternRule = {
  id: "too-much-yarn",
  severity: "information",
  documentation: `## What it finds
A yarn of which the materials list more than one whole ball too much, even with a good deal to spare. Only where a label such as \`50 g / 125 m\` tells what a ball holds; oddments of less than a ball are never told of.

## Why it matters
Makers buy what the list says. A ball too many on every list is remembered.

## Example
\`\`\`crochet
Terms: US

Materials
DK cotton, 50 g / 125 m: 4 balls
4 mm hook

Gauge: 20 sc and 22 rows = 10 cm

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Rows 2-20: Ch 1, turn, sc in each st across. (20)
Fasten off.
\`\`\`

## Mended
\`\`\`crochet
Terms: US

Materials
DK cotton, 50 g / 125 m: 1 ball
4 mm hook

Gauge: 20 sc and 22 rows = 10 cm

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Rows 2-20: Ch 1, turn, sc in each st across. (20)
Fasten off.
\`\`\`
`,
  check(pattern) {
    const needs = yarnNeeds(pattern);
    const tooMuch = needs.filter((need) => isTooMuch(need) && isForThisSize(need, needs));
    return tooMuch.map((need) => found(need, forSize(need, pattern)));
  },
};

/** One amount for all sizes is for the one that takes most. */
function isForThisSize(need: YarnNeed, all: readonly YarnNeed[]): boolean {
  if (need.amount.values.length > 1) return true;
  const alike = all.filter(({ yarn }) => yarn === need.yarn);
  return need === alike.reduce((most, one) => (one.needs > most.needs ? one : most));
}

/** Published items took at most so much more than the model says of them, and this much is to spare. */
const atMost = 1.35;
const spare = 1.2;

function isTooMuch({ needs, has, yarn: { label, perPiece }, basis, isWhole }: YarnNeed): boolean {
  if (label === null || perPiece || !isWhole || needs === 0) return false;
  const enough = needs * (basis.spread > 0 ? atMost : 1) * spare;
  return has.least - enough > label.metres;
}

function found(need: YarnNeed, forSize: string): Found {
  const { listed, taken, by, enough, span, fixes } = queryOn(need, atMost * spare);
  const ball = Math.round(need.yarn.label?.metres ?? 0);
  return {
    span,
    message: say`${listed}${forSize}; ${taken}, and a ball holds ${ball} m: more than a whole ball is left over. ${by} ${enough ?? say`less`} would do, with plenty to spare.`,
    fixes,
    related: [],
  };
}
