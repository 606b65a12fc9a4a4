import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { WorkedPattern } from "../rules/rule";
import type { PlacedRow } from "./pattern-index";

/** Stitches, one number a size. Starting chains, chains and spaces are in none of them. */
export type Total = readonly number[];

export interface RunningTotals {
  /** Of a piece up to a row of it, that row and all its repeats included. */
  upTo(row: WorkedRow): Total;
  /** Of one piece, made once. */
  ofPiece(piece: WorkedPiece): Total;
  /** Of the whole pattern up to a row: the pieces before it as often as they are made, its own once. */
  ofPatternUpTo(row: WorkedRow): Total;
  /** Of the whole pattern, each piece as often as it is made. */
  readonly ofPattern: Total;
  /** The rows whose stitches nobody knows, and which are in no total. */
  readonly leftOut: readonly PlacedRow[];
}

const known = new WeakMap<WorkedPattern, RunningTotals>();

/** Prefix sums over all rows, worked out once for each version of a pattern. */
export function runningTotals(pattern: WorkedPattern): RunningTotals {
  let totals = known.get(pattern);
  if (!totals) {
    totals = new Sums(pattern);
    known.set(pattern, totals);
  }
  return totals;
}

class Sums implements RunningTotals {
  readonly leftOut: PlacedRow[] = [];
  readonly ofPattern: Total;
  private readonly inPiece = new Map<WorkedRow, Total>();
  private readonly before = new Map<WorkedRow, Total>();
  private readonly wholes = new Map<WorkedPiece, Total>();

  constructor({ pieces, context }: WorkedPattern) {
    const nothing: Total = context.sizes.map(() => 0);
    let sum = nothing;
    for (const piece of pieces) {
      const whole = this.addRows(piece, nothing, sum);
      this.wholes.set(piece, whole);
      sum = plus(sum, whole, piece.piece.make);
    }
    this.ofPattern = sum;
  }

  private addRows(piece: WorkedPiece, nothing: Total, before: Total): Total {
    let sum = nothing;
    for (const row of piece.rows) {
      const made = stitchesOf(row);
      if (made) sum = plus(sum, made, 1);
      else this.leftOut.push({ row, piece });
      this.inPiece.set(row, sum);
      this.before.set(row, before);
    }
    return sum;
  }

  upTo(row: WorkedRow): Total {
    return this.inPiece.get(row) ?? [];
  }

  ofPiece(piece: WorkedPiece): Total {
    return this.wholes.get(piece) ?? [];
  }

  ofPatternUpTo(row: WorkedRow): Total {
    return plus(this.before.get(row) ?? [], this.upTo(row), 1);
  }
}

/** What a row adds, all its repeats together; null where that is not known. */
function stitchesOf(row: WorkedRow): readonly (number | null)[] | null {
  if (row.line.kind === "foundation") return [];
  const { outcome } = row;
  if (outcome === null || row.result === "unchecked" || row.times === null) return null;
  const all = row.others.map(({ inAll }) => inAll.join());
  if (new Set([outcome.inAll.join(), ...all]).size > 1) return null;
  return outcome.inAll.every((n, size) => n !== null || outcome.makes[size] === null) ? outcome.inAll : null;
}

function plus(a: Total, b: readonly (number | null)[], times: number): Total {
  return a.map((n, size) => n + (b[size] ?? 0) * times);
}
