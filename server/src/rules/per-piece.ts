import type { WorkedPiece } from "../fabric/worked";

/** Something read from the rows of a piece once; what it gives must not hold places in the text. */
export function perPiece<T>(read: (piece: WorkedPiece) => T): (piece: WorkedPiece) => T {
  const kept = new WeakMap<object, { readonly value: T }>();
  return (piece) => {
    const known = kept.get(piece.work) ?? { value: read(piece) };
    kept.set(piece.work, known);
    return known.value;
  };
}
