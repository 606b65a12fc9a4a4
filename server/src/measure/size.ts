import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { Basis } from "./basis";
import { lengthAsked, passesTo } from "./open-rows";
import { isInRounds, longestFlatChain, type RowShape, shapesOf, startsInMiddle } from "./row-shape";
import type { StitchPaths } from "./stitch-paths";

/** How a piece lies when it is done; lengths in millimetres. */
export type PieceSize =
  /** Back and forth. */
  | {
      readonly shape: "flat";
      readonly width: number;
      readonly narrowest: number;
      readonly height: number;
      readonly firstEdge: number;
      readonly lastEdge: number;
    }
  /** Worked back and forth from the middle of its long edge, as shawls are. */
  | {
      readonly shape: "half disc" | "half square";
      readonly width: number;
      readonly height: number;
    }
  /** Worked from the middle, or from a chain with a long middle, and flat; `across` is a side of a square or triangle. */
  | {
      readonly shape: "disc" | "square" | "triangle" | "ruffle";
      readonly across: number;
      readonly length: number;
      readonly around: number;
    }
  /** Worked around: a cup is closed at one end, a ball at both, a tube at neither. */
  | {
      readonly shape: "cup" | "ball" | "tube";
      readonly across: number;
      readonly length: number;
      readonly around: number;
      readonly height: number;
      /** The edge it ends with. */
      readonly opening: number;
    };

/** One round of a piece, or several alike, with what leads to it. */
export interface RoundOfPiece extends RowShape {
  /** Millimetres along the fabric from the middle, or the starting edge, to the end of these rounds. */
  readonly along: number;
  readonly around: number;
  /** The line they are told in. */
  readonly row: WorkedRow;
}

/** The rows of a piece for one size, in order. */
interface Layout {
  /** Null where one of them is not known. */
  readonly rounds: readonly RoundOfPiece[] | null;
  /** How often open ranges are worked; null where nothing tells. */
  readonly passes: ReadonlyMap<WorkedRow, number | null>;
}

/** The rows of a piece for one size, in millimetres; null where one of them is not known. */
export function roundsOf(
  piece: WorkedPiece,
  size: number,
  basis: Basis,
  paths: StitchPaths,
): readonly RoundOfPiece[] | null {
  return layOut(piece, size, basis, paths).rounds;
}

export function layOut(piece: WorkedPiece, size: number, basis: Basis, paths: StitchPaths): Layout {
  const layer = new Layer(basis);
  for (const row of piece.rows)
    if (row.line.kind !== "foundation") layer.add(row, size, shapesOf(row, size, layer.last, paths));
  return layer;
}

class Layer implements Layout {
  readonly passes = new Map<WorkedRow, number | null>();
  private readonly found: RoundOfPiece[] = [];
  private along = 0;
  private isKnown = true;

  constructor(private readonly basis: Basis) {}

  get rounds(): readonly RoundOfPiece[] | null {
    return this.isKnown ? this.found : null;
  }

  get last(): RowShape | null {
    return this.found.at(-1) ?? null;
  }

  add(row: WorkedRow, size: number, shapes: readonly RowShape[] | null): void {
    const passes = row.times === null ? this.passesOf(row, size, shapes) : 1;
    if (row.times === null) this.passes.set(row, passes);
    if (shapes === null || passes === null) this.isKnown = false;
    for (const shape of shapes ?? []) this.put(row, shape, shape.rows * (passes ?? 1));
  }

  private passesOf(row: WorkedRow, size: number, shapes: readonly RowShape[] | null): number | null {
    const asked = lengthAsked(row, size);
    if (asked === null || shapes === null || (asked.from === "start" && !this.isKnown)) return null;
    const high = shapes.reduce((sum, { height, rows }) => sum + height * rows, 0) * this.basis.size.rise;
    return passesTo(asked, this.along, high);
  }

  private put(row: WorkedRow, shape: RowShape, rows: number): void {
    this.along += shape.height * this.basis.size.rise * rows;
    const around = shape.width * this.basis.size.width;
    this.found.push({ ...shape, rows, along: this.along, around, row });
  }
}

/** The finished size of a piece in one size; null where a row of it is not known. */
export function sizeOf(piece: WorkedPiece, size: number, basis: Basis, paths: StitchPaths): PieceSize | null {
  const rounds = roundsOf(piece, size, basis, paths);
  const last = rounds?.at(-1);
  if (!rounds || !last || !rounds.some(({ around }) => around > 0)) return null;
  if (!isInRounds(piece.rows)) return halfOf(piece.rows, rounds, last) ?? flat(rounds, last);
  const core = coreOf(piece.rows, rounds);
  return core === null ? tube(rounds, last) : fromMiddle(rounds, last, core);
}

/** Rows from a ring that lie in half a circle, or in half a square if they turn one corner. */
function halfOf(
  rows: readonly WorkedRow[],
  rounds: readonly RoundOfPiece[],
  { along, around, corners }: RoundOfPiece,
): PieceSize | null {
  if (!startsInMiddle(rows) || rounds.length < 2 || along <= 0) return null;
  const isLike = (full: number): boolean => Math.abs(around / along / full - 1) <= flatWithin;
  if (corners === 1 && isLike(4))
    return { shape: "half square", width: around / Math.SQRT2, height: along * Math.SQRT2 };
  return isLike(Math.PI) ? { shape: "half disc", width: 2 * along, height: along } : null;
}

