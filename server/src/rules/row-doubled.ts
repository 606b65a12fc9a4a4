import { say } from "../text/say";
import { renumberFix } from "./renumber";
import { type NumberSlip, numberSlips } from "./row-numbers";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { headOf, rowName, says } from "./wording";

/** A number comes twice in a piece. */
export const rowDoubled: PatternRule = {
  id: "row-doubled",
  severity: "warning",
  documentation: `## What it finds
A row with a number that an earlier row of the same piece has already. Numbers that begin again at 1, under a heading or with a new start, are not meant.

## Why it matters
"Repeat Rnd 3" has two answers, and a maker who counts by the numbers is a row out from there.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 2: (sc, inc) x6 (18)
Rnd 3: sc in each st around (18)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc) x6 (18)
Rnd 4: sc in each st around (18)
\`\`\`
`,
  check(pattern) {
    return numberSlips(pattern)
      .filter(({ from, due }) => from < due)
      .map((slip) => found(slip, pattern));
  },
};

function found(slip: NumberSlip, pattern: WorkedPattern): Found {
  const { row, before, from, due } = slip;
  const earlier = earlierOf(slip) ?? before;
  return {
    span: headOf(row),
    message: say`${says(rowName(row), "comes")} after ${rowName(before)}: the number ${from} is there already. Did you mean ${due}?`,
    fixes: renumberFix(slip, pattern),
    related: [{ span: headOf(earlier), message: say`The number ${from} is used here.` }],
  };
}

function earlierOf({ part, row, from }: NumberSlip): typeof row | undefined {
  const rows = part.piece?.rows ?? [];
  return rows.slice(0, rows.indexOf(row)).findLast(({ line }) => {
    const { head } = line;
    const last = Math.max(head?.from ?? 0, ...(head?.to ?? []).map((n) => n ?? 0));
    return head?.from != null && head.from <= from && from <= last;
  });
}
