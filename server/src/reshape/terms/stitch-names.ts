import type { Span } from "../../text/span";
import type { Terms } from "../../trade/stitches";
import { plainSpellings, turnedSpelling } from "../../trade/term-spellings";
import { likeCase } from "./like-case";

/** A name that is another stitch, or none, in the other terms: only the part that changes, `dc` of `FPdc2tog`. */
export interface StitchName extends Span {
  readonly word: string;
  /** In lower case, with single spaces. */
  readonly spelling: string;
}

const spelled = plainSpellings.map((one) => one.replaceAll(".", "\\.").replaceAll(" ", "\\s+")).join("|");
/** What may stand before and behind a stitch without a gap: `FPdc`, `BLOsc`, `dcs`, `scinc`, `2dctog`, `sctbl`. */
const before = "(?<=(?<![\\p{L}'’])(?:fp|bp|ex|f|e|cs|rev|spike|l|blo|flo|bl|fl)?)";
const behind = "(?=(?:'s|’s|s|[fb]ps?|blo|flo|bl|fl|tbl|inc|dec|(?:\\d*|s)tog\\p{L}*)?(?!\\p{L}))";
const plain = new RegExp(`${before}(?:${spelled})${behind}`, "giu");
/** `RtrF`, `raised front treble`, `raised treble front`; a UK name always. */
const raised =
  /(?<!\p{L})(?:r(dc|htr|tr|dtr)([fb])|raised\s+(?:(front|back)\s+)?(dc|htr|tr|dtr|double crochet|(?:half |double )?treble(?: crochet)?)s?(?:\s+(front|back))?)(?!\p{L})/giu;
/** Reverse single crochet has a short form of its own. */
const reverse = /(?<!\p{L})rsc(?!\p{L})/giu;

/** The names in a text whose stitch depends on the terms, in order. */
export function stitchNamesIn(text: string): StitchName[] {
  const whole = [...nameIn(text, raised), ...nameIn(text, reverse)];
  const isFree = ({ start }: Span) => !whole.some((one) => one.start <= start && start < one.end);
  return [...whole, ...nameIn(text, plain).filter(isFree)].sort((a, b) => a.start - b.start);
}

function nameIn(text: string, form: RegExp): StitchName[] {
  return [...text.matchAll(form)].map(({ 0: word, index }) => ({
    word,
    spelling: word.toLowerCase().replace(/\s+/g, " "),
    start: index,
    end: index + word.length,
  }));
}

/** What a name becomes when it is turned out of the given terms; null where they have no such name. */
export function turnedName({ word, spelling }: StitchName, from: Terms): string | null {
  if (spelling === "rsc") return from === "US" ? likeCase("rev dc", word) : null;
  const side = raisedSide(spelling);
  if (side !== null) return from === "UK" ? turnedRaised(spelling, side, word) : null;
  const turned = turnedSpelling(spelling, from);
  return turned === undefined ? null : likeCase(turned, word);
}

function raisedSide(spelling: string): string | null {
  const [, , letter, first, , last] = new RegExp(raised.source, "iu").exec(spelling) ?? [];
  return letter ?? first ?? last ?? null;
}

/** The raised stitch of UK books is the post stitch. */
function turnedRaised(spelling: string, side: string, word: string): string | null {
  const [, letters] = /^r(?!aised)(.+)[fb]$/.exec(spelling) ?? [];
  const named = spelling.replace(/^raised | ?\b(?:front|back)\b ?/g, "");
  const turned = turnedSpelling(letters ?? named.replace(/s$/, ""), "UK");
  if (turned === undefined) return null;
  if (letters !== undefined) return `${side === "f" ? "FP" : "BP"}${turned}`;
  return likeCase(`${side} post ${turned}${named.endsWith("s") ? "s" : ""}`, word);
}
