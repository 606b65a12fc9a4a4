import type { WorkedPattern } from "../fabric/worked";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { Length } from "../notation/front-matter/lengths";
import { convertLength, printedLength } from "../trade/units";
import { sizeOf } from "./size";
import type { YarnUse } from "./yarn-used";

/** `To fit head: 42 (48, 54, 60) cm`: by how much a piece that is worked around is wider or narrower than the body. */
export function easeNotes(
  { lines, pieces, context }: WorkedPattern,
  { ground: { basis, paths } }: YarnUse,
): string[] {
  const fit = frontMatterOf(lines).measurements.find(({ title }) => /\bfit\b/i.test(title?.text ?? ""));
  const [length] = fit?.lengths ?? [];
  const [piece, second] = pieces;
  if (!fit || !length || !piece || second || basis?.gauge == null) return [];
  const eases = context.sizes.map((_, size) => {
    const own = sizeOf(piece, size, basis, paths);
    const body = bodyFor(length, size, context.sizes.length);
    return own && (own.shape === "cup" || own.shape === "tube") && body !== null ? own.around - body : null;
  });
  if (eases.some((ease) => ease === null)) return [];
  const [first, ...rest] = eases.map((ease) => signed(ease ?? 0));
  const all = rest.length > 0 ? `${first} (${rest.join(", ")})` : first;
  return [`Ease, the piece less the body it is to fit: ${all} cm.`];
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
