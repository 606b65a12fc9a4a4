import { multipleOf } from "../fabric/multiple";
import { perPiece } from "../fabric/parts";
import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import { stitchOf } from "../trade/stitches";
import { heightInWidths } from "./proportions";
import { stitchesOf } from "./stitch-counts";

/** What the rows of a pattern tell of a gauge that leaves it open. */
export interface MainStitch {
  /** The plain stitch that most stitches are, by its US name; a single crochet where there is none. */
  readonly stitch: string;
  /** Height of its row in widths of a stitch; the mean, to a tenth, where no stitch is nearly all of the pattern. */
  readonly height: number;
  /** The plain stitches of its pieces, where one is worked in one stitch and another in one much taller. */
  readonly apart: readonly string[];
}

/** One stitch that is so much of a pattern is what its gauge is in. */
const nearlyAll = 0.8;

export function mainStitchOf({ pieces }: WorkedPattern): MainStitch {
  const sums = new Map<string, number>();
  for (const piece of pieces)
    for (const [plain, n] of plainStitchesIn(piece))
      sums.set(plain, (sums.get(plain) ?? 0) + n * piece.piece.make);
  const [[stitch, most] = ["sc", 0]] = [...sums].sort((a, b) => b[1] - a[1]);
  const all = [...sums.values()].reduce((sum, n) => sum + n, 0);
  const heights = [...sums].reduce((sum, [plain, n]) => sum + n * heightInWidths(plain), 0);
  const height = most >= nearlyAll * all ? heightInWidths(stitch) : Math.round((heights / all) * 10) / 10;
  return { stitch, height, apart: apartIn(pieces, all) };
}

/** Pieces of less than this share of the stitches are edgings and the like. */
const considerable = 0.25;
const muchTaller = 1.5;

function apartIn(pieces: readonly WorkedPiece[], all: number): string[] {
  const stitches = new Map<string, number>();
  for (const piece of pieces) {
    const sums = [...plainStitchesIn(piece)].sort((a, b) => b[1] - a[1]);
    const own = sums.reduce((sum, [, n]) => sum + n, 0);
    const [[stitch, n] = ["sc", 0]] = sums;
    if (n >= nearlyAll * own) stitches.set(stitch, (stitches.get(stitch) ?? 0) + n * piece.piece.make);
  }
  const large = [...stitches].filter(([, n]) => n >= considerable * all).map(([stitch]) => stitch);
  const heights = large.map(heightInWidths);
  return Math.max(...heights) >= muchTaller * Math.min(...heights) ? large : [];
}

/** Stitches of one pattern repeat, by the first row that has one; null where none has. */
export function repeatOf({ pieces }: WorkedPattern): number | null {
  return pieces.map(repeatIn).find((one) => one !== null) ?? null;
}

/** How many stitches of a piece, in its first size, are of each plain stitch or built on it. */
const plainStitchesIn = perPiece(({ rows, context }: WorkedPiece): ReadonlyMap<string, number> => {
  const sums = new Map<string, number>();
  for (const row of rows)
    for (const [key, n] of countsOf(row)) {
      const plain = stitchOf(key.split(/[*<]/)[0] ?? key, context.terms)?.base;
      if (plain) sums.set(plain, (sums.get(plain) ?? 0) + n);
    }
  return sums;
});

/** All that a row counts in its first size. */
function countsOf(row: WorkedRow): [string, number][] {
  return (stitchesOf(row)[0] ?? []).flatMap((turn) => [...turn.values()].flatMap((counts) => [...counts]));
}

/** The multiple of the first row that has one. */
const repeatIn = perPiece(({ rows }: WorkedPiece): number | null => {
  for (const { outcome, result } of rows) {
    const multiple = outcome && result === "ok" ? multipleOf(outcome, 0) : null;
    if (multiple && multiple.of > 1) return multiple.of;
  }
  return null;
});
