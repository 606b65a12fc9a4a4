import { gaugePairs } from "../trade/gauge-pairs";
import { convertLength, gaugeLength } from "../trade/units";

/** The middle one of some numbers; of an even number of them, the mean of the middle two. */
export function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? upper) + upper) / 2;
}

function publishedHeight(stitch: string): number {
  return median(gaugePairs.filter((pair) => pair.stitch === stitch).map((pair) => pair.stitches / pair.rows));
}

const [sc, hdc, dc, tr] = (["sc", "hdc", "dc", "tr"] as const).map(publishedHeight) as [
  number,
  number,
  number,
  number,
];

/** What one more yarn over adds to a stitch taller than a treble; no gauge of such a stitch was found. */
const step = (tr - sc) / 3;

/**
 * Heights of rows of each plain stitch in widths of a stitch, by US name: the medians of the published
 * gauges. Slip stitches lie flat: a third of a single crochet, common practice, no source.
 */
const heights: ReadonlyMap<string, number> = new Map([
  ["sl st", sc / 3],
  ["sc", sc],
  ["hdc", hdc],
  ["dc", dc],
  ["tr", tr],
  ["dtr", tr + step],
  ["trtr", tr + 2 * step],
  ["quadtr", tr + 3 * step],
]);

/** The height of a row of a plain stitch, in widths of a stitch; that of a single crochet where none is known. */
export function heightInWidths(plain: string | null): number {
  return heights.get(plain ?? "sc") ?? sc;
}

/** Width of a stitch, of any kind, in widths of the hook: the median of the published gauges that name a hook. */
export const widthInHooks = median(
  gaugePairs.flatMap(({ stitches, hookMm }) =>
    hookMm === null ? [] : [convertLength(gaugeLength.in, "in", "mm") / stitches / hookMm],
  ),
);
