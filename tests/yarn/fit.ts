import { yarnIn } from "../../server/src/measure/stitch-path";
import { sizeWithHook, thicknessOf } from "../../server/src/measure/stitch-size";
import { convertLength } from "../../server/src/trade/units";
import { type YarnWeight, yarnWeights } from "../../server/src/trade/yarn-weights";
import { type Estimate, estimates } from "./estimates";
import { pathNamed, yarnFor } from "./fabric";
import { type PublishedItem, type PublishedStitch, publishedItems, publishedStitches } from "./published";

/** An estimate beside the published figure, in yards. */
export interface Compared {
  readonly estimate: Estimate;
  readonly published: PublishedItem;
  readonly yards: number;
  /** Estimate by published figure: 1 where they agree. */
  readonly ratio: number;
}

/** The tails of a piece that are woven in. Common practice: 15 cm each, at least. */
const tails = 2 * 150;

export function compare(estimate: Estimate): Compared {
  const published = publishedItems.find(({ id }) => id === estimate.id) as PublishedItem;
  const millimetres = yarnFor(estimate.stitches, estimate.size) + estimate.pieces * tails;
  const yards = convertLength(millimetres, "mm", "yd");
  return { estimate, published, yards, ratio: yards / published.yards };
}

export const compared: readonly Compared[] = estimates.map(compare);

/** The slack that makes the items of the fit right on the geometric mean. */
export function fittedSlack(): number {
  const logs = compared
    .filter(({ estimate }) => estimate.use === "fit")
    .map(({ estimate, published }) => Math.log(published.yards / withoutSlack(estimate)));
  return Math.exp(logs.reduce((sum, log) => sum + log, 0) / logs.length);
}

function withoutSlack({ stitches, size }: Estimate): number {
  const { across, up, around } = { across: 1, up: 0, around: 0 };
  const slackNow = yarnIn({ across, up, around, height: 0 }, { width: 1, rise: 1, thickness: 0 });
  return convertLength(yarnFor(stitches, size) / slackNow, "mm", "yd");
}

/** One item measured, and the others of the same yarn, hook and hands scaled by it. */
export interface Calibration {
  readonly by: string;
  readonly others: readonly string[];
}

export const calibrations: readonly Calibration[] = [
  { by: "W01", others: ["W02", "W03"] },
  { by: "W11", others: ["W07", "W08", "W09", "W10", "W12", "W13", "W14"] },
];

/**
 * Of the calibrated ones, those whose stitch the source tells; of the others, and of W11 itself, it is not known
 * what was estimated. W01 to W03 took part in the fit, but what was fitted falls out where one scales the others.
 */
export const stitchTold: ReadonlySet<string> = new Set(["W02", "W03", "W07", "W09"]);

/** Yarn for each inch of a row's width, by the model, scaled so that single crochet is as published. */
export interface CalibratedStitch extends PublishedStitch {
  readonly estimate: number;
  readonly ratio: number;
}

const worsted5 = sizeWithHook(5, thicknessOf(yarnWeights[4] as YarnWeight));

/** What one measured stitch, a row of sc, makes of the other rows by the same hands. */
export function calibratedStitches(): CalibratedStitch[] {
  const model = (stitch: string): number => yarnIn(pathNamed(stitch), worsted5) / worsted5.width;
  const sc = publishedStitches.find(({ stitch }) => stitch === "sc") as PublishedStitch;
  const scale = sc.perWidth / model("sc");
  return publishedStitches
    .filter((one) => one !== sc)
    .map((one) => {
      const estimate = model(one.stitch) * scale;
      return { ...one, estimate, ratio: estimate / one.perWidth };
    });
}

/** Yarn in an area of a stitch, against that of single crochet, by the model. */
export function densityOf(stitch: string): number {
  const inArea = (name: string): number => yarnIn(pathNamed(name), worsted5) / pathNamed(name).height;
  return inArea(stitch) / inArea("sc");
}

export function calibrated({ by, others }: Calibration): Compared[] {
  const measured = compared.find(({ published }) => published.id === by) as Compared;
  return compared
    .filter(({ published }) => others.includes(published.id))
    .map((one) => ({
      ...one,
      yards: one.yards / measured.ratio,
      ratio: one.ratio / measured.ratio,
    }));
}
