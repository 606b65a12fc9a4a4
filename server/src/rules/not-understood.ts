import type { RowRule } from "./rule";
import { rowName } from "./wording";

/** Something in the row is not explained, so the row is not checked. Never an error. */
export const notUnderstood: RowRule = {
  id: "not-understood",
  severity: "information",
  documentation: `## What it finds
A row that is not checked, with the reason: a stitch that nobody explains, a place that cannot be counted, a row with nothing below it.

## Why it matters
A row that is not checked may still be right; it needs your own eyes.

## Example
\`\`\`crochet
R1: 6 sc in mr (6)
R2: lotus st x6 (6)
\`\`\`

## Mended
\`\`\`crochet
Lotus st = 3 dc in same st

R1: 6 sc in mr (6)
R2: lotus st x6 (18)
\`\`\`
`,
  check(row) {
    if (row.result !== "unchecked") return [];
    const unknown = row.line.plan?.unknown[0];
    const span = unknown ? { start: row.line.start + unknown.span.start, end: row.line.start + unknown.span.end } : row.line.span;
    return [{ span, message: `${rowName(row)} is not checked: ${row.reason}.`, fixes: [], related: [] }];
  },
};
