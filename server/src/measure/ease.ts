import type { WorkedPattern, WorkedPiece } from "../fabric/worked";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { Length } from "../notation/front-matter/lengths";
import { say } from "../text/say";
import { convertLength, printedLength } from "../trade/units";
import type { Basis } from "./basis";
import { type PieceSize, sizeOf } from "./size";
import type { StitchPaths } from "./stitch-paths";
import { timesMade } from "./times-made";
import type { YarnUse } from "./yarn-used";

/** `To fit head: 42 (48, 54, 60) cm`: by how much a piece that is worked around, or a back and a front together, are wider or narrower than the body. */
export function easeNotes(pattern: WorkedPattern, { ground: { basis, paths } }: YarnUse): string[] {
  const { lines, context } = pattern;
  const fit = frontMatterOf(lines).measurements.find(({ title }) => /\bfit\b/i.test(title?.text ?? ""));
  const [length] = fit?.lengths ?? [];
  if (!fit || !length || basis?.gauge == null) return [];
  const worn = wornIn(pattern);
  const eases = context.sizes.map((_, size) => {
    const around = worn && aroundOf(worn, size, basis, paths);
    const body = bodyFor(length, size, context.sizes.length);
    return around === null || body === null ? null : around - body;
  });
  if (worn === null || eases.some((ease) => ease === null)) return [];
  const [first, ...rest] = eases.map((ease) => signed(ease ?? 0));
  const all = rest.length > 0 ? `${first} (${rest.join(", ")})` : first;
  return [say`Ease, ${worn.what} less the body it is to fit: ${all} cm.`];
}

interface Worn {
  readonly what: string;
  readonly pieces: readonly (readonly [piece: WorkedPiece, times: number])[];
}

/** The only piece, or the back and the fronts of a garment. */
function wornIn(pattern: WorkedPattern): Worn | null {
  const { pieces } = pattern;
  const times = pieces.map((piece) => [piece, timesMade(piece, pattern)] as const);
  const [only, second] = times;
  if (only && !second && only[1] === 1) return { what: say`the piece`, pieces: times };
  const called = (name: RegExp) => times.filter(([{ piece }]) => name.test(piece.name));
  const [backs, fronts] = [called(/^back\b/i), called(/^(?:(?:left|right) )?fronts?\b(?!.*(?:band|edg))/i)];
  const panels = called(/^(?:back and front|front and back|body panel|panel)\b/i);
  const worn = panels.length > 0 ? panels : [...backs, ...fronts];
  const halves = fronts.some(([{ piece }]) => /\b(?:left|right|fronts)\b/i.test(piece.name));
  const sides = worn.reduce((sum, [, n]) => sum + n, 0);
  return sides === (halves ? 3 : 2) ? { what: say`back and front together`, pieces: worn } : null;
}

/** Null where a piece lies otherwise than it is worn. */
function aroundOf({ pieces }: Worn, size: number, basis: Basis, paths: StitchPaths): number | null {
  let sum = 0;
  for (const [piece, times] of pieces) {
    const own = sizeOf(piece, size, basis, paths);
    if (pieces.length === 1 && times === 1) return own && isAround(own) ? own.around : null;
    if (own?.shape !== "flat") return null;
    sum += own.width * times;
  }
  return sum;
}

function isAround(size: PieceSize): size is Extract<PieceSize, { shape: "cup" | "tube" | "ball" }> {
  return size.shape === "cup" || size.shape === "tube";
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
