import { say } from "../text/say";
import type { Found, PatternRule } from "./rule";
import { forSize, queryOn, type YarnNeed, yarnNeeds } from "./yarn-needed";

/** The materials list less of a yarn than the rows are sure to take. */
export const tooLittleYarn: PatternRule = {
  id: "too-little-yarn",
  severity: "warning",
  documentation: `## What it finds
A yarn of which the materials list less than the pattern takes, even if the estimate is far too high and the ball holds as much as such a ball ever does. Your own measure of a stitch (\`20 sc unravelled: 92 cm\`) makes it sharp.

## Why it matters
A maker who runs out near the end may not find the same dye lot again.

## Example
\`\`\`crochet
Terms: US

Materials
DK cotton, 50 g / 125 m: 50 g
4 mm hook

Gauge: 20 sc and 22 rows = 10 cm

Ch 101.
Row 1: Sc in 2nd ch from hook and in each ch across. (100)
Rows 2-80: Ch 1, turn, sc in each st across. (100)
Fasten off.
\`\`\`

## Mended
\`\`\`crochet
Terms: US

Materials
DK cotton, 50 g / 125 m: 195 g
4 mm hook

Gauge: 20 sc and 22 rows = 10 cm

Ch 101.
Row 1: Sc in 2nd ch from hook and in each ch across. (100)
Rows 2-80: Ch 1, turn, sc in each st across. (100)
Fasten off.
\`\`\`
`,
  check(pattern) {
    const short = yarnNeeds(pattern).filter(isTooLittle);
    return short.map((need) => found(need, forSize(need, pattern)));
  },
};

/** Published items took at least so much of what the model says of them; a designer's measure is nearly exact. */
const surelyOfEstimate = 0.7;
const surelyOfMeasure = 0.95;

function isTooLittle({ needs, has, basis }: YarnNeed): boolean {
  return needs * (basis.spread > 0 ? surelyOfEstimate : surelyOfMeasure) > has.most;
}

/** Common practice: 10 to 20 percent to spare. */
const spare = 1.15;

function found(need: YarnNeed, forSize: string): Found {
  const { listed, taken, by, enough, span, fixes } = queryOn(need, spare);
  return {
    span,
    message: say`${listed}${forSize}; ${taken}, which is more. ${by} List ${enough ?? say`more`}, with 15 % to spare.`,
    fixes,
    related: [],
  };
}