function flat(rounds: readonly RoundOfPiece[], last: RoundOfPiece): PieceSize {
  const widths = rounds.map(({ around }) => around);
  return {
    shape: "flat",
    width: Math.max(...widths),
    narrowest: Math.min(...widths),
    height: last.along,
    firstEdge: widths[0] ?? 0,
    lastEdge: last.around,
  };
}

/** How long the middle is that rounds are worked about: 0 for a ring; null where the middle is open. */
export function coreOf(rows: readonly WorkedRow[], [first]: readonly RoundOfPiece[]): number | null {
  if (startsInMiddle(rows)) return 0;
  const isOval = rows.some(({ line }) => line.plan?.instructions.some(({ op }) => op === "other-side"));
  return isOval && first ? Math.max((first.around - 2 * Math.PI * first.along) / 2, 0) : null;
}

/** Rounds that are this much longer or shorter than those of a flat disc still lie flat when pressed. */
export const flatWithin = 0.2;

/** Length of a round by that of a flat one as far from the middle. */
export function fullness({ around, along }: RoundOfPiece, core: number): number {
  return along > 0 ? around / flatAround(along, core) : 1;
}

/** A round at so much from the middle, in a piece that lies flat. */
export function flatAround(along: number, core: number): number {
  return 2 * core + 2 * Math.PI * along;
}

/** Corners add to the length of a round: a square one is 8 by its half side, a round one 2 pi by its radius. */
function roundnessOf(corners: number): number {
  return corners === 3 || corners === 4 ? (corners * Math.tan(Math.PI / corners)) / Math.PI : 1;
}

function fromMiddle(rounds: readonly RoundOfPiece[], last: RoundOfPiece, core: number): PieceSize {
  const corners = rounds.length > 1 ? last.corners : 0;
  const full = fullness(last, core) / roundnessOf(corners);
  const { around, along } = last;
  const lying = { across: 2 * along, length: 2 * along + core, around };
  const isFlat = full >= 1 - flatWithin || spreadsOpen(rounds);
  if (corners === 4 && isFlat) return { shape: "square", ...lying };
  if (corners === 3 && isFlat && full <= 1 + flatWithin)
    return { shape: "triangle", ...lying, across: around / 3, length: around / 3 };
  if (full > 1 + flatWithin && !isOpen(rounds)) return { shape: "ruffle", ...lying };
  if (isFlat) return { shape: "disc", ...lying };
  return standing(rounds, last, core);
}

/** Stitches that a tail draws together. */
const closable = 8;

function standing(rounds: readonly RoundOfPiece[], { around, width }: RoundOfPiece, core: number): PieceSize {
  const widest = Math.max(...rounds.map((round) => round.around));
  const wide = Math.max((widest - 2 * core) / Math.PI, 0);
  const isBall = around < widest / 3 || (width <= closable && around < 0.6 * widest);
  return {
    shape: isBall ? "ball" : "cup",
    across: wide,
    length: wide + core,
    around: widest,
    height: isBall ? stuffed(rounds, widest) : depth(rounds, core),
    opening: around,
  };
}

function isOpen(rounds: readonly RoundOfPiece[]): boolean {
  return rounds.some(({ longest }) => longest > longestFlatChain);
}

/** Arches of chains are pinned out flat, unless most rounds stop growing: then they stand up, as those of a net bag. */
function spreadsOpen(rounds: readonly RoundOfPiece[]): boolean {
  if (!isOpen(rounds)) return false;
  const still = rounds.reduce((sum, { around, height, rows }, i) => {
    const grows = around > 1.01 * (rounds[i - 1]?.around ?? 0);
    return sum + height * (grows ? rows - 1 : rows);
  }, 0);
  return still < rounds.reduce((sum, { height, rows }) => sum + height * rows, 0) / 2;
}

/**
 * How high a closed piece stands that is stuffed. A ball has as many even rounds as rounds that grow, and again as
 * many that shrink: half its way around, pi by radius (sphere rule, k + k + k rounds); further even rounds add
 * their height.
 */
function stuffed(rounds: readonly RoundOfPiece[], widest: number): number {
  const isWide = ({ around }: RoundOfPiece): boolean => around > 0.95 * widest;
  const [first, last] = [rounds.findIndex(isWide), rounds.findLastIndex(isWide)];
  const along = rounds.at(-1)?.along ?? 0;
  const straight = (rounds[last]?.along ?? 0) - (rounds[first]?.along ?? 0);
  const round = Math.min(along, 1.5 * (along - straight));
  return (round * 2) / Math.PI + along - round;
}

function tube(rounds: readonly RoundOfPiece[], last: RoundOfPiece): PieceSize {
  const widest = Math.max(...rounds.map(({ around }) => around));
  const across = widest / Math.PI;
  return { shape: "tube", across, length: across, around: widest, height: last.along, opening: last.around };
}

/** How high rounds stand: what of their height is not taken up by going outward or inward. */
function depth(rounds: readonly RoundOfPiece[], core: number): number {
  let [sum, along, radius] = [0, 0, 0];
  for (const round of rounds) {
    const now = (round.around - 2 * core) / (2 * Math.PI);
    const [high, out] = [round.along - along, now - radius];
    sum += Math.sqrt(Math.max(high * high - out * out, 0));
    [along, radius] = [round.along, now];
  }
  return sum;
}
