import type { SizeList } from "../notation/mentions/size-lists";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { placeOf, type Used, usesOf } from "./uses";
import { listed } from "./wording";

/** A list has more or fewer numbers than the pattern has sizes. */
export const unevenSizes: PatternRule = {
  id: "uneven-sizes",
  severity: "warning",
  documentation: `## What it finds
A list of numbers, one a size, with more or fewer numbers than the pattern has sizes.

## Why it matters
Makers of the last sizes find no number of theirs, or take that of their neighbour.

## Example
\`\`\`crochet
Sizes: S (M, L)
Finished circumference: 40 (46, 51, 57) cm

Ch 41 (47, 53).
Row 1: Sc in 2nd ch from hook and in each ch across. 40 (46, 52) sc.
\`\`\`

## Mended
\`\`\`crochet
Sizes: S (M, L)
Finished circumference: 40 (46, 51) cm

Ch 41 (47, 53).
Row 1: Sc in 2nd ch from hook and in each ch across. 40 (46, 52) sc.
\`\`\`
`,
  check(pattern) {
    const { sizes } = pattern.context;
    if (sizes.length < 3) return [];
    const told = toldRows(pattern);
    const wrong = usesOf(pattern).sizeLists.filter(
      ({ line, mention }) => mention.length !== sizes.length && !told.has(line.start),
    );
    return wrong.map((used) => foundOn(used, sizes));
  },
};

/** Rows for some sizes only, and rows that have a query of their own already. */
function toldRows({ pieces }: WorkedPattern): ReadonlySet<number> {
  const rows = pieces.flatMap((piece) => piece.rows);
  const told = rows.filter(
    ({ line, result }) => line.sizes !== null || (result !== "ok" && result !== "unchecked"),
  );
  return new Set(told.map(({ line }) => line.span.start));
}

function foundOn(used: Used<SizeList>, sizes: readonly string[]): Found {
  const { length } = used.mention;
  return {
    span: placeOf(used),
    message: `This list has ${length} numbers, and the pattern has ${sizes.length} sizes: ${listed(sizes, "and")}. ${length < sizes.length ? `${sizes.length - length} missing.` : `${length - sizes.length} too many.`}`,
    fixes: [],
    related: [],
  };
}
