import { Lately } from "../../text/lately";
import type { Span } from "../../text/span";
import { isAbbreviation, keyOfAbbreviation } from "../../trade/abbreviations";

/** An abbreviation as a line uses it, in offsets of the line. */
export interface AbbreviationMention extends Span {
  /** Equal for all spellings of one abbreviation. */
  readonly key: string;
  /** As typed. */
  readonly word: string;
}

const words = /\bsl[ .-]{0,2}sts?\b|\p{L}+(?:\d{1,2}tog\b)?/giu;
/** `sc (UK dc)`, `[US: sc]`: the same stitch in the other terms, for who works in those. */
const glosses =
  /[([][^()[\]]{0,60}?\b(?:UK|US|USA|British|American)\b[^()[\]]{0,60}[)\]]|\b(?:UK|US)\s+\p{L}{1,6}\b/gu;

/** The abbreviations of the trade in a line, each where it stands first. */
export function abbreviationsIn(text: string): AbbreviationMention[] {
  const found = new Map<string, AbbreviationMention>();
  for (const { 0: word, index } of withoutGlosses(text).matchAll(words)) {
    const key = keyOf(word.toLowerCase());
    if (key !== null && !found.has(key))
      found.set(key, { key, word, start: index, end: index + word.length });
  }
  return [...found.values()];
}

function withoutGlosses(text: string): string {
  if (!/\bU[KS]|British|American/.test(text)) return text;
  return text.replace(glosses, (gloss) => " ".repeat(gloss.length));
}

/** A pattern has few different words. */
const keys = new Lately<string | null>(2_000);

function keyOf(word: string): string | null {
  let key = keys.get(word);
  if (key === undefined) {
    const plain = word.replace(/^sl[ .-]*st(s?)$/, "sl st$1");
    key = isAbbreviation(plain) ? keyOfAbbreviation(plain) : null;
    keys.set(word, key);
  }
  return key;
}
