import { forSize } from "../fabric/instructions";
import type { RowRule } from "./rule";
import { rowName } from "./wording";

/** The row fits, but makes another number than it states. */
export const wrongCount: RowRule = {
  id: "wrong-count",
  severity: "error",
  documentation: `## What it finds
A row that fits the row below it but makes another number of stitches than the count at its end says.

## Why it matters
Counts are what makers check themselves by. A wrong one sends them looking for a slip of their own.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (13)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
\`\`\`
`,
  check(row) {
    const stated = row.line.plan?.stated;
    if (row.result !== "wrong-count" || !row.outcome || !stated) return [];
    const span = row.line.span;
    for (const [size, counted] of row.outcome.counted.entries()) {
      if (!counted) continue;
      const values = [...counted.kinds.values()];
      const where = row.outcome.counted.length > 1 ? ` in size ${size + 1} of ${row.outcome.counted.length}` : "";
      for (const [i, term] of stated.entries()) {
        const said = forSize(term.n, size);
        const made = values[i] ?? counted.makes;
        if (said === null) return [{ span, message: `${rowName(row)} gives ${term.n.length} counts, and the pattern has ${row.outcome.counted.length} sizes. Add the count for size ${size + 1}: ${made}.`, fixes: [], related: [] }];
        if (said === made) continue;
        const noun = term.noun === "" ? "stitches" : term.noun;
        return [{ span, message: `${rowName(row)} makes ${made} ${noun}${where}; the line says ${said}.`, fixes: [`Change the count to ${made}`], related: [] }];
      }
    }
    return [];
  },
};
