import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import type { PatternLine } from "../../notation/lines";
import type { WorkedPattern } from "../../rules/rule";
import { keptBy } from "../../text/kept-by";
import { piecesNamedIn } from "../named-pieces";
import { pieceAround } from "../placed-row";

/** Rows of one line; a range of more is known by its first ones. */
const longestRange = 2_000;

/** The rows of a piece by each number they bear. */
const byNumber = keptBy(({ rows }: WorkedPiece): ReadonlyMap<number, WorkedRow> => {
  const found = new Map<number, WorkedRow>();
  for (const row of rows) {
    const from = row.line.head?.from;
    if (from == null) continue;
    const last = Math.max(from, ...(row.line.head?.to ?? []).map((n) => n ?? from));
    for (let n = from; n <= Math.min(last, from + longestRange); n++) if (!found.has(n)) found.set(n, row);
  }
  return found;
});

export function rowNumbered(piece: WorkedPiece, n: number): WorkedRow | undefined {
  return byNumber(piece).get(n);
}

/** The pieces whose rows a line of prose may mean: those it names, else the one it stands in. */
export function piecesMeant(pattern: WorkedPattern, { text, start }: PatternLine): readonly WorkedPiece[] {
  const named = piecesNamedIn(pattern, text);
  const around = pieceAround(pattern, start);
  return named.length === 0 && around ? [around] : named;
}
