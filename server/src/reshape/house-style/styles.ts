/** How a house writes its rows. Common practice of the trade, no source. */
export interface HouseStyle {
  /** The word before the number of a round; a row is "Row" in all of them. */
  readonly round: "Rnd" | "Round";
  readonly repeats: RepeatForm;
  /** `2 sc` or `sc 2`. */
  readonly number: "before" | "behind";
  /** `(24)` or `[24]`. */
  readonly count: "round" | "square";
  /** Signs that every keyboard and program has. */
  readonly signs: "any" | "plain";
}

/** `(sc, inc) x6`, `(sc, inc) 6 times`, `*sc, inc; rep from * 5 more times`. */
export type RepeatForm = "x" | "times" | "asterisk";

export type StyleName = "compact" | "written-out" | "plain-text";

export const houseStyles: Readonly<Record<StyleName, HouseStyle>> = {
  compact: { round: "Rnd", repeats: "x", number: "before", count: "round", signs: "any" },
  "written-out": { round: "Round", repeats: "asterisk", number: "before", count: "round", signs: "any" },
  "plain-text": { round: "Rnd", repeats: "times", number: "behind", count: "square", signs: "plain" },
};
