import type { WorkedPattern, WorkedPiece } from "../fabric/worked";
import { say } from "../text/say";
import type { Basis } from "./basis";
import { inBothUnits } from "./lengths";
import { isInRounds } from "./row-shape";
import { roundsOf, sizeOf } from "./size";
import type { StitchPaths } from "./stitch-paths";
import type { YarnUse } from "./yarn-used";

const cord = /\b(?:cord|drawstring|tie|lace|string)s?\b/i;

/** Whether a cord is long enough for the round of eyelets it is laced through, and what is left to tie; for each size. */
export function cordNotes(
  { pieces, context }: WorkedPattern,
  { ground: { basis, paths } }: YarnUse,
): string[] {
  if (basis?.gauge == null) return [];
  const notes = context.sizes.map((_, size) => {
    const around = eyeletsAround(pieces, size, basis, paths);
    if (around === null) return [];
    return pieces
      .filter(({ piece }) => cord.test(piece.name))
      .flatMap((piece) => {
        const own = sizeOf(piece, size, basis, paths);
        return own?.shape === "flat" ? [cordNote(piece, Math.max(own.width, own.height), around)] : [];
      });
  });
  const isAlike = notes.every((each) => each.join() === notes[0]?.join());
  return isAlike
    ? (notes[0] ?? [])
    : notes.flatMap((each, size) =>
        each.map((note) => say`Size ${context.sizes[size] ?? size + 1}: ${note}`),
      );
}

function cordNote({ piece: { name } }: WorkedPiece, long: number, around: number): string {
  const ends = (long - around) / 2;
  const told = say`${name} is ${inBothUnits(long)} long, and the eyelets go ${inBothUnits(around)} around`;
  return ends > 0
    ? say`${told}: laced through once, ${inBothUnits(ends)} is left at each end to tie.`
    : say`${told}: it is too short to be laced through and tied.`;
}

/** Length of the round of eyelets: one that calls itself so. */
function eyeletsAround(
  pieces: readonly WorkedPiece[],
  size: number,
  basis: Basis,
  paths: StitchPaths,
): number | null {
  for (const piece of pieces) {
    if (!isInRounds(piece.rows)) continue;
    const round = roundsOf(piece, size, basis, paths)?.find(
      ({ row: { line }, spaces }) =>
        spaces > 0 && /\beyelets?\b/i.test(`${line.head?.label ?? ""} ${line.text}`),
    );
    if (round) return round.around;
  }
  return null;
}
