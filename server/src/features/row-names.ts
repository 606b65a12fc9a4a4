import { perPiece } from "../fabric/parts";
import type { RowLine } from "../fabric/pattern";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { belowName } from "../rules/wording";
import { say, sayings } from "../text/say";

/** What a row is called: its head, or what it does where it has none. */
export function rowTitle({ line }: Pick<WorkedRow, "line">): string {
  const { kind, head, headText, text } = line;
  if (head !== null) return headText;
  if (kind === "foundation") return say`Starting chain`;
  return text.split(/[.;:(]/)[0]?.trim() || headText;
}

/** What a row stands on: `Rnd 2`, `the starting chain`. */
export function belowTitle(row: WorkedRow, piece: WorkedPiece): string {
  const name = belowName(row, piece);
  return row.below && name === row.below.headText ? rowTitle({ line: row.below }) : name;
}

/** A line that is worked several times: its first row is worked over one count, its last one makes another. */
export function isMany({ times }: WorkedRow): boolean {
  return times?.some((n) => n > 1) ?? true;
}

/** What rows are called, in words to be shown. */
export const rowWords = sayings({ rounds: "rounds", rows: "rows" });

const isTurned = perPiece(({ rows }) => rows.some(({ line }) => line.plan?.turns));

/** What the rows of a line are called. A bare `R` is a round, unless the work of its piece is turned. */
export function roundsOrRows({ head, text }: RowLine, piece: WorkedPiece): "rounds" | "rows" {
  const isRound = head ? head.word === "round" : /\b(?:rnd|round)s?\b/i.test(text);
  const isBare = head !== null && /^r\s*\d/i.test(head.text);
  return isRound && !(isBare && isTurned(piece)) ? "rounds" : "rows";
}
