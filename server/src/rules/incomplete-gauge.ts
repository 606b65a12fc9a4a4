import type { Gauge, GaugeProblem } from "../measure/gauge";
import { yarnUseOf } from "../measure/yarn-used";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import { say, sayings } from "../text/say";
import type { Found, PatternRule, WorkedPattern } from "./rule";

/** A gauge that cannot be worked to, or that leaves out what the pattern depends on. */
export const incompleteGauge: PatternRule = {
  id: "incomplete-gauge",
  severity: "information",
  documentation: `## What it finds
A gauge that cannot be, or that does not say over which length its stitches lie where sizes or amounts of yarn depend on it. Also one without rows where the pattern states a height, or without a stitch where its pieces are worked in several that differ in height. A pattern that states no gauge, or says that it does not matter, is left alone.

## Why it matters
Nobody can reach the finished size, or know whether the yarn is enough, by a gauge that lacks a part.

## Example
\`\`\`crochet
Terms: US
Finished size: 10 cm x 12 cm

Gauge: 20 sc = 10 cm

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Rows 2-26: Ch 1, turn, sc in each st across. (20)
\`\`\`

## Mended
\`\`\`crochet
Terms: US
Finished size: 10 cm x 12 cm

Gauge: 20 sc and 22 rows = 10 cm

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Rows 2-26: Ch 1, turn, sc in each st across. (20)
\`\`\`
`,
  check(pattern) {
    const { ground } = yarnUseOf(pattern);
    const { problems, basis } = ground;
    // A second line that is of no use does no harm, but for one that cannot be.
    const wrong = problems.filter(({ sort }) => sort === "impossible");
    if (basis?.gauge == null)
      return [...wrong, ...(dependsOnIt(pattern) ? problems.filter(isOfNoUse) : [])].map(found);
    return [...wrong, ...(statesHeight(pattern) ? partMissing(problems, basis.gauge) : [])].map(found);
  },
};

const ofNoUse: ReadonlySet<GaugeProblem["sort"]> = new Set([
  "no-length",
  "no-stitches",
  "nothing",
  "repeat-unknown",
]);

function isOfNoUse({ sort }: GaugeProblem): boolean {
  return ofNoUse.has(sort);
}

/** Sizes, or amounts of yarn, that nobody reaches without a gauge. */
function dependsOnIt({ lines, context }: WorkedPattern): boolean {
  const { measurements, yarns } = frontMatterOf(lines);
  return (
    context.sizes.length > 1 || measurements.length > 0 || yarns.some(({ amounts }) => amounts.length > 0)
  );
}

/** The rows, or the stitch, that a height depends on. */
function partMissing(problems: readonly GaugeProblem[], { height }: Gauge): GaugeProblem[] {
  const missing = height === null ? "no-rows" : "no-stitch";
  return problems.filter(({ sort }) => sort === missing).slice(0, 1);
}

/** A finished size of two lengths, or one that is high, tall, long or deep. */
function statesHeight(pattern: WorkedPattern): boolean {
  return frontMatterOf(pattern.lines).measurements.some(
    ({ title, content, lengths }) =>
      !/\bfit\b/i.test(title?.text ?? "") &&
      ((/\blength\b/i.test(title?.text ?? "") && hasManyRows(pattern)) ||
        /\b(?:high|height|tall|deep|depth)\b/i.test(`${title?.text ?? ""} ${content.text}`) ||
        (/\d\s*(?:cm|in|")?\s*[x×]\s*\d/i.test(content.text) && lengths.length > 1)),
  );
}

/** The length of a cord or a trim is told by its stitches. */
const manyRows = 10;

function hasManyRows({ pieces }: WorkedPattern): boolean {
  return pieces.some(({ rows }) => rows.reduce((sum, { times }) => sum + (times?.[0] ?? 1), 0) >= manyRows);
}

const ask = sayings<GaugeProblem["sort"]>({
  "no-length": "Add the length, as in: 20 sc and 22 rows = 10 cm.",
  "no-stitches": "Add the stitches, as in: 20 sc and 22 rows = 10 cm.",
  "no-stitch": "Add the stitch, as in: 20 sc and 22 rows = 10 cm.",
  "no-rows": "The pattern states a height: add the rows, as in: 20 sc and 22 rows = 10 cm.",
  nothing: "Write it as in: 20 sc and 22 rows = 10 cm.",
  impossible: "Look whether a figure is mistyped.",
  "repeat-unknown": "Write with the notes of how many stitches it is a multiple: multiple of 12 sts + 1.",
});

function found({ span, says, sort }: GaugeProblem): Found {
  const missing =
    sort === "no-rows" || sort === "no-stitch" ? say`is not complete` : say`cannot be worked to as it stands`;
  return { span, message: say`The gauge ${missing}: ${says}. ${ask(sort)}`, fixes: [], related: [] };
}
