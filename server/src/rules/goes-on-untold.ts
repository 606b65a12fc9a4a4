import type { WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import { onceWritten } from "./repeated-line";
import type { Fix, Found, PatternRule } from "./rule";
import { rowName, says } from "./wording";

/** One stitch makes a whole row, and only the count tells that it goes on to the end. */
export const goesOnUntold: PatternRule = {
  id: "goes-on-untold",
  severity: "information",
  documentation: `## What it finds
A row of one plain stitch that is right only if it is worked on to the end, and does not say so: "sc (18)" over 18 stitches. Where a pattern has more than one row of this kind, that is its way of writing, and nothing is said.

## Why it matters
Read as it stands it is one stitch. A number, "each" or "around" is easily lost when a row is typed.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: sc (6)
Rnd 3: (sc, inc) x3 (9)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: sc in each st around (6)
Rnd 3: (sc, inc) x3 (9)
\`\`\`
`,
  check(pattern) {
    return onceWritten(pattern).flatMap(({ row, span, saysOne }) =>
      saysOne ? [] : [found(shift(span, row.line.start), row)],
    );
  },
};

function found(span: Span, row: WorkedRow): Found {
  return {
    span,
    message: say`${says(rowName(row), "comes")} out right only if this is worked again and again to the end, and that is not said. Write "in each st around", or how often.`,
    fixes: [throughout(span, row)],
    related: [],
  };
}

/** `sc` → `sc in each st around`. */
function throughout({ start, end }: Span, { line }: WorkedRow): Fix {
  const typed = line.text.slice(start - line.start, end - line.start);
  const far = line.head?.word === "row" ? "across" : "around";
  const newText = /\bin\b/i.test(typed) ? `${typed} ${far}` : `${typed} in each st ${far}`;
  return { title: say`Write "${newText}"`, edits: () => [{ span: { start, end }, newText }] };
}
