import type { Word } from "../notation/words";
import { say } from "../text/say";
import type { Span } from "../text/span";

/** A word of a row that matters and was not understood. */
export interface UnknownWord {
  readonly text: string;
  readonly span: Span;
  /** What it would have to be, by where it stands. */
  readonly sort: "stitch" | "place" | "words" | "not written out";
}

const placeNouns = "CptqcgH";
/** Plain English that names no stitch. */
const plainWords = /^(?:other|others|opposite|remaining|foundation|free|opening|this|that|both|another|any)$/;
const placeLeads = /^(?:at|near|from|by|towards?|under|beside)$/;
/** What an instruction may begin behind. */
const openings = /^[,;.:*([{&$+n-]$/;

/** What the `i`-th word of a row would have to be, which nothing explains. */
export function sortOfUnknown(words: readonly Word[], i: number): UnknownWord["sort"] {
  const [before, word] = [words[i - 1], words[i]];
  if (placeNouns.includes(word?.cls ?? "-")) return "place";
  if (word?.cls === "?") return "not written out";
  if (plainWords.test(word?.value ?? "")) return "words";
  if (before === undefined || openings.test(before.cls)) return "stitch";
  return before.cls === "i" || placeLeads.test(before.value) ? "place" : "words";
}

/** Why a row with such a word is not checked. */
export function whyUnknown({ text, sort }: UnknownWord): string {
  if (sort === "place") return say`where "${text}" is, is not known here`;
  if (sort === "not written out") return say`"${text}" stands for what is not written out`;
  return sort === "stitch"
    ? say`"${text}" is not explained in this pattern`
    : say`"${text}" is not understood here`;
}

/** `in next st work sc3tog` is no `ch-2 sp of shell`: a stitch behind its place. */
export function worksBehindPlace(words: readonly Word[], text: string): boolean {
  const [place, stitch] = words.slice(-2);
  const isWorked = stitch?.cls === "S" && "tCpq".includes(place?.cls ?? "-");
  return isWorked && !/\bof\b/i.test(text.slice(place?.end, stitch.start));
}
