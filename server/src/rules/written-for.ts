import { forSize } from "../fabric/instructions";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import type { Finding } from "./rule";
import { numbers, rowName, says } from "./wording";

/** Later rows that fit the count this row states, not what it makes: one slip, one query. */
export function laterRows(row: WorkedRow, piece: WorkedPiece): readonly WorkedRow[] {
  return piece.rows.filter((later) => later.after === row.line && later.result === "ok");
}

/** The later rows as places to look at. */
export function writtenFor(row: WorkedRow, piece: WorkedPiece): Finding["related"] {
  return laterRows(row, piece).map((later) => ({
    span: later.line.span,
    message: isWrittenFor(later, row)
      ? say`${says(rowName(later), "is")} written for ${numbers(later.outcome?.has ?? [])}.`
      : say`${says(rowName(later), "goes")} on from there.`,
  }));
}

/** Whether the row itself is worked over the stated number, not over what became of it. */
function isWrittenFor(later: WorkedRow, { line }: WorkedRow): boolean {
  const stated = line.plan?.stated ?? [];
  const has = later.outcome?.has ?? [];
  return has.some((_, size) => {
    const all = stated
      .filter(({ sort }) => sort !== "space" && sort !== "chain")
      .map(({ n }) => forSize(n, size));
    return all.length > 0 && all.reduce((sum: number, n) => sum + (n ?? 0), 0) === has[size];
  });
}
