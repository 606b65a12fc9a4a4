import { stitchOf } from "./stitches";

/** How a row of a stitch begins, where the pattern says nothing. */
export interface TurningChain {
  /** Chains worked at the start of the row; 0 where the height of the stitch is not known. */
  readonly chains: number;
  /** Whether they count as a stitch. "unsettled" where the trade disagrees, or knows no rule. */
  readonly counts: true | false | "unsettled";
  /** On a starting chain, the chain from the hook that takes the first stitch. */
  readonly firstIn: number;
}

interface Rule extends TurningChain {
  readonly source: string;
  readonly firstInSource: string;
}

const dummies = "dummies.com/how-to/content/how-to-crochet-a-turning-chain.html";
const guildLesson = "Crochet Guild of America lesson, 1997 (careyscraftycorner.tripod.com/id15_m.htm)";
const moreStitches = "crazypatterns.net/en/blog/243/mehr-haekelmaschen";
const threeTables = `${dummies}; ${guildLesson}; ${moreStitches}`;
const fromMemory = "from memory";

/** The published rules by stitch, US names. */
const rules: Readonly<Record<string, Rule>> = {
  "sl st": {
    chains: 0,
    counts: false,
    firstIn: 2,
    source: threeTables,
    firstInSource: "pattern sheet PAC0116-030195M",
  },
  sc: {
    chains: 1,
    counts: false,
    firstIn: 2,
    source: threeTables,
    firstInSource: "pattern sheet BRC0502-035419M",
  },
  hdc: {
    chains: 2,
    counts: "unsettled",
    firstIn: 3,
    source: threeTables,
    firstInSource: "forum.knittinghelp.com/t/teaching-myself-crochet-basics-again/72046",
  },
  dc: {
    chains: 3,
    counts: true,
    firstIn: 4,
    source: threeTables,
    firstInSource: "pattern sheet CAC0135-001742M",
  },
  tr: { chains: 4, counts: true, firstIn: 5, source: threeTables, firstInSource: fromMemory },
  dtr: {
    chains: 5,
    counts: true,
    firstIn: 6,
    source: `${dummies}; ${moreStitches}`,
    firstInSource: fromMemory,
  },
  trtr: { chains: 6, counts: true, firstIn: 7, source: fromMemory, firstInSource: fromMemory },
  quadtr: { chains: 7, counts: true, firstIn: 8, source: fromMemory, firstInSource: fromMemory },
};

/** For stitches without a height of their own: no chain is expected, and one that is there may count or not. */
const unknownHeight: TurningChain = { chains: 0, counts: "unsettled", firstIn: 2 };

/**
 * The turning chain of a stitch, by its id (the US word). A compound has that of the stitch it is
 * built on, so `fpdc` and `dc2tog` begin like `dc`.
 */
export function turningChainFor(stitchId: string): TurningChain {
  return rules[stitchId] ?? rules[stitchOf(stitchId, "US")?.base ?? ""] ?? unknownHeight;
}

/** Starts lower than the stitch, which are never counted: hdc after ch 1, dc after ch 2. Source: from memory. */
export const lowStarts: Readonly<Record<string, TurningChain>> = {
  hdc: { chains: 1, counts: false, firstIn: 2 },
  dc: { chains: 2, counts: false, firstIn: 3 },
};

/** A point on which published rules differ, with who says what. */
export interface Disagreement {
  readonly point: string;
  readonly says: readonly { readonly value: string; readonly source: string }[];
}

export const turningChainDisagreements: readonly Disagreement[] = [
  {
    point: "chains to turn for slip stitch",
    says: [
      { value: "0", source: `${dummies}; ${guildLesson}` },
      { value: "1", source: "free-crochet.com/blog/?p=735" },
    ],
  },
  {
    point: "the ch 2 of hdc counts as a stitch",
    says: [
      {
        value: "yes",
        source: `${dummies}; mariescozycorner.blogspot.com/2009/03/turning-chains-when-working-crochet-in.html`,
      },
      {
        value: "no",
        source: "pattern sheets CAC0129-028772M, BRC0125-027114M; d60crochet.com/p/anytime-beanie.html",
      },
      {
        value: "as the maker likes",
        source: "crochetcabanablog.wordpress.com/resources/turning-chains",
      },
    ],
  },
  {
    point: "the ch 3 of dc counts as a stitch",
    says: [
      { value: "yes", source: "pattern sheets CAC0135-001742M, BRC0502-030110M, and most" },
      {
        value: "replaced by a ch 2 that does not count",
        source: "bitsandbobstheblog.blogspot.com/2008/05/filet-crochet-dishcloth.html",
      },
    ],
  },
  {
    point: "chains to begin 11 hdc",
    says: [
      {
        value: "12 (ch 2 counts)",
        source:
          "a yarn company's beginners' booklet, quoted at forum.knittinghelp.com/t/teaching-myself-crochet-basics-again/72046",
      },
      {
        value: "13 (ch 2 does not count); dc 14, tr 15, dtr 16",
        source: "correction at forum.knittinghelp.com/t/teaching-myself-crochet-basics-again/72046",
      },
    ],
  },
];

/**
 * Chains to begin a flat row of `stitches` stitches: the skipped chains are added, and one is saved
 * where they stand for the first stitch.
 */
export function startingChainFor(stitches: number, { counts, firstIn }: TurningChain): number {
  return stitches + firstIn - (counts === true ? 2 : 1);
}
