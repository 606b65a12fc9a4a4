import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { figuresOf, rounded } from "./figures";
import type { YarnSums, YarnUse } from "./yarn-used";

/** The yarn of a row in millimetres, all yarns together, one number a size; null where it is not known. */
export function rowYarn(row: WorkedRow, piece: WorkedPiece, use: YarnUse): readonly (number | null)[] {
  return use.ofRow(row, piece).map((sums) => (sums.size === 0 ? null : sumOf(sums)));
}

/** The same in metres, to the figures that its basis deserves; null where nothing is known for any size. */
export function yarnMetres(
  row: WorkedRow,
  piece: WorkedPiece,
  use: YarnUse,
): readonly (number | null)[] | null {
  const { basis } = use.ground;
  if (basis === null) return null;
  const metres = rowYarn(row, piece, use).map((mm) =>
    mm === null ? null : rounded(mm / 1000, figuresOf(basis)),
  );
  return metres.some((n) => n !== null) ? metres : null;
}

export function sumOf(sums: YarnSums): number {
  let sum = 0;
  for (const n of sums.values()) sum += n;
  return sum;
}
