/** Stitches and rows over 4 in (10 cm) as one publisher prints them for one yarn and hook. */
export interface GaugePair {
  /** US name. */
  readonly stitch: "sc" | "hdc" | "dc" | "tr";
  readonly stitches: number;
  readonly rows: number;
  /** Null where the source does not say. */
  readonly hookMm: number | null;
  readonly yarn: string;
  readonly source: string;
}

/**
 * Printed gauges that give both stitches and rows. None was found that gives all stitches of one yarn
 * and hook. Sources that are letters and digits only are pattern sheets of Yarnspirations.
 */
export const gaugePairs: readonly GaugePair[] = [
  {
    stitch: "sc",
    stitches: 22,
    rows: 24,
    hookMm: 3.25,
    yarn: "Patons Kroy Sock FX",
    source: "PAC0116-030195M",
  },
  {
    stitch: "sc",
    stitches: 16,
    rows: 18,
    hookMm: null,
    yarn: "Caron Simply Soft Paints",
    source: "CAC0503-007249M",
  },
  { stitch: "sc", stitches: 15, rows: 16, hookMm: null, yarn: "light (3)", source: "CAC0101-035975M" },
  { stitch: "sc", stitches: 14, rows: 15, hookMm: null, yarn: "medium (4)", source: "CAC0116-029868M" },
  {
    stitch: "sc",
    stitches: 13,
    rows: 14,
    hookMm: null,
    yarn: "Caron Simply Soft",
    source: "CAC0129-028772M",
  },
  { stitch: "sc", stitches: 12, rows: 14, hookMm: null, yarn: "bulky (5)", source: "CAC0126-035092M" },
  { stitch: "sc", stitches: 10, rows: 11, hookMm: 6.5, yarn: "bulky (5)", source: "BRC0125-027114M" },
  { stitch: "sc", stitches: 10, rows: 10, hookMm: 6, yarn: "bulky (5)", source: "BRC0502-029618M" },
  { stitch: "sc", stitches: 9, rows: 10, hookMm: 8, yarn: "Bernat Baby Marly", source: "BRC0202-027890M" },
  { stitch: "sc", stitches: 8, rows: 9, hookMm: 8, yarn: "super bulky (6)", source: "CAC0502-029057M" },
  { stitch: "sc", stitches: 7, rows: 8, hookMm: 8, yarn: "Bernat Blanket", source: "BRC0502-030110M" },
  { stitch: "sc", stitches: 5, rows: 6, hookMm: 15, yarn: "Patons Cobbles", source: "PAC0125-000240M" },
  {
    stitch: "hdc",
    stitches: 16,
    rows: 10.5,
    hookMm: 4,
    yarn: "not named",
    source: "portacraft.com.au/beanie-crochet-pattern",
  },
  {
    stitch: "hdc",
    stitches: 13,
    rows: 9,
    hookMm: 4.5,
    yarn: "Red Heart Comfort",
    source: "www.niftynnifer.com/2013/07/how-to-measure-crochet-gauge-by.html",
  },
  { stitch: "dc", stitches: 16, rows: 8, hookMm: null, yarn: "Red Heart hairnet", source: "RHC0101-021719M" },
  { stitch: "dc", stitches: 13, rows: 8, hookMm: 5, yarn: "Caron Simply Soft", source: "CAC0135-001742M" },
  { stitch: "dc", stitches: 8, rows: 5, hookMm: null, yarn: "Bernat", source: "BRC0125-003704M" },
  {
    stitch: "dc",
    stitches: 20,
    rows: 8,
    hookMm: 4.5,
    yarn: "DK (5 x 2 per in)",
    source: "patternsforcrochet.co.uk/beanie-hat-usa.html",
  },
  {
    stitch: "dc",
    stitches: 16,
    rows: 8,
    hookMm: 4.5,
    yarn: "Stylecraft Special DK (4 x 2 per in)",
    source: "patternsforcrochet.co.uk/adult-beanie-usa.html",
  },
  {
    stitch: "sc",
    stitches: 15.5,
    rows: 17,
    hookMm: 5.5,
    yarn: "Caron x Pantone, sc in back loop",
    source: "CAC0125-012177M",
  },
  {
    stitch: "tr",
    stitches: 10,
    rows: 4,
    hookMm: 6.5,
    yarn: "Patons Alpaca Blend",
    source: "PAC0125-002711M",
  },
];
