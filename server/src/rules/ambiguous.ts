import type { RowRule } from "./rule";
import { numbers, rowName } from "./wording";

/** The trade has no settled reading for the row, and nothing in the pattern decides. */
export const ambiguous: RowRule = {
  id: "ambiguous",
  severity: "warning",
  documentation: `## What it finds
A row that can be understood in two ways which lead to different numbers, and nothing in the pattern tells which is meant.

## Why it matters
Half of the makers will work it the other way.

## Example
\`\`\`crochet
Ch 4, join to form ring.
Rnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 times, join.
\`\`\`

## Mended
\`\`\`crochet
Ch 4, join to form ring.
Rnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 more times, join. (12 dc, 6 ch-1 sps)
\`\`\`
`,
  check(row) {
    if (row.result !== "ambiguous" || !row.outcome) return [];
    const span = row.line.span;
    const left = Math.max(...row.outcome.has.map((n, size) => (n ?? 0) - (row.outcome?.needs[size] ?? 0)));
    if (left > 0) {
      return [{ span, message: `${rowName(row)} stops with ${left} stitches of the row below not worked. If that is meant, say so: "leave the remaining ${left} sts unworked".`, fixes: [`Add "leave remaining ${left} sts unworked"`], related: [] }];
    }
    const doubt = row.outcome.counted.find((one) => one?.doubt)?.doubt;
    if (doubt) return [{ span, message: `${rowName(row)}: the count says "ch" where the row makes chain spaces. Did you mean ${[...(row.outcome.counted[0]?.kinds ?? [])].map(([kind, n]) => `${n} ${kind}`).join(", ")}?`, fixes: [], related: [] }];
    const ways = row.others.map((one) => `${numbers(one.makes)} if ${one.assumptions.join(" and ") || "worked as it stands"}`);
    return [{ span, message: `${rowName(row)} could mean ${ways.join(", or ")}. Add the count at the end of the row to settle it.`, fixes: [], related: [] }];
  },
};
