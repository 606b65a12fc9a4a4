import { perPiece } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { WorkedPattern } from "../rules/rule";
import { keptBy } from "../text/kept-by";
import type { PlacedRow } from "./placed-row";

/** Stitches, one number a size. Starting chains, chains and spaces are in none of them. */
export type Total = readonly number[];

/** Sums over the rows of a pattern, worked out once for each version of it. */
export const runningTotals = keptBy((pattern: WorkedPattern) => new RunningTotals(pattern));

class RunningTotals {
  /** Of the whole pattern, each piece as often as it is made. */
  readonly ofPattern: Total;
  /** The rows whose stitches nobody knows, and which are in no total. */
  readonly leftOut: readonly PlacedRow[];
  private readonly before = new Map<WorkedPiece, Total>();

  constructor({ pieces, context }: WorkedPattern) {
    let sum: Total = context.sizes.map(() => 0);
    for (const piece of pieces) {
      this.before.set(piece, sum);
      sum = plus(sum, this.ofPiece(piece), piece.piece.make);
    }
    this.ofPattern = sum;
    this.leftOut = pieces.flatMap((piece) =>
      pieceSums(piece).leftOut.map((at) => ({ row: piece.rows[at] as WorkedRow, piece })),
    );
  }

  /** Of one piece, made once. */
  ofPiece(piece: WorkedPiece): Total {
    return pieceSums(piece).upTo.at(-1) ?? piece.context.sizes.map(() => 0);
  }

  /** Of a piece up to a row of it, that row and all its repeats included. */
  upTo({ row, piece }: PlacedRow): Total {
    return pieceSums(piece).upTo[piece.rows.indexOf(row)] ?? [];
  }

  /** Of the whole pattern up to a row: the pieces before it as often as they are made, its own once. */
  ofPatternUpTo(placed: PlacedRow): Total {
    return plus(this.upTo(placed), this.before.get(placed.piece) ?? [], 1);
  }
}

interface PieceSums {
  /** For each row the stitches of all rows up to it. */
  readonly upTo: readonly Total[];
  /** By their index. */
  readonly leftOut: readonly number[];
}

const pieceSums = perPiece(({ rows, context }: WorkedPiece): PieceSums => {
  const upTo: Total[] = [];
  const leftOut: number[] = [];
  let sum: Total = context.sizes.map(() => 0);
  for (const [at, row] of rows.entries()) {
    const made = stitchesOf(row);
    if (made) sum = plus(sum, made, 1);
    else leftOut.push(at);
    upTo.push(sum);
  }
  return { upTo, leftOut };
});

/** What a row adds, all its repeats together; null where that is not known. */
function stitchesOf({ line, outcome, result, times, others }: WorkedRow): readonly (number | null)[] | null {
  if (line.kind === "foundation") return [];
  if (outcome === null || result === "unchecked" || times === null) return null;
  const { inAll, makes } = outcome;
  if (others.some((other) => other.inAll.join() !== inAll.join())) return null;
  return inAll.every((n, size) => n !== null || makes[size] === null) ? inAll : null;
}

function plus(a: Total, b: readonly (number | null)[], times: number): Total {
  return a.map((n, size) => n + (b[size] ?? 0) * times);
}
