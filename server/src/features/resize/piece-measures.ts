import type { WorkedPattern, WorkedPiece } from "../../fabric/worked";
import { isInRounds } from "../../measure/row-shape";
import { type RoundOfPiece, roundsOf, sizeOf } from "../../measure/size";
import { yarnUseOf } from "../../measure/yarn-used";
import { frontMatterOf } from "../../notation/front-matter/front-matter";
import { rowsOf, type Silhouette } from "../../reshape/resize/silhouette";
import { convertLength } from "../../trade/units";

/** Which length of a piece is asked for. */
export type Side = "wide" | "around" | "across" | "high" | "fit";

/** A piece as far as another size of it needs; lengths in millimetres. */
export interface PieceMeasures {
  readonly shape: Silhouette;
  readonly isRound: boolean;
  /** What a length that says no more is of. */
  readonly usualSide: Exclude<Side, "high" | "fit">;
  /** Width of a stitch; null without a gauge. */
  readonly stitch: number | null;
  /** Height of a plain row; null where the gauge tells no rows. */
  readonly row: number | null;
  readonly high: number | null;
  /** Rows that keep the width. */
  readonly plainRows: number;
  /** What the body is around that it is to fit; null where the pattern tells none. */
  readonly body: number | null;
}

export function measuresOf(pattern: WorkedPattern, piece: WorkedPiece, shape: Silhouette): PieceMeasures {
  const { basis, paths } = yarnUseOf(pattern).ground;
  const gauge = basis?.gauge ?? null;
  const size = basis && gauge ? sizeOf(piece, 0, basis, paths) : null;
  const isRound = isInRounds(piece.rows);
  const isFlatRound = size?.shape === "disc" || size?.shape === "square" || size?.shape === "ruffle";
  const rounds = basis && gauge ? roundsOf(piece, 0, basis, paths) : null;
  const wide = shape.rungs.slice(shape.first + 1, shape.last + 1);
  return {
    shape,
    isRound,
    usualSide: isRound ? (isFlatRound ? "across" : "around") : "wide",
    stitch: gauge?.width ?? null,
    row: rounds && gauge?.height != null ? plainRow(rounds) : null,
    high:
      size?.shape === "ball" && rounds
        ? stuffed(rounds, shape)
        : size && "height" in size
          ? size.height
          : null,
    plainRows: wide.reduce((sum, { row }) => sum + rowsOf(row), 0),
    body: bodyOf(pattern),
  };
}

type Rounds = readonly RoundOfPiece[];

/** Of the line that stands for most rows. */
function plainRow(rounds: Rounds): number | null {
  const heights = rounds.map(({ along, rows }, i) => ({
    height: (along - (rounds[i - 1]?.along ?? 0)) / rows,
    rows,
  }));
  const most = heights.reduce((best, one) => (one.rows > best.rows ? one : best), { height: 0, rows: 0 });
  return most.height || null;
}

/** How high a closed piece stands that is stuffed: its ends round off, each a quarter of a circle from side to tip. */
function stuffed(rounds: Rounds, { rungs, first, last }: Silhouette): number {
  const alongAt = (i: number): number => rounds.findLast(({ row }) => row === rungs[i]?.row)?.along ?? 0;
  const straight = alongAt(last) - alongAt(first);
  return straight + ((rounds.at(-1)?.along ?? 0) - straight) * (2 / Math.PI);
}

function bodyOf({ lines }: WorkedPattern): number | null {
  const fit = frontMatterOf(lines).measurements.find(({ title }) => /\bfit\b/i.test(title?.text ?? ""));
  const [length] = fit?.lengths ?? [];
  const [value] = length?.values ?? [];
  return length && value !== undefined && length.values.length === 1
    ? convertLength(value, length.unit, "mm")
    : null;
}
