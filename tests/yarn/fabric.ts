import { pathOf, type StitchPath, type StitchSize, yarnIn } from "../../server/src/measure/stitch-path";
import { type Stitch, stitchOf } from "../../server/src/trade/stitches";
import { convertLength } from "../../server/src/trade/units";

/** Stitches by US name; `dc2tog` and the like too. */
export type Stitches = Readonly<Record<string, number>>;

export function pathNamed(name: string): StitchPath {
  const stitch = stitchOf(name, "US") as Stitch;
  return pathOf(stitch, stitch.uses);
}

/** Yarn in millimetres. */
export function yarnFor(stitches: Stitches, size: StitchSize): number {
  return Object.entries(stitches).reduce((sum, [name, n]) => sum + n * yarnIn(pathNamed(name), size), 0);
}

export function inches(value: number): number {
  return convertLength(value, "in", "mm");
}

/** Stitches of one kind in a plain rectangle, in millimetres. */
export function rectangle(name: string, width: number, height: number, size: StitchSize): Stitches {
  return { [name]: (width / size.width) * (height / rowHeight(name, size)) };
}

/** A flat disc: round n has n times the flat rate. */
export function disc(name: string, diameter: number, size: StitchSize): Stitches {
  const high = rowHeight(name, size);
  const rounds = diameter / 2 / high;
  return { [name]: ((2 * Math.PI * high) / size.width) * ((rounds * (rounds + 1)) / 2) };
}

/**
 * A granny square of n rounds: 6n(n + 1) dc, a chain between groups, two in each corner. Source of the
 * counts: cornflowerbluestudio.blogspot.com/2008/03/classic-granny-square-pattern.html
 */
export function granny(side: number, size: StitchSize): Stitches {
  const n = side / 2 / rowHeight("dc", size);
  return { dc: 6 * n * (n + 1), ch: 2 * n * (n - 1) + 8 * n };
}

function rowHeight(name: string, size: StitchSize): number {
  return pathNamed(name).height * size.rise;
}
