import { forSize } from "../fabric/instructions";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { type RowReference, readRowReferences } from "../notation/row-references";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { slipsBetween } from "./closest";
import type { Fix, RowRule } from "./rule";
import { listed, rowName, says } from "./wording";

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
    const named = namedWith(row, number);
    const meant = named && other === null ? rowsMeant(named, row, piece) : null;
    const where = other === null ? say`above it` : say`in the ${other}`;
    const ask = meant ? say` Did you mean ${listed(meant.map(String), "and")}?` : "";
    const message = say`${says(rowName(row), "names")} row ${number}, and there is no row ${number} ${where}.${ask}`;
    const one = named?.numbers.find(({ n }) => n === number);
    const span = one ? placed(one, row) : row.line.span;
    return [{ span, message, fixes: named && meant ? [fixFor(named, meant, row)] : [], related: [] }];
  },
};

/** The phrase that names the row: `Rnds 31 and 32`. */
function namedWith({ line }: WorkedRow, number: number): RowReference | null {
  return readRowReferences(line.text).find(({ numbers }) => numbers.some(({ n }) => n === number)) ?? null;
}

function placed({ start, end }: Span, { line }: WorkedRow): Span {
  return { start: line.start + start, end: line.start + end };
}

/**
 * The rows above that the numbers were most likely meant for: one stroke or a renumbering away, all
 * shifted alike, the last of them making what the row states.
 */
function rowsMeant({ numbers }: RowReference, row: WorkedRow, { rows }: WorkedPiece): number[] | null {
  const above = rows.slice(0, rows.indexOf(row));
  const known = new Map(above.flatMap((one) => numbersOf(one).map((n) => [n, one] as const)));
  const [first] = numbers;
  const meant = [...known.keys()].toReversed().flatMap((n) => {
    const shifted = numbers.map((one) => one.n + n - (first?.n ?? 0));
    const last = known.get(shifted.at(-1) ?? 0);
    const isNear = numbers.every((one, i) => isSlip(one.n, shifted[i] ?? 0) && known.has(shifted[i] ?? 0));
    return isNear && last && (!row.line.plan?.stated || makesAsStated(last, row)) ? [shifted] : [];
  });
  return meant[0] ?? null;
}

function numbersOf({ line: { head } }: WorkedRow): number[] {
  const [from, to] = [head?.from ?? null, Math.max(0, ...(head?.to ?? []).map((n) => n ?? 0))];
  if (from === null) return [];
  return to > from && to - from < 200 ? [...Array(to - from + 1).keys()].map((i) => from + i) : [from];
}

/** Rows renumbered by two at most, or a number typed with one stroke wrong. */
function isSlip(typed: number, meant: number): boolean {
  return Math.abs(typed - meant) <= 2 || slipsBetween(`${typed}`, `${meant}`) === 1;
}

function makesAsStated({ outcome }: WorkedRow, { line }: WorkedRow): boolean {
  const [stated] = line.plan?.stated ?? [];
  return outcome?.makes.every((n, size) => stated && n === forSize(stated.n, size)) ?? false;
}

function fixFor({ numbers }: RowReference, meant: readonly number[], row: WorkedRow): Fix {
  const rows = listed(meant.map(String), "and");
  return {
    title: meant.length > 1 ? say`Write rows ${rows} instead` : say`Write row ${rows} instead`,
    edits: () => numbers.map((one, i) => ({ span: placed(one, row), newText: `${meant[i]}` })),
  };
}
