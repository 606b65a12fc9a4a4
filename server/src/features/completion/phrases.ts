import type { Terms } from "../../trade/stitches";
import { roundsOrRows } from "../row-names";
import { line } from "../shown/blocks";
import type { CompletionSource } from "./entry";
import type { WritingPlace } from "./writing-place";

/** What rows say over and over. Common practice, no source. */
const always = [
  "in next st",
  "in next 2 sts",
  "in each st",
  "in same st",
  "in first st",
  "in last st",
  "in back loop only",
  "in front loop only",
  "fasten off",
];
const inRounds = ["around", "in each st around", "rep from * around"];
const inRows = ["across", "in each st across", "rep from * across", "to last 2 sts", "turn"];
const inTerms: Readonly<Record<Terms, readonly string[]>> = {
  US: ["sk next st", "join with sl st to first st", "in magic ring"],
  UK: ["miss next st", "join with ss to first st", "into magic ring"],
};

/** Phrases of the trade, those of rounds or those of rows. */
export const phrases: CompletionSource = (place) => {
  if (!place.isInRow) return [];
  return phrasesFor(place).map((label) => ({
    kind: "phrase",
    label,
    detail: "",
    span: place.beginningOf(label),
    newText: label,
    rank: 40,
    blocks: () => [line(label)],
  }));
};

function phrasesFor({ current, pattern }: WritingPlace): readonly string[] {
  const isRound = current !== null && roundsOrRows(current.row.line, current.piece) === "rounds";
  return [...always, ...(isRound ? inRounds : inRows), ...inTerms[pattern.context.terms]];
}
