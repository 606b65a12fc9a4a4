import { nearestMends } from "./mends";
import type { RowRule } from "./rule";
import { numbers, placesName, rowName } from "./wording";

/** The row uses more or fewer places than the row below leaves. */
export const doesNotFit: RowRule = {
  id: "does-not-fit",
  severity: "error",
  documentation: `## What it finds
A row that needs more or fewer stitches than the row below it has.

## Why it matters
Whoever works the row comes out with stitches left over, or runs out of them before the end. The count at the end of the row can still be right.

## Example
\`\`\`crochet
R1: fsc 18, join (18)
R2: (4 sc, dec) x6 (15)
\`\`\`

## Mended
\`\`\`crochet
R1: fsc 18, join (18)
R2: (4 sc, dec) x3 (15)
\`\`\`
`,
  check(row, piece) {
    if (row.result !== "does-not-fit" || !row.outcome) return [];
    const { needs, has } = row.outcome;
    const mends = nearestMends(row);
    const at = Math.max(0, needs.findIndex((n, size) => n !== has[size]));
    const [need, there] = [needs[at] ?? 0, has[at] ?? 0];
    const apart = need > there ? `${need - there} short` : `${there - need} left over`;
    const size = needs.length > 1 ? ` (size ${at + 1} of ${needs.length})` : "";
    const below = row.below && piece.rows.some((one) => one.line === row.below) ? row.below.headText : "the row below";
    const ask = mends.length > 0 ? ` ${mends[0]?.question}` : "";
    return [
      {
        span: row.line.span,
        message: `${rowName(row)} needs ${need} ${placesName(row, need)}${size}; ${below} has ${there}: ${apart}.${ask}`,
        fixes: mends.map((mend) => mend.title),
        related: row.below ? [{ span: row.below.span, message: `${below} leaves ${numbers(has)} to work into.` }] : [],
      },
    ];
  },
};
