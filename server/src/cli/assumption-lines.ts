import { plainLine } from "../text/plain-line";
import type { FileEntry, PieceEntry } from "./report-shape";

/** Rows named with an assumption before the rest are only counted. */
const NAMED_ROWS = 4;

/** What was taken for granted where another reading would have changed the numbers, and in which rows. */
export function assumptionLines({ pieces }: FileEntry): string[] {
  return pieces.flatMap(linesOf);
}

function linesOf(piece: PieceEntry): string[] {
  const heads = new Map<string, string[]>();
  for (const { assumptions, head } of piece.rows) {
    for (const assumption of assumptions)
      heads.set(assumption, [...(heads.get(assumption) ?? []), plainLine(head)]);
  }
  return [...heads].map(
    ([assumption, rows]) => `Assuming (${namesOf(piece, rows)}): ${plainLine(assumption)}`,
  );
}

function namesOf({ name }: PieceEntry, heads: readonly string[]): string {
  const named = [plainLine(name), ...heads.slice(0, NAMED_ROWS)].filter((part) => part !== "").join(", ");
  const rest = heads.length - NAMED_ROWS;
  return rest > 0 ? `${named} and ${rest} more` : named;
}
