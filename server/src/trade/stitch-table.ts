import type { Family, Stitch, Terms } from "./stitch";

/** A stitch of its own height, from which compounds are built. */
export interface PlainStitch {
  /** US abbreviation. */
  readonly id: string;
  readonly uk: string;
  readonly usName: string;
  readonly ukName: string;
  /** Chains of its height. */
  readonly turningChain: number;
  readonly source: string;
}

const termsChart =
  "Crochet Terms Translation Chart (cdn.shopify.com/s/files/1/0659/6837/3974/files/Crochet_Terms_Translation_Chart.pdf)";
const termsByCountry = "funcrochetdesigns.com/crochet/tuesday-crochet-tip-crochet-terms-by-country";
const fromMemory = "from memory";

/** Lowest first: the UK name of each is the US name of the next one up (sc apart). */
export const plainStitches: readonly PlainStitch[] = [
  {
    id: "sc",
    uk: "dc",
    usName: "single crochet",
    ukName: "double crochet",
    turningChain: 1,
    source: `${termsByCountry}; ${termsChart}`,
  },
  {
    id: "hdc",
    uk: "htr",
    usName: "half double crochet",
    ukName: "half treble crochet",
    turningChain: 2,
    source: `${termsByCountry}; ${termsChart}`,
  },
  {
    id: "dc",
    uk: "tr",
    usName: "double crochet",
    ukName: "treble crochet",
    turningChain: 3,
    source: `${termsByCountry}; ${termsChart}`,
  },
  {
    id: "tr",
    uk: "dtr",
    usName: "treble crochet",
    ukName: "double treble crochet",
    turningChain: 4,
    source: `${termsByCountry}; ${termsChart}`,
  },
  {
    // Charts print ttr, trtr or trip tr for the UK stitch; ttr is the one that no US stitch is called by.
    id: "dtr",
    uk: "ttr",
    usName: "double treble crochet",
    ukName: "triple treble crochet",
    turningChain: 5,
    source: termsByCountry,
  },
  {
    id: "trtr",
    uk: "qtr",
    usName: "triple treble crochet",
    ukName: "quadruple treble crochet",
    turningChain: 6,
    source: fromMemory,
  },
  {
    id: "quadtr",
    uk: "quintr",
    usName: "quadruple treble crochet",
    ukName: "quintuple treble crochet",
    turningChain: 7,
    source: fromMemory,
  },
];

/** Further words for plain stitches, by the terms in which they have this meaning. Source: the chart named above (trtr); quadtr from memory. */
export const extraPlainWords: Readonly<Record<Terms, readonly (readonly [word: string, id: string])[]>> = {
  US: [],
  UK: [
    ["trtr", "dtr"],
    ["quadtr", "trtr"],
  ],
};

/** What a compound adds to the stitch it is built on. */
export interface Part {
  readonly id?: string;
  readonly abbreviation?: string;
  readonly name?: string;
  readonly suffix?: string;
  readonly suffixName?: string;
  readonly family: Family;
  readonly uses: number;
  readonly makes: number;
}

/** A word before a plain stitch, with the spellings met for it. */
export interface Prefix extends Part {
  readonly id: string;
  readonly spellings: readonly string[];
  readonly source: string;
}

const abbreviationsList = "stitch4ever.com/2012/01/30/abbreviations-in-crochet-patterns (FPdc, BPdc, esc)";

/** Foundation stitches stand on nothing; all others use one place and make one stitch. */
export const prefixes: readonly Prefix[] = [
  {
    id: "fp",
    abbreviation: "FP",
    name: "front post ",
    spellings: ["fp", "fp ", "fp-", "front post ", "front-post "],
    family: "post",
    uses: 1,
    makes: 1,
    source: abbreviationsList,
  },
  {
    id: "bp",
    abbreviation: "BP",
    name: "back post ",
    spellings: ["bp", "bp ", "bp-", "back post ", "back-post "],
    family: "post",
    uses: 1,
    makes: 1,
    source: abbreviationsList,
  },
  {
    id: "f",
    abbreviation: "f",
    name: "foundation ",
    spellings: ["f", "foundation ", "fdn ", "chainless foundation "],
    family: "foundation",
    uses: 0,
    makes: 1,
    source: fromMemory,
  },
  {
    id: "e",
    abbreviation: "e",
    name: "extended ",
    spellings: ["e", "ex", "ext ", "extended "],
    family: "extended",
    uses: 1,
    makes: 1,
    source: abbreviationsList,
  },
  {
    id: "cs",
    abbreviation: "cs",
    name: "chained starting ",
    spellings: ["cs", "chained starting ", "chained start ", "chainless starting ", "chainless start "],
    family: "start",
    uses: 1,
    makes: 1,
    source: fromMemory,
  },
  {
    id: "rev",
    abbreviation: "rev ",
    name: "reverse ",
    spellings: ["rev", "rev ", "reverse "],
    family: "plain",
    uses: 1,
    makes: 1,
    source: fromMemory,
  },
  {
    id: "spike",
    abbreviation: "spike ",
    name: "spike ",
    spellings: ["spike", "spike "],
    family: "plain",
    uses: 1,
    makes: 1,
    source: fromMemory,
  },
  {
    id: "l",
    abbreviation: "l",
    name: "linked ",
    spellings: ["l", "linked "],
    family: "plain",
    uses: 1,
    makes: 1,
    source: fromMemory,
  },
];

/** Stitches with the same name in both terms. The V-stitch is of US dc unless the pattern says otherwise. */
export const namedStitches: ReadonlyMap<string, Stitch> = new Map(
  [
    named("ch", "ch", "chain", "chain", 0, 1),
    named("sl st", "sl st", "slip stitch", "slip", 1, 1),
    named("inc", "inc", "increase", "increase", 1, 2),
    named("dec", "dec", "decrease", "decrease", 2, 1),
    named("invdec", "invdec", "invisible decrease", "decrease", 2, 1),
    named("cluster", "CL", "cluster", "cluster", 1, 1),
    named("popcorn", "pc", "popcorn", "cluster", 1, 1),
    named("puff", "puff", "puff stitch", "cluster", 1, 1),
    named("bobble", "bo", "bobble", "cluster", 1, 1),
    named("shell", "sh", "shell", "shell", 1, 1),
    { ...named("v-st", "V-st", "V-stitch", "v-stitch", 1, 2), base: "dc", turningChain: 3 },
    named("picot", "picot", "picot", "picot", 0, 0),
    { ...named("crab st", "crab st", "crab stitch", "plain", 1, 1), base: "sc", turningChain: 1 },
    { ...named("spike st", "spike st", "spike stitch", "plain", 1, 1), base: "sc", turningChain: 1 },
  ].map((stitch) => [stitch.id, stitch]),
);

function named(id: string, us: string, usName: string, family: Family, uses: number, makes: number): Stitch {
  return { id, us, uk: us, usName, ukName: usName, family, base: null, turningChain: 0, uses, makes };
}
