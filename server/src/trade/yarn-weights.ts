/** What one printed source says, in its own words. */
export interface Printed {
  readonly says: string;
  readonly source: string;
}

/** From least to most; null where the range is open. */
export interface Range {
  readonly min: number | null;
  readonly max: number | null;
}

/** One category of the standard yarn weights. The figures are guides: the pattern's own gauge goes first. */
export interface YarnWeight {
  readonly category: 0 | 1 | 2 | 3 | 4 | 5 | 6 | 7;
  readonly name: string;
  readonly yarns: readonly string[];
  /** Stitches over 4 in or 10 cm, of the stitch named (US). */
  readonly gauge: Range & { readonly stitch: "sc" | "dc" };
  readonly hookMm: Range;
  readonly hookUs: string;
  readonly wrapsPerInch: Range;
  /** Null where the source gives none. */
  readonly yardsPerPound: string | null;
  /** Usual values, not limits: DK of 295 m is sold (from memory). */
  readonly metresPer100g: readonly Printed[];
  readonly otherEditions: readonly Printed[];
}

/** Sources of each column. */
export const yarnWeightSources = {
  table:
    "Craft Yarn Council table as printed in Crochet World, October 2018, p. 64 (issuhub.com/view/index?id=3342&pageIndex=64)",
  wrapsPerInch: "Craft Yarn Council list as reported at ihookdesign.com/what-is-wpi",
  yardsPerPound: "Spin-Off yarn standards handout (scribd.com/document/657653690/Yarn-Standards)",
} as const;

const craftShop = "craftys.uk/info-downloads/Yarn-Weight-Wpi";
const retailerChart =
  "Crochet hook yarn and stitch conversions (cdn.shopify.com/s/files/1/1218/2756/files/Crochet_hook_yarn_and_stitch_conversions_metres_PDF_2.pdf)";

