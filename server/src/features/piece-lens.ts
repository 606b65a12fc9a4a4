import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { estimateOf, inWords } from "../measure/figures";
import { sumOf } from "../measure/row-yarn";
import { yarnUseOf } from "../measure/yarn-used";
import type { WorkedPattern } from "../rules/rule";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { roundsOrRows, rowWords } from "./row-names";
import { runningTotals } from "./running-totals";
import { sts } from "./shown/counts";
import { sized } from "./shown/sized";

/** What stands above a piece: `27 rounds, 756 sts`. */
export interface PieceLens {
  /** The piece's heading; its first row where it has none. */
  readonly span: Span;
  readonly title: string;
}

/** One for each piece: its rows, its stitches, and those of all of them where it is made more than once. */
export function pieceLenses(pattern: WorkedPattern): PieceLens[] {
  return pattern.pieces.map((piece) => ({ span: spanOf(piece), title: titleOf(piece, pattern) }));
}

/** A piece without a name begins with its first row, not at the top of the pattern. */
function spanOf({ piece: { name, span }, rows: [first] }: WorkedPiece): Span {
  const { start } = name === "" && first ? first.line.span : span;
  return { start, end: start };
}

function titleOf(piece: WorkedPiece, pattern: WorkedPattern): string {
  const totals = runningTotals(pattern);
  const total = totals.ofPiece(piece);
  const { make } = piece.piece;
  const out = totals.leftOut.filter((row) => row.piece === piece).length;
  return [
    rowsOf(piece),
    stitches(total),
    ...(make > 1 ? [say`make ${make}: ${stitches(total.map((n) => n * make))}`] : []),
    ...yarnOf(piece, pattern),
    ...(out > 0
      ? [
          out === 1
            ? say`without 1 line whose stitches are not known`
            : say`without ${out} lines whose stitches are not known`,
        ]
      : []),
  ].join(", ");
}

/** Of the piece made once. */
function yarnOf(piece: WorkedPiece, pattern: WorkedPattern): string[] {
  const use = yarnUseOf(pattern);
  const { basis } = use.ground;
  if (basis === null) return [];
  const cells = use.ofPiece(piece).map((sums) => `${inWords(estimateOf(sumOf(sums) / 1000, basis))} m`);
  const [first = "", ...rest] = cells;
  const { make } = piece.piece;
  return [
    `${rest.every((cell) => cell === first) ? first : `${first} (${rest.join(", ")})`}${make > 1 ? say` each` : ""}`,
  ];
}

function stitches(total: readonly number[]): string {
  const [only] = total;
  return total.length === 1 && only !== undefined ? sts(only) : say`${sized(total)} sts`;
}

/** `27 rounds`, for each size; `12 rows and more` where a line leaves open how many. */
function rowsOf(piece: WorkedPiece): string {
  const { rows, context } = piece;
  const lines = rows.filter(({ line }) => line.kind !== "foundation");
  const many = context.sizes.map((_, size) => lines.reduce((sum, row) => sum + timesFor(row, size), 0));
  const words = new Set(lines.map(({ line }) => roundsOrRows(line, piece)));
  const [word = "rows"] = words;
  const single = word === "rows" ? say`row` : say`round`;
  const named = words.size > 1 ? say`rows and rounds` : many.every((n) => n === 1) ? single : rowWords(word);
  return `${sized(many)} ${named}${lines.some(({ times }) => times === null) ? say` and more` : ""}`;
}

/** Sizes that do not work a row work it no times. */
function timesFor({ times, outcome }: WorkedRow, size: number): number {
  if (outcome?.counted[size] === null) return 0;
  return (times?.length === 1 ? times[0] : times?.[size]) ?? 0;
}
