import type { Terms } from "./stitch";
import { stitchOf, stitchSpellings } from "./stitches";

/** How far a word shows the terms a pattern is written in. */
export type Strength = "sure" | "strong" | "weak";

export interface TermsMark {
  readonly word: string;
  readonly terms: Terms;
  readonly strength: Strength;
}

/**
 * Words of only one country that prove little: a Canadian pattern sheet with US stitch names says
 * "miss" too (PAC0125-000240M). Sources: hilandonubes.com/crochet/info.cgi?id=3008 (miss, tension,
 * skip, gauge); a UK crochet book's abbreviations,
 * cdn.shopify.com/s/files/1/1537/8529/files/IW_CB960_SHAWLS_BOOK_001-128_UK_5c_9.pdf (yrh); the same
 * pattern in both terms, patternsforcrochet.co.uk/beanie-hat-usa.html and beanie-hat.html (ss).
 * "yoh" is printed on both sides of the ocean and marks nothing.
 */
const weakWords: Readonly<Record<string, Terms>> = {
  miss: "UK",
  tension: "UK",
  yrh: "UK",
  ss: "UK",
  skip: "US",
  gauge: "US",
};

/**
 * A word for a stitch that only US terms have, yet no proof: older UK patterns call the slip stitch
 * single crochet. Source: huggingface.co/datasets/FrancophonIA/crochet_terms; from memory.
 */
const strongBase = "sc";

/** The mark that a word sets, lower case, any spelling; undefined when it fits both terms. */
export function termsMarkOf(word: string): TermsMark | undefined {
  const weak = weakWords[word];
  return weak === undefined ? stitchMark(word) : { word, terms: weak, strength: "weak" };
}

/**
 * A stitch word marks the terms when it means the same stitch in both, under a name that only one of
 * them uses: `hdc` and `htr` do, `dc` and `dc2tog` do not.
 */
function stitchMark(word: string): TermsMark | undefined {
  const neutral = stitchSpellings.get(word) ?? word;
  const stitch = stitchOf(neutral, "US");
  if (stitch === undefined || stitch.us === stitch.uk || stitch.id !== stitchOf(neutral, "UK")?.id)
    return undefined;
  const terms = stitch.id === neutral ? "US" : "UK";
  return { word, terms, strength: stitch.base === strongBase && terms === "US" ? "strong" : "sure" };
}

/**
 * The terms that words in lower case speak for: a sure mark before a strong one; weak ones only when
 * two different words agree. Null when nothing speaks, or when marks of the same strength disagree.
 */
export function dialectOfWords(words: Iterable<string>): Terms | null {
  const marks = [...new Set(words)].flatMap((word) => termsMarkOf(word) ?? []);
  for (const strength of ["sure", "strong"] as const) {
    const found = new Set(marks.filter((mark) => mark.strength === strength).map((mark) => mark.terms));
    if (found.size > 0) return found.size === 1 ? ([...found][0] ?? null) : null;
  }
  return weakTerms(marks);
}

function weakTerms(marks: readonly TermsMark[]): Terms | null {
  const [first, second] = marks;
  if (first === undefined || second === undefined) return null;
  return marks.every((mark) => mark.terms === first.terms) ? first.terms : null;
}

/** Which terms a stitch speaks for by the chain before it. A tell, no proof: low uncounted chains exist. */
export interface HeightTell {
  /** Dialect-neutral word of the stitch that opens the row. */
  readonly word: string;
  readonly chains: number;
  readonly terms: Terms;
}

/** Each stitch behind a chain of its own height in one terms and not in the other. Source: from memory. */
export const heightTells: readonly HeightTell[] = [
  { word: "dc", chains: 1, terms: "UK" },
  { word: "tr", chains: 3, terms: "UK" },
  { word: "dtr", chains: 4, terms: "UK" },
  { word: "dc", chains: 3, terms: "US" },
  { word: "tr", chains: 4, terms: "US" },
  { word: "dtr", chains: 5, terms: "US" },
];

/** The terms that a stitch after an opening chain suggests; null when it suggests none. */
export function termsByHeight(word: string, chains: number): Terms | null {
  return heightTells.find((tell) => tell.word === word && tell.chains === chains)?.terms ?? null;
}
