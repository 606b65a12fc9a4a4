import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { figuresOf, rounded } from "./figures";
import type { YarnSums, YarnUse } from "./yarn-used";

/** Millimetres, all yarns together, one number a size; null where it is not known. */
export type YarnLengths = readonly (number | null)[];

/** The yarn of a row. */
export function rowYarn(row: WorkedRow, piece: WorkedPiece, use: YarnUse): YarnLengths {
  return inOne(use.ofRow(row, piece));
}

/** The yarn of every row of a piece, in their order. */
export function rowsYarn(piece: WorkedPiece, use: YarnUse): readonly YarnLengths[] {
  return use.ofRows(piece).map(inOne);
}

function inOne(sums: readonly YarnSums[]): YarnLengths {
  return sums.map((one) => (one.size === 0 ? null : sumOf(one)));
}

/** Lengths in metres, to the figures that their basis deserves; null where nothing is known for any size. */
export function inMetres(lengths: YarnLengths, { ground: { basis } }: YarnUse): YarnLengths | null {
  if (basis === null) return null;
  const metres = lengths.map((mm) => (mm === null ? null : rounded(mm / 1000, figuresOf(basis))));
  return metres.some((n) => n !== null) ? metres : null;
}

export function sumOf(sums: YarnSums): number {
  let sum = 0;
  for (const n of sums.values()) sum += n;
  return sum;
}
