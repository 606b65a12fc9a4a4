import { perPiece } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import type { Span } from "../text/span";
import type { Found, PatternRule } from "./rule";
import { headOf, rowName, says } from "./wording";

/** A range of rows says how many it has, and has another number. */
export const wrongNumberOfRows: PatternRule = {
  id: "wrong-number-of-rows",
  severity: "warning",
  documentation: `## What it finds
A range of rows with a remark on how many they are that does not go with its numbers: "Rnds 5-9 … (6 rnds)".

## Why it matters
Makers go by the one or by the other, and the next row does not bear the number that they have reached.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnds 3-7: sc in each st around (12) (6 rnds)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnds 3-7: sc in each st around (12) (5 rnds)
\`\`\`
`,
  check({ pieces }) {
    return pieces.flatMap((piece) =>
      slipsIn(piece).map(({ at, ...slip }) => found(piece.rows[at] as WorkedRow, slip)),
    );
  },
};

/** What a range says of itself; the span counts from the start of its instructions. */
interface Slip {
  readonly n: number;
  readonly said: number;
  readonly span: Span;
}

const slipsIn = perPiece(({ rows }) =>
  rows.flatMap((row, at) => {
    const slip = slipOf(row);
    return slip ? [{ ...slip, at }] : [];
  }),
);

/** `(6 rnds)`, `- 6 rnds`: nothing stands behind it. */
const remark = /(?:[([–—-])\s*(\d{1,3})\s+(?:rows|rnds|rounds)\s*[)\]]?\.?\s*$/i;

function slipOf({ line: { head, text } }: WorkedRow): Slip | null {
  const [to, ...others] = head?.to ?? [];
  const match = others.length === 0 && head?.from != null && to != null ? remark.exec(text) : null;
  if (!match || head?.from == null || to == null) return null;
  const [said, n] = [Number(match[1]), to - head.from + 1];
  const start = match.index + match[0].indexOf(match[1] as string);
  return said === n || /[,&]|\band\b/i.test(head.text)
    ? null
    : { n, said, span: { start, end: start + `${said}`.length } };
}

function found(row: WorkedRow, { n, said, span: { start, end } }: Slip): Found {
  const span = { start: row.line.start + start, end: row.line.start + end };
  const noun = row.line.head?.word === "round" ? "rounds" : "rows";
  return {
    span,
    message: `${says(rowName(row), "is")} ${n} ${noun}, and the line says ${said}. Which is meant?`,
    fixes: [{ title: `Write ${n}`, edits: () => [{ span, newText: `${n}` }] }],
    related: [{ span: headOf(row), message: `Its numbers make ${n} ${noun}.` }],
  };
}
