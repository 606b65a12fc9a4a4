import { heightInWidths } from "../../server/src/measure/proportions";
import type { StitchSize } from "../../server/src/measure/stitch-path";
import { sizeAtGauge, sizeWithHook, thicknessOf } from "../../server/src/measure/stitch-size";
import { type YarnWeight, yarnWeights } from "../../server/src/trade/yarn-weights";
import { disc, granny, inches, rectangle, type Stitches } from "./fabric";

/** How the yarn of one published item is estimated. */
export interface Estimate {
  readonly id: string;
  /** Whether the published figure takes part in fitting the model, or only tries it. */
  readonly use: "fit" | "try";
  /** What the room of a stitch is taken from. */
  readonly basis: string;
  /** What the source leaves open and is taken for granted here. */
  readonly taken: string;
  readonly stitches: Stitches;
  readonly size: StitchSize;
  /** Tails of 15 cm that are woven in: two to a piece. */
  readonly pieces: number;
}

function weight(category: YarnWeight["category"]): number {
  return thicknessOf(yarnWeights[category] as YarnWeight);
}

const worsted5 = sizeWithHook(5, weight(4));
const cotton = sizeWithHook(4.5, weight(4));
const byHook = "usual stitch of the hook, worsted";
const solid = "stitch not told: taken as solid hdc, the middle of the plain stitches";

interface Printed {
  readonly over: number;
  readonly stitches: number;
  readonly rows: number;
  readonly stitch: string;
  readonly category: YarnWeight["category"];
}

/** Stitches and rows over so many inches. */
function printed({ over, stitches, rows, stitch, category }: Printed): StitchSize {
  const gauge = { stitch, width: inches(over) / stitches, height: inches(over) / rows };
  return sizeAtGauge(gauge, weight(category));
}

const cobbles = printed({ over: 4, stitches: 5, rows: 6, stitch: "sc", category: 6 });

/** Two rows of sc and two of dc are as high as four rows of the gauge. */
const scAndDc: StitchSize = {
  width: inches(4) / 8,
  rise: (2 * inches(4)) / 7.5 / (heightInWidths("sc") + heightInWidths("dc")),
  thickness: weight(6),
};

const swatch = (name: string): Stitches => rectangle(name, inches(5), inches(5), worsted5);
const cloth = (name: string, width: number, height: number): Stitches =>
  rectangle(name, inches(width), inches(height), cotton);

/** V-stitches of two dc: three of them, with their chains, over 4 in. */
function vStitches(places: number, rows: number, category: YarnWeight["category"]): StitchSize {
  return printed({ over: 4, stitches: 3 * places, rows, stitch: "dc", category });
}

