import { convertLength } from "../trade/units";
import { type YarnWeight, yarnWeights } from "../trade/yarn-weights";
import { heightInWidths, median, widthInHooks } from "./proportions";
import type { StitchSize } from "./stitch-path";

/** How wide and high one stitch is, in millimetres; the height is null where a gauge gives no rows. */
export interface MeasuredStitch {
  /** US name of the plain stitch measured. */
  readonly stitch: string | null;
  readonly width: number;
  readonly height: number | null;
  /** Usual height of what is measured, in widths of a stitch, where that is no plain stitch. */
  readonly usualHeight?: number;
}

/** The room of stitches at a gauge; where it gives no rows, they are as high as usual for their width. */
export function sizeAtGauge(measured: MeasuredStitch, thickness: number): StitchSize {
  const { stitch, width, height, usualHeight = heightInWidths(stitch) } = measured;
  return { width, rise: height === null ? width : height / usualHeight, thickness };
}

/** The usual room of stitches worked with a hook. */
export function sizeWithHook(hookMm: number, thickness: number): StitchSize {
  const width = widthInHooks * hookMm;
  return { width, rise: width, thickness };
}

/** The hook in the middle of those that go with a yarn weight. */
export function usualHook({ hookMm: { min, max } }: YarnWeight): number {
  return median([min ?? max ?? 0, max ?? min ?? 0]);
}

/** Thickness of a yarn of this weight in millimetres: the middle of its wraps to the inch. */
export function thicknessOf({ wrapsPerInch: { min, max } }: YarnWeight): number {
  return convertLength(1, "in", "mm") / median([min ?? max ?? 1, max ?? min ?? 1]);
}

/** The yarn weight whose usual hook is nearest. */
export function weightForHook(hookMm: number): YarnWeight {
  const apart = (weight: YarnWeight) => Math.abs(Math.log(usualHook(weight) / hookMm));
  return yarnWeights.reduce((best, weight) => (apart(weight) < apart(best) ? weight : best));
}

/**
 * Thickness in millimetres of a yarn of which so many metres weigh 100 g: worsted, 10.5 wraps to the inch and
 * 165 m per 100 g in the middle of its published ranges, for all yarns of the same fibre and loft.
 */
export function thicknessByLabel(metresPer100g: number): number {
  return (convertLength(1, "in", "mm") / 10.5) * Math.sqrt(165 / metresPer100g);
}
