import { copyOf } from "../fabric/copies";
import { type RowPlan, takesIn } from "../fabric/instructions";
import { inPieces } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import type { RowHead } from "../notation/document";
import { say } from "../text/say";
import { linesBetween } from "./outline";
import { renumberFix } from "./renumber";
import { type NumberSlip, numberSlips } from "./row-numbers";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { headOf, listed, rowName, says } from "./wording";

/** A number is missing between two rows of a piece. */
export const rowSkipped: PatternRule = {
  id: "row-skipped",
  severity: "warning",
  documentation: `## What it finds
A row whose number is higher than the next one due, where no line stands for the rows between; also a piece that begins with its row 2. Rows that a repeat, a range or a sentence such as "all even rows" stands for are not missed.

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
    const slips = numberSlips(pattern).filter(({ from, due }) => from > due);
    return [...slips.map((slip) => found(slip, pattern)), ...firstRowsLost(pattern)];
  },
};

/** `Rnd 2` right under its heading, where nothing tells what it is worked on. */
function firstRowsLost(pattern: WorkedPattern): Found[] {
  return lateStarts(pattern).flatMap(({ piece, part: { heading } }) => {
    const row = piece.rows[0] as WorkedRow;
    const top = { start: 0, end: heading?.end ?? 0 };
    const between = linesBetween(pattern, top, row.line.span);
    if (between.some(({ kind, start }) => kind !== "blank" && start >= top.end)) return [];
    const message = say`${says(rowName(row), "is")} the first row here, and nothing tells what it is worked on. Was row 1 left out?`;
    return [{ span: headOf(row), message, fixes: [], related: [] }];
  });
}

const lateStarts = inPieces(({ rows: [first] }) => (first && isLateStart(first) ? [true] : []));

function isLateStart(row: WorkedRow): boolean {
  const { plan } = row.line;
  if (!plan || !isRowTwo(row.line.head) || row.line.sizes !== null || row.below !== null) return false;
  // What stands for other rows, or is told for another reason, speaks for itself.
  if (copyOf(row.line.content) !== null || row.fault !== null) return false;
  const isOwn = plan.outOfReach === null && plan.onRow === null && plan.copies === null;
  return isOwn && plan.unknown.length === 0 && isOnNothing(row, plan);
}

function isRowTwo(head: RowHead | null): boolean {
  return head !== null && head.from === 2 && head.to === null && !head.open;
}

/** Worked on places that nothing tells of: not into a ring, and not along a chain. */
function isOnNothing({ result, outcome, has }: WorkedRow, { instructions, foundation }: RowPlan): boolean {
  if (result === "unchecked") return outcome === null && has === null;
  const takes = takesIn(instructions);
  const onPlaces = takes.length > 0 && takes.every(({ how }) => how !== "nowhere" && how !== "from-hook");
  return foundation === null && onPlaces && (outcome?.needs ?? []).every((n) => n === null);
}

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