export const yarnWeights: readonly YarnWeight[] = [
  {
    category: 0,
    name: "Lace",
    yarns: ["Fingering", "10-count crochet thread"],
    gauge: { min: 32, max: 42, stitch: "dc" },
    hookMm: { min: 1.5, max: 2.25 },
    hookUs: "Steel 8-1; regular B-1",
    wrapsPerInch: { min: 30, max: 40 },
    yardsPerPound: "2401+",
    metresPer100g: [
      { says: "600-800 (2 ply); >800 (1 ply)", source: craftShop },
      { says: ">=600", source: retailerChart },
    ],
    otherEditions: [
      {
        says: "hook steel 1.6-1.4 mm (steel 6, 7, 8); regular B-1",
        source:
          "Craft Yarn Council table as reprinted at 222handspun.com/tips-and-tutorials/tag/Yarn%20size%20gauge",
      },
    ],
  },
  {
    category: 1,
    name: "Super Fine",
    yarns: ["Sock", "Fingering", "Baby"],
    gauge: { min: 21, max: 32, stitch: "sc" },
    hookMm: { min: 2.25, max: 3.5 },
    hookUs: "B-1 to E-4",
    wrapsPerInch: { min: 14, max: 30 },
    yardsPerPound: "1901-2400",
    metresPer100g: [
      { says: "500-600 (3 ply); 350-450 (4 ply)", source: craftShop },
      { says: "420(500 UK/AU)-580 = UK 3ply/US fingering", source: retailerChart },
    ],
    otherEditions: [],
  },
  {
    category: 2,
    name: "Fine",
    yarns: ["Sport", "Baby"],
    gauge: { min: 16, max: 20, stitch: "sc" },
    hookMm: { min: 3.5, max: 4.5 },
    hookUs: "E-4 to 7",
    wrapsPerInch: { min: 12, max: 18 },
    yardsPerPound: "1201-1900",
    metresPer100g: [
      { says: "250-350 (5 ply)", source: craftShop },
      { says: "260-400 (UK 4ply to 480) = US sport", source: retailerChart },
    ],
    otherEditions: [],
  },
  {
    category: 3,
    name: "Light",
    yarns: ["DK", "Light Worsted"],
    gauge: { min: 12, max: 17, stitch: "sc" },
    hookMm: { min: 4.5, max: 5.5 },
    hookUs: "7 to I-9",
    wrapsPerInch: { min: 11, max: 15 },
    yardsPerPound: "901-1200",
    metresPer100g: [
      { says: "200-250 (8 ply)", source: craftShop },
      { says: "210-250", source: retailerChart },
    ],
    otherEditions: [],
  },
  {
    category: 4,
    name: "Medium",
    yarns: ["Worsted", "Afghan", "Aran"],
    gauge: { min: 11, max: 14, stitch: "sc" },
    hookMm: { min: 5.5, max: 6.5 },
    hookUs: "I-9 to K-10 1/2",
    wrapsPerInch: { min: 9, max: 12 },
    yardsPerPound: "601-900",
    metresPer100g: [
      { says: "120-200 (10-12 ply)", source: craftShop },
      { says: "130-200 (UK Aran/US worsted)", source: retailerChart },
    ],
    otherEditions: [
      {
        says: "11-12 sts in 4 in, probably a misprint of 11-14",
        source: "Mary Maxim Yarn Guide PDF (cdn.shopify.com/s/files/1/0420/3118/6087/files/Yarn-Guide2.pdf)",
      },
    ],
  },
  {
    category: 5,
    name: "Bulky",
    yarns: ["Chunky", "Craft", "Rug"],
    gauge: { min: 8, max: 11, stitch: "sc" },
    hookMm: { min: 6.5, max: 9 },
    hookUs: "K-10 1/2 to M-13",
    wrapsPerInch: { min: 6, max: 9 },
    yardsPerPound: "401-600",
    metresPer100g: [
      { says: "100-130", source: craftShop },
      { says: "90-120", source: retailerChart },
    ],
    otherEditions: [],
  },
  {
    category: 6,
    name: "Super Bulky",
    yarns: ["Super Chunky", "Roving"],
    gauge: { min: 6, max: 9, stitch: "sc" },
    hookMm: { min: 9, max: 16 },
    hookUs: "M-13 to Q",
    wrapsPerInch: { min: 5, max: 6 },
    yardsPerPound: "400 or less",
    metresPer100g: [
      { says: "<100", source: craftShop },
      { says: "40-80", source: retailerChart },
    ],
    otherEditions: [
      {
        says: "5-9 sts in 4 in, hook 9 and larger mm",
        source:
          "older Craft Yarn Council table as reprinted at crochetonatrain.com/standard-yarn-weight-system/ ; www.scribd.com/document/657653690/Yarn-Standards",
      },
      {
        says: "7-9 sts in 4 in, hook 9-15 mm",
        source: "Mary Maxim Yarn Guide PDF (cdn.shopify.com/s/files/1/0420/3118/6087/files/Yarn-Guide2.pdf)",
      },
      { says: "7-9 sts in 4 in, hook 9-15 mm", source: "from memory" },
    ],
  },
  {
    category: 7,
    name: "Jumbo",
    yarns: ["Roving"],
    gauge: { min: null, max: 5, stitch: "sc" },
    hookMm: { min: 16, max: null },
    hookUs: "Q and larger",
    wrapsPerInch: { min: 1, max: 4 },
    yardsPerPound: null,
    metresPer100g: [
      { says: "<100", source: craftShop },
      { says: "<40", source: retailerChart },
    ],
    otherEditions: [
      {
        says: "6 or fewer sts in 4 in, hook 15 and larger mm",
        source: "Mary Maxim Yarn Guide PDF (cdn.shopify.com/s/files/1/0420/3118/6087/files/Yarn-Guide2.pdf)",
      },
      {
        says: "no such category",
        source:
          "older Craft Yarn Council table as reprinted at crochetonatrain.com/standard-yarn-weight-system/ ; www.scribd.com/document/657653690/Yarn-Standards",
      },
      { says: "hook 15 and larger mm", source: "from memory" },
    ],
  },
];

/**
 * Further names by which a category is sold. Sources: the table (which lists fingering under Lace too),
 * theyarnbar.com.au/pages/yarn-weights (14 wraps for fingering) and craftys.uk/info-downloads/Yarn-Weight-Wpi
 * (the plies).
 */
const otherNames: Readonly<Record<string, YarnWeight["category"]>> = {
  fingering: 1,
  sock: 1,
  "4 ply": 1,
  sport: 2,
  "5 ply": 2,
  dk: 3,
  "double knitting": 3,
  "light worsted": 3,
  "8 ply": 3,
  worsted: 4,
  aran: 4,
  afghan: 4,
  "10 ply": 4,
  chunky: 5,
  "super chunky": 6,
};

/**
 * The category that a name of a yarn weight means, in any case: `Worsted`, `DK`, `Super Bulky`.
 * Undefined for a name that no table has, and for one that several have (`Baby`, `Roving`).
 */
export function yarnWeightNamed(name: string): YarnWeight | undefined {
  const wanted = name.trim().toLowerCase();
  return yarnWeights.find(
    (weight) => weight.name.toLowerCase() === wanted || weight.category === otherNames[wanted],
  );
}

/** The metres per 100 g that any source prints for a category; null where all leave the range open. */
export function usualMetres({
  metresPer100g,
}: YarnWeight): { readonly min: number; readonly max: number } | null {
  const printed = metresPer100g.flatMap(({ says }) => [
    ...says
      .replace(/\([^)]*\)|=.*/g, "")
      .replace(/[<>]=?\s*/g, "")
      .matchAll(/\d{2,3}/g),
  ]);
  const metres = printed.map(([digits]) => Number(digits));
  return metres.length < 2 ? null : { min: Math.min(...metres), max: Math.max(...metres) };
}
