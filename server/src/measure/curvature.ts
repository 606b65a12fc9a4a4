import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { Basis } from "./basis";
import { isInRounds, longestFlatChain } from "./row-shape";
import { coreOf, flatAround, flatWithin, fullness, type RoundOfPiece, roundsOf } from "./size";
import type { StitchPaths } from "./stitch-paths";

/** How the last round of a line lies, against a flat disc of the same rounds. */
export interface Curvature {
  readonly lies: "flat" | "cups" | "ruffles";
  /** Stitches and chains that the round has, and those with which it would lie flat. */
  readonly has: number;
  readonly flatCount: number;
  /** Stitches that each round of this height adds in a flat disc: 2 pi x height / width. */
  readonly rate: number;
  readonly row: WorkedRow;
}

/**
 * How the rounds of a piece that is worked from its middle lie, in order, up to the first arches of chains,
 * which hang as they are pinned; null for other pieces, and for those with corners, which are meant to have more.
 */
export function curvatureOf(
  piece: WorkedPiece,
  size: number,
  basis: Basis,
  paths: StitchPaths,
): readonly Curvature[] | null {
  return isInRounds(piece.rows) ? lieOf(piece, roundsOf(piece, size, basis, paths), basis) : null;
}

/** The same of rounds that are laid out already. */
export function lieOf(
  piece: WorkedPiece,
  rounds: readonly RoundOfPiece[] | null,
  basis: Basis,
): readonly Curvature[] | null {
  if (!isInRounds(piece.rows)) return null;
  const core = rounds && coreOf(piece.rows, rounds);
  if (rounds === null || core === null || rounds.some(({ corners }) => corners === 4)) return null;
  const open = rounds.findIndex(({ longest }) => longest > longestFlatChain);
  return (open < 0 ? rounds : rounds.slice(0, open)).map((round) => curvature(round, core, basis));
}

function curvature(round: RoundOfPiece, core: number, { size }: Basis): Curvature {
  const full = fullness(round, core);
  const lies = full > 1 + flatWithin ? "ruffles" : full < 1 - flatWithin ? "cups" : "flat";
  const flatCount = flatAround(round.along, core) / size.width;
  return {
    lies,
    has: round.width,
    flatCount,
    rate: flatRate(round.height * size.rise, size.width),
    row: round.row,
  };
}

/** Stitches to begin with, and to add in each round, so that a disc lies flat. Geometry: the round at radius r is 2 pi r long. */
export function flatRate(height: number, width: number): number {
  return (2 * Math.PI * height) / width;
}
