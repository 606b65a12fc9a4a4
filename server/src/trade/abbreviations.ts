import type { Terms } from "./stitch";
import { stitchOf, stitchSpellings } from "./stitches";

/** An abbreviation that is no stitch, with the spellings it is printed in. */
export interface Abbreviation {
  readonly words: readonly string[];
  readonly meaning: string;
  readonly source: string;
}

const list2012 = "stitch4ever.com/2012/01/30/abbreviations-in-crochet-patterns";
const list2022 = "danceswithwools.net/2022/09/16/understanding-crochet-abbreviations";
const sheets = "Yarnspirations pattern sheets";
const ukBook =
  "UK crochet book (cdn.shopify.com/s/files/1/1537/8529/files/IW_CB960_SHAWLS_BOOK_001-128_UK_5c_9.pdf)";
const fromMemory = "Craft Yarn Council master list, from memory";

/** The names of stitches are with the stitches. */
export const abbreviations: readonly Abbreviation[] = [
  { words: ["alt"], meaning: "alternate", source: list2012 },
  { words: ["approx"], meaning: "approximately", source: sheets },
  { words: ["beg"], meaning: "begin, beginning", source: list2012 },
  { words: ["bet"], meaning: "between", source: list2022 },
  { words: ["BL", "BLO"], meaning: "back loop, back loop only", source: list2012 },
  { words: ["BP"], meaning: "back post", source: fromMemory },
  { words: ["CA"], meaning: "color A", source: fromMemory },
  { words: ["CB"], meaning: "color B", source: fromMemory },
  { words: ["CC"], meaning: "contrasting color", source: list2012 },
  { words: ["ch-"], meaning: "a chain or chain space already made, as in ch-1 sp", source: list2022 },
  { words: ["ch-sp", "ch sp"], meaning: "chain space", source: list2012 },
  { words: ["cont"], meaning: "continue", source: list2012 },
  { words: ["FL", "FLO"], meaning: "front loop, front loop only", source: list2012 },
  { words: ["foll"], meaning: "following", source: fromMemory },
  { words: ["FP"], meaning: "front post", source: fromMemory },
  { words: ["lp"], meaning: "loop", source: list2012 },
  { words: ["m"], meaning: "marker", source: fromMemory },
  { words: ["MC"], meaning: "main color", source: list2012 },
  { words: ["MR"], meaning: "magic ring", source: "a survey of 108 published patterns (1848 to today)" },
  { words: ["pat", "patt"], meaning: "pattern", source: sheets },
  { words: ["pm"], meaning: "place marker", source: sheets },
  { words: ["prev"], meaning: "previous", source: list2022 },
  { words: ["rem"], meaning: "remaining", source: list2022 },
  { words: ["rep"], meaning: "repeat", source: list2022 },
  { words: ["rnd"], meaning: "round", source: list2022 },
  { words: ["RS"], meaning: "right side", source: list2022 },
  { words: ["sk"], meaning: "skip", source: list2022 },
  { words: ["sm", "sl m"], meaning: "slip marker", source: fromMemory },
  { words: ["sp"], meaning: "space", source: list2022 },
  { words: ["st"], meaning: "stitch", source: list2022 },
  { words: ["tbl"], meaning: "through back loop", source: fromMemory },
  { words: ["tch", "t-ch"], meaning: "turning chain", source: ukBook },
  { words: ["tog"], meaning: "together", source: list2022 },
  { words: ["WS"], meaning: "wrong side", source: list2022 },
  { words: ["yd"], meaning: "yard", source: ukBook },
  { words: ["yo"], meaning: "yarn over", source: list2022 },
  { words: ["yoh"], meaning: "yarn over hook", source: sheets },
  { words: ["yrh"], meaning: "yarn round hook (UK)", source: ukBook },
];

/** So common that a pattern need not explain them. Common practice, no source. */
export const everybodyKnows: ReadonlySet<string> = new Set([
  "st",
  "sts",
  "rnd",
  "rnds",
  "rs",
  "ws",
  "inc",
  "dec",
]);

const byWord = new Map(
  abbreviations.flatMap((entry) => entry.words.map((word) => [word.toLowerCase(), entry] as const)),
);

/**
 * What an abbreviation stands for in the terms in force, in any case; undefined when the trade has no
 * such abbreviation.
 */
export function meaningOf(word: string, terms: Terms): string | undefined {
  const spelled = word.toLowerCase();
  const stitch = stitchOf(stitchSpellings.get(spelled) ?? spelled, terms);
  return (terms === "US" ? stitch?.usName : stitch?.ukName) ?? byWord.get(spelled)?.meaning;
}

/** Short forms of any trade or of everyday English: nobody explains them. Common practice, no source. */
const everyday: ReadonlySet<string> = new Set(["approx", "cont", "yd", "m", "ca", "cb", "cc", "mc", "ch-"]);

/** Known to every maker, or no word of crochet at all. */
export function needsNoList(word: string): boolean {
  return everybodyKnows.has(word.toLowerCase()) || everyday.has(word.toLowerCase());
}

/**
 * Whether a word is a short form of the trade: `sc`, `sl st`, `BLO` and `sc2tog` are, `shell`, `chain`
 * and `half double` are none.
 */
export function isAbbreviation(word: string): boolean {
  const short = singularOf(word.toLowerCase());
  const meant = meaningOf(short, "US")
    ?.toLowerCase()
    .split(/[\s,]+/);
  return (
    meant !== undefined &&
    !short.split(" ").some((part) => meant.includes(part.replace(/s$/, "")) || meant.includes(part))
  );
}

/** `st`, `rep` and `sk` shorten words that are no stitches. */
export function isOfNoStitch(word: string): boolean {
  return isAbbreviation(word) && byWord.has(singularOf(word.toLowerCase()));
}

/** The meaning as a list of abbreviations gives it: of `BLO` "back loop only". */
export function entryFor(word: string, terms: Terms): string | undefined {
  const entry = byWord.get(word.toLowerCase());
  const meaning = meaningOf(word, terms) ?? meaningOf(keyOfAbbreviation(word), terms);
  const meanings = meaning?.split(", ") ?? [];
  const at = entry?.words.findIndex((one) => one.toLowerCase() === word.toLowerCase()) ?? 0;
  return meanings[at] ?? meanings[0];
}

/** What two spellings of one abbreviation have in common: `slst` and `ss`, `BL` and `BLO`, `sp` and `sps`. */
export function keyOfAbbreviation(word: string): string {
  const short = singularOf(word.toLowerCase());
  return stitchSpellings.get(short) ?? byWord.get(short)?.words[0]?.toLowerCase() ?? short;
}

function singularOf(spelled: string): string {
  const short = spelled.replace(/(?<=.)s$/, "");
  return short !== spelled && meaningOf(spelled, "US") === undefined ? short : spelled;
}
