import { say } from "../text/say";
import { renumberFix } from "./renumber";
import { type NumberSlip, numberSlips } from "./row-numbers";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { headOf, listed, rowName, says } from "./wording";

/** A number is missing between two rows of a piece. */
export const rowSkipped: PatternRule = {
  id: "row-skipped",
  severity: "warning",
  documentation: `## What it finds
A row whose number is higher than the next one due, where no line stands for the rows between. Rows that a repeat, a range or a sentence such as "all even rows" stands for are not missed.

## Why it matters
Makers look for the missing row and fear that it was lost. Often it was: a row ripped out and never written again.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 4: (sc, inc) x6 (18)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc) x6 (18)
\`\`\`
`,
  check(pattern) {
    return numberSlips(pattern)
      .filter(({ from, due }) => from > due)
      .map((slip) => found(slip, pattern));
  },
};

function found(slip: NumberSlip, pattern: WorkedPattern): Found {
  const { row, before } = slip;
  return {
    span: headOf(row),
    message: slip.alone ? aloneMessage(slip) : missingMessage(slip),
    fixes: renumberFix(slip, pattern),
    related: [{ span: headOf(before), message: say`${says(rowName(before), "is")} the one before it.` }],
  };
}

function aloneMessage({ row, before, due }: NumberSlip): string {
  return say`${says(rowName(row), "comes")} after ${rowName(before)}, where row ${due} is due. Did you mean ${due}?`;
}

function missingMessage({ row, before, from, due }: NumberSlip): string {
  const missing = [...Array(Math.min(from - due, 4)).keys()].map((i) => `${due + i}`);
  const all = from - due > 4 ? say`${due} to ${from - 1}` : listed(missing, "or");
  return say`${says(rowName(row), "comes")} after ${rowName(before)}: there is no row ${all}. If a row was lost, write it in; if not, renumber from here.`;
}
