import type { WorkedPattern, WorkedPiece } from "../fabric/worked";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { Length } from "../notation/front-matter/lengths";
import { convertLength, printedLength } from "../trade/units";
import type { Basis } from "./basis";
import { sizeOf } from "./size";
import type { StitchPaths } from "./stitch-paths";
import type { YarnUse } from "./yarn-used";

/** `To fit head: 42 (48, 54, 60) cm`: by how much a piece that is worked around, or a back and a front together, are wider or narrower than the body. */
export function easeNotes(pattern: WorkedPattern, { ground: { basis, paths } }: YarnUse): string[] {
  const { lines, context } = pattern;
  const fit = frontMatterOf(lines).measurements.find(({ title }) => /\bfit\b/i.test(title?.text ?? ""));
  const [length] = fit?.lengths ?? [];
  if (!fit || !length || basis?.gauge == null) return [];
  const worn = wornIn(pattern);
  const eases = context.sizes.map((_, size) => {
    const around = worn && aroundOf(worn.pieces, size, basis, paths);
    const body = bodyFor(length, size, context.sizes.length);
    return around === null || body === null ? null : around - body;
  });
  if (worn === null || eases.some((ease) => ease === null)) return [];
  const [first, ...rest] = eases.map((ease) => signed(ease ?? 0));
  const all = rest.length > 0 ? `${first} (${rest.join(", ")})` : first;
  return [`Ease, ${worn.what} less the body it is to fit: ${all} cm.`];
}

interface Worn {
  readonly what: string;
  readonly pieces: readonly WorkedPiece[];
}

/** The only piece, or the back and the fronts of a garment. */
function wornIn({ pieces }: WorkedPattern): Worn | null {
  const [only, second] = pieces;
  if (only && !second) return { what: "the piece", pieces };
  const back = pieces.filter(({ piece }) => /^back\b/i.test(piece.name));
  const fronts = pieces.filter(
    ({ piece }) => /\bfronts?\b/i.test(piece.name) && !/\bband\b|edg/i.test(piece.name),
  );
  const both = pieces.filter(({ piece }) =>
    /^(?:back and front|front and back|body panel|panel)\b/i.test(piece.name),
  );
  const worn = both.length === 1 ? both : [...back, ...fronts];
  const sides = worn.reduce((sum, { piece }) => sum + piece.make, 0);
  return sides === 2 || (back.length === 1 && sides === 3)
    ? { what: "back and front together", pieces: worn }
    : null;
}

/** Null where a piece lies otherwise than it is worn. */
function aroundOf(
  pieces: readonly WorkedPiece[],
  size: number,
  basis: Basis,
  paths: StitchPaths,
): number | null {
  const [only, second] = pieces;
  let sum = 0;
  for (const piece of pieces) {
    const own = sizeOf(piece, size, basis, paths);
    const isAround = own?.shape === "cup" || own?.shape === "tube";
    if (only === piece && !second && piece.piece.make === 1) return isAround ? own.around : null;
    if (own?.shape !== "flat") return null;
    sum += own.width * piece.piece.make;
  }
  return sum;
}

function bodyFor({ values, unit }: Length, size: number, sizes: number): number | null {
  if (values.length !== 1 && values.length !== sizes) return null;
  const value = values[values.length === 1 ? 0 : size];
  return value === undefined ? null : convertLength(value, unit, "mm");
}

function signed(millimetres: number): string {
  const cm = printedLength(convertLength(millimetres, "mm", "cm"), "cm");
  return cm > 0 ? `+${cm}` : `${cm}`.replace("-", "−");
}
