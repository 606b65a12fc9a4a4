import type { Stitch } from "../trade/stitches";
import { heightInWidths } from "./proportions";

/**
 * How the yarn runs through one stitch: strands along the row, strands up the stitch, and turns around
 * the strand or post that a loop encloses.
 */
export interface StitchPath {
  readonly across: number;
  readonly up: number;
  readonly around: number;
  /** Height in widths of a stitch. */
  readonly height: number;
}

/** The room that one stitch takes, in millimetres. */
export interface StitchSize {
  readonly width: number;
  /** Height of a stitch whose `height` is 1. */
  readonly rise: number;
  /** Of the yarn, lightly pressed as in wraps to the inch. */
  readonly thickness: number;
}

/**
 * How much longer the yarn is than the shortest line through its loops: the one number that is fitted.
 * `npm run yarn` fits it to five published items and shows what it makes of the others.
 */
export const slack = 1.16;

/** Yarn in one stitch, in millimetres. */
export function yarnIn({ across, up, around, height }: StitchPath, size: StitchSize): number {
  const { width, rise, thickness } = size;
  return slack * (across * width + up * height * rise + around * Math.PI * thickness);
}

/** Every yarn over is drawn into a loop: two strands along the row, once around what it encloses. */
function looped(overs: number, height: number, legs = 1): StitchPath {
  return { across: 2 * overs, up: 2 * legs, around: overs, height };
}

/** The third strand of a chain lies behind the other two. */
const chain: StitchPath = { across: 3, up: 0, around: 1, height: 0 };

/** Yarn overs of a plain stitch: one or more before the hook goes in, one to draw up a loop, the rest to draw through. */
const oversOf: ReadonlyMap<string, number> = new Map([
  ["sl st", 1],
  ["sc", 2],
  ["hdc", 3],
  ["dc", 4],
  ["tr", 6],
  ["dtr", 8],
  ["trtr", 10],
  ["quadtr", 12],
]);

/** A plain stitch by its US name. */
function plainPath(name: string | null): StitchPath {
  return looped(oversOf.get(name ?? "sc") ?? 2, heightInWidths(name));
}

/** Stitches begun one by one and closed together: each leaves its last yarn over to the end. */
export function together(name: string | null, legs: number): StitchPath {
  const { around: overs, height } = plainPath(name);
  return looped(legs * (overs - 1) + 1, height, legs);
}

/** A stitch of which only is known how often yarn is laid over the hook: as high as a plain stitch of that many. */
export function pathOfOvers(overs: number): StitchPath {
  const alike = [...oversOf].reduce((best, one) =>
    Math.abs(one[1] - overs) < Math.abs(best[1] - overs) ? one : best,
  );
  return looped(overs, Math.min(heightInWidths(alike[0]), heightInWidths("tr")));
}

function plus(a: StitchPath, b: StitchPath): StitchPath {
  return {
    across: a.across + b.across,
    up: a.up + b.up,
    around: a.around + b.around,
    height: Math.max(a.height, b.height),
  };
}

/** Of what a cluster is made where nothing says so. Common practice, no source. */
const usualClusters: ReadonlyMap<string, StitchPath> = new Map([
  ["cluster", together("dc", 3)],
  ["bobble", together("dc", 5)],
  ["popcorn", plus(looped(5 * 4, heightInWidths("dc"), 5), chain)],
  ["puff", looped(2 * 3 + 1, heightInWidths("dc"), 3)],
]);

/** A chain-3 picot, closed by a slip stitch. Common practice, no source. */
const picot = plus(plus(chain, plus(chain, chain)), looped(1, 0));

/** The way of the yarn through a stitch of the trade; `uses` places of the row below go into it. */
export function pathOf(stitch: Stitch, uses = 1): StitchPath {
  const { id, family, base } = stitch;
  if (family === "chain") return chain;
  if (family === "slip") return plainPath("sl st");
  if (family === "picot") return picot;
  if (family === "cluster") return usualClusters.get(id) ?? together("dc", 3);
  if (uses > 1) return together(base, uses);
  const plain = plainPath(base);
  if (family === "post") return { ...plain, around: plain.around + 2 };
  if (family === "extended") return extended(plain);
  if (family === "foundation") return plus(plain, chain);
  return /^(?:spike|crab|rev)/.test(id) ? { ...plain, up: plain.up * 2 } : plain;
}

/** One chain more in its post than the stitch it is built on, and half the way to the next taller one. */
function extended(plain: StitchPath): StitchPath {
  const height = plain.height + (heightInWidths("dc") - heightInWidths("sc")) / 4;
  return looped(plain.around + 1, height);
}