export const estimates: readonly Estimate[] = [
  { id: "W01", use: "fit", basis: byHook, taken: "", stitches: swatch("sc"), size: worsted5, pieces: 0 },
  { id: "W02", use: "fit", basis: byHook, taken: "", stitches: swatch("hdc"), size: worsted5, pieces: 0 },
  { id: "W03", use: "fit", basis: byHook, taken: "", stitches: swatch("dc"), size: worsted5, pieces: 0 },
  {
    id: "W04",
    use: "fit",
    basis: "gauge, super bulky",
    taken: "sc and dc in equal numbers",
    stitches: { sc: 9870 / 2, dc: 9870 / 2, ch: 106 },
    size: scAndDc,
    pieces: 0,
  },
  {
    id: "W05",
    use: "fit",
    basis: "gauge in V-stitches, super bulky",
    taken: "no edging",
    stitches: { dc: 72 * 76, ch: 72 * 37 + 117 },
    size: vStitches(3, 4.5, 6),
    pieces: 0,
  },
  {
    id: "W06",
    use: "try",
    basis: "gauge, super bulky",
    taken: "solid dc; V-stitches and shells not seen",
    stitches: disc("dc", inches(54), printed({ over: 4, stitches: 7, rows: 8, stitch: "sc", category: 6 })),
    size: printed({ over: 4, stitches: 7, rows: 8, stitch: "sc", category: 6 }),
    pieces: 1,
  },
  {
    id: "W07",
    use: "try",
    basis: byHook,
    taken: "classic granny square",
    stitches: granny(inches(7), cotton),
    size: cotton,
    pieces: 1,
  },
  {
    id: "W08",
    use: "try",
    basis: byHook,
    taken: solid,
    stitches: cloth("hdc", 7, 6),
    size: cotton,
    pieces: 1,
  },
  {
    id: "W09",
    use: "try",
    basis: byHook,
    taken: "groups of dc without chains",
    stitches: cloth("dc", 8, 7.75),
    size: cotton,
    pieces: 1,
  },
  {
    id: "W10",
    use: "try",
    basis: byHook,
    taken: solid,
    stitches: cloth("hdc", 8, 7.75),
    size: cotton,
    pieces: 1,
  },
  {
    id: "W11",
    use: "try",
    basis: byHook,
    taken: solid,
    stitches: cloth("hdc", 8.75, 8.75),
    size: cotton,
    pieces: 1,
  },
  {
    id: "W12",
    use: "try",
    basis: byHook,
    taken: solid,
    stitches: cloth("hdc", 9, 9),
    size: cotton,
    pieces: 1,
  },
  {
    id: "W13",
    use: "try",
    basis: byHook,
    taken: solid,
    stitches: cloth("hdc", 9.75, 8.75),
    size: cotton,
    pieces: 1,
  },
  {
    id: "W14",
    use: "try",
    basis: byHook,
    taken: "stitch not told: flat discs of hdc",
    stitches: { hdc: 4 * (disc("hdc", inches(2.25), cotton).hdc ?? 0) },
    size: cotton,
    pieces: 4,
  },
  {
    id: "W15",
    use: "try",
    basis: "gauge, DK",
    taken: "one fpdc to three dc",
    stitches: { fpdc: (33.75 * 18.56) / 4, dc: (33.75 * 18.56 * 3) / 4 },
    size: printed({ over: 4, stitches: 20, rows: 11, stitch: "dc", category: 3 }),
    pieces: 1,
  },
  {
    id: "W16",
    use: "try",
    basis: "gauge, DK",
    taken: "14 dc more in each of 6 rounds, then 11 rounds of 84: height by the hat rule; brim not seen",
    stitches: { dc: 14 * (1 + 2 + 3 + 4 + 5 + 6) + 11 * 84 },
    size: printed({ over: 1, stitches: 4, rows: 2, stitch: "dc", category: 3 }),
    pieces: 1,
  },
  {
    id: "W18",
    use: "try",
    basis: "gauge in V-stitches, bulky",
    taken: "two edge dc to a row",
    stitches: { dc: 60 * 86, ch: 60 * 84 + 173 },
    size: vStitches(4, 5, 5),
    pieces: 1,
  },
  {
    id: "W19",
    use: "try",
    basis: "gauge in V-stitches, super bulky",
    taken: "V-stitch of dc, ch 1, dc; two edge dc to a row",
    stitches: { dc: 58 * 68, ch: 58 * 33 + 103 },
    size: vStitches(3, 4, 6),
    pieces: 1,
  },
  {
    id: "W20",
    use: "try",
    basis: "gauge, super bulky",
    taken: "solid sc; the lace was not seen; without fringe",
    stitches: rectangle("sc", inches(62), inches(8), cobbles),
    size: cobbles,
    pieces: 1,
  },
  {
    id: "W21",
    use: "try",
    basis: "gauge, bulky",
    taken: "66 tr to a row",
    stitches: { tr: 96 * 66, ch: 68 },
    size: printed({ over: 4, stitches: 10, rows: 4, stitch: "tr", category: 5 }),
    pieces: 1,
  },
  {
    id: "W22",
    use: "try",
    basis: "gauge in pattern, bulky",
    taken: "145 rows of sc and ch 1 in turn; without tassels",
    stitches: { sc: 6 * 145 * 13, ch: 6 * 145 * 12 },
    size: printed({ over: 4, stitches: 10, rows: 10, stitch: "sc", category: 5 }),
    pieces: 6,
  },
  {
    id: "W23",
    use: "try",
    basis: "gauge, bulky",
    taken: "66 rows of dc",
    stitches: { dc: 66 * 102, ch: 105 },
    size: printed({ over: 4, stitches: 11, rows: 6, stitch: "dc", category: 5 }),
    pieces: 1,
  },
  {
    id: "W24",
    use: "try",
    basis: "gauge, worsted",
    taken: "12 groups of 3 dc and two edge dc to a row; without fringe",
    stitches: { dc: 200 * 38, ch: 55 },
    size: printed({ over: 4, stitches: 13, rows: 8, stitch: "dc", category: 4 }),
    pieces: 1,
  },
  {
    id: "W26",
    use: "try",
    basis: "gauge, worsted",
    taken: "rows of dc and of sc in turn, without the cable's posts",
    stitches: { dc: 75 * 18, sc: 75 * 18, ch: 19 },
    size: {
      width: inches(6) / 18,
      rise: (2 * inches(4)) / 10 / (heightInWidths("sc") + heightInWidths("dc")),
      thickness: weight(4),
    },
    pieces: 1,
  },
  {
    id: "W27",
    use: "try",
    basis: "gauge, worsted",
    taken: "base as printed, 486 sc; sides of solid sc, though they must be open work",
    stitches: { sc: 486 + 72 * (27 / (4 / 18)) },
    size: printed({ over: 4, stitches: 16, rows: 18, stitch: "sc", category: 4 }),
    pieces: 1,
  },
  {
    id: "W28",
    use: "try",
    basis: "gauge in pattern, worsted",
    taken: "144 rows of sc and hdc in equal numbers",
    stitches: { sc: 72 * 166, hdc: 72 * 166, ch: 167 },
    size: {
      width: inches(4) / 13,
      rise: (2 * inches(4)) / 12 / (heightInWidths("sc") + heightInWidths("hdc")),
      thickness: weight(4),
    },
    pieces: 1,
  },
];

/** Items that cannot be estimated, and why. */
export const notEstimated: Readonly<Record<string, string>> = {
  W17: "12 rows, no width and no gauge",
  W25: "no size in figures, counts of two rounds only",
};
