import { forSize } from "../fabric/instructions";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { readRowReferences } from "../notation/row-references";
import type { Span } from "../text/span";
import type { Fix, RowRule } from "./rule";
import { rowName, says } from "./wording";

/** A row is repeated or worked into that does not stand above. */
export const noSuchRow: RowRule = {
  id: "no-such-row",
  severity: "warning",
  documentation: `## What it finds
A row that repeats another row, or is worked into another row, which is nowhere above it.

## Why it matters
It cannot be worked. Mostly rows were renumbered, and the number in the sentence was left as it was.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: sc in each st around (12)
Rnd 4: Rep Rnd 5. (12)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: sc in each st around (12)
Rnd 4: Rep Rnd 3. (12)
\`\`\`
`,
  check(row, piece) {
    if (row.fault?.sort !== "no-such-row") return [];
    const { number, piece: other } = row.fault;
    const span = spanOf(row, number);
    const meant = other === null ? rowMeant(row, piece) : null;
    const ask = meant === null ? "" : ` Did you mean ${meant}?`;
    const where = other === null ? "above it" : `in the ${other}`;
    const message = `${says(rowName(row), "names")} row ${number}, and there is no row ${number} ${where}.${ask}`;
    return [{ span, message, fixes: fixesFor(meant, span), related: [] }];
  },
};

function spanOf({ line }: WorkedRow, number: number): Span {
  const found = readRowReferences(line.text)
    .flatMap(({ numbers }) => numbers)
    .find(({ n }) => n === number);
  return found ? { start: line.start + found.start, end: line.start + found.end } : line.span;
}

/** The nearest row above that makes what this one states. */
function rowMeant(row: WorkedRow, { rows }: WorkedPiece): number | null {
  const above = rows.slice(0, rows.indexOf(row)).filter(({ line }) => line.head?.from != null);
  const like = above.filter((one) => makesAsStated(one, row));
  const meant = (row.line.plan?.stated ? like : above).at(-1);
  const head = meant?.line.head;
  return head ? (head.to?.at(-1) ?? head.from) : null;
}

function makesAsStated({ outcome }: WorkedRow, { line }: WorkedRow): boolean {
  const [stated] = line.plan?.stated ?? [];
  return outcome?.makes.every((n, size) => stated && n === forSize(stated.n, size)) ?? false;
}

function fixesFor(meant: number | null, span: Span): Fix[] {
  if (meant === null) return [];
  return [{ title: `Write row ${meant} instead`, edits: () => [{ span, newText: `${meant}` }] }];
}
