/** Names of stitches that one source prints, by the US letters; of several spellings the first is written. */
export interface NamesBySource {
  /** Where they are printed; null: from memory, so they are read but never written. */
  readonly source: string | null;
  readonly names: Readonly<Record<string, string>>;
}

/** How a row or a round is announced. */
export interface HeadWords {
  /** Before or behind its number, in lower case; "|" between spellings. */
  readonly words: string;
  /** As it is written, with {n} for the number. */
  readonly written: string;
}

/** A language that patterns are written in: what its words are in US pattern English. */
export interface Language {
  readonly code: string;
  readonly name: string;
  /** What the language calls itself, in lower case; "|" between spellings. */
  readonly itself: string;
  readonly row: HeadWords;
  readonly round: HeadWords;
  readonly stitches: readonly NamesBySource[];
  /**
   * What stands between stitches: English on the left, the language on the right. Words that say nothing
   * to us, such as articles, stand for "the". Ordinary words of the language, from memory.
   */
  readonly words: Readonly<Record<string, string>>;
  /** How a starting chain is asked for: verbs before it, in lower case, and how it is written. */
  readonly chain: { readonly verbs: string; readonly written: string };
}

/** "Crochet Terms Translation Chart", cdn.shopify.com/s/files/1/0659/6837/3974/files/Crochet_Terms_Translation_Chart.pdf */
export const translationChart = "Crochet Terms Translation Chart (cdn.shopify.com/s/files/1/0659/6837/3974)";
/** Met in a survey of 108 published patterns: toys, in the shape ring, increases, decreases, total. */
export const survey = "a survey of 108 published patterns";
