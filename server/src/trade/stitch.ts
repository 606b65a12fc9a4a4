export type Terms = "US" | "UK";

export type Family =
  | "plain"
  | "chain"
  | "slip"
  | "post"
  | "foundation"
  | "extended"
  | "together"
  | "increase"
  | "decrease"
  | "cluster"
  | "shell"
  | "v-stitch"
  | "picot"
  | "start";

/** One stitch of the trade, whatever it is called in the terms in force. */
export interface Stitch {
  /** The US word in lower case: `sc`, `fpdc`, `sc2tog`, `popcorn`. The same stitch has the same id in both terms. */
  readonly id: string;
  /** The abbreviation printed in US terms. */
  readonly us: string;
  /** The abbreviation printed in UK terms. */
  readonly uk: string;
  readonly usName: string;
  readonly ukName: string;
  readonly family: Family;
  /** Id of the plain stitch it is built on, itself for a plain stitch; null where that is not known. */
  readonly base: string | null;
  /** Chains of the height of its base; 0 where the base is not known, and for chains and slip stitches. */
  readonly turningChain: number;
  /** Places of the row below used by one. */
  readonly uses: number;
  /** Stitches made by one. A chain makes 1, which counts only where the pattern's count has it. */
  readonly makes: number;
}
