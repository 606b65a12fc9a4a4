import type { HeadDraft } from "./document";
import { alternatives, headWords } from "./other-languages";

/** What closes a head, behind a label such as `(RS)`. */
const closing = String.raw`(?=\s*(?:\([^()]*\)\s*)?[:.)–—-])`;
const words = `(${alternatives([...headWords.keys()])})`;
const number = String.raw`(\d{1,12})`;
/** `Rg 4 à 5`, `3.-5. Runde`. */
const to = String.raw`\s*(?:[-–—&,]|à|a|al|bis|und|et|y|e|og|en|до|til|t\/m|tot|till?|ja)\s*`;
/** What makes "first" of a 1. */
const ordinal = String.raw`(?:\.|[ªº]|-?й|ère|ème|[eè](?!\p{L}))?`;

/** `Rg 1 :`, `Vuelta 3 –`: the word before the number. */
const wordFirst = new RegExp(
  String.raw`^${words}\.?\s*${number}(?:${to}(?:${words}\.?\s*)?${number})?${closing}`,
  "iu",
);
/** `1. Runde:`, `1ª carreira:`, `1 р:`. */
const numberFirst = new RegExp(
  String.raw`^${number}${ordinal}(?:${to}${number}${ordinal})?\s*${words}\.?${closing}`,
  "iu",
);

/** The head of a row in a language other than English; null where a text begins with none. */
export function draftOfOtherLanguage(body: string): HeadDraft | null {
  if (!/^\p{L}{0,10}\.?\s?\d/u.test(body)) return null;
  const named = wordFirst.exec(body);
  if (named) return draftOf(named[0], named[1], named[2], named[4]);
  const numbered = numberFirst.exec(body);
  if (!numbered || isEnglish(numbered, body)) return null;
  return draftOf(numbered[0], numbered[3], numbered[1], numbered[2]);
}

/** `3rd. Weave in the ends`, `22 r. = 10 cm`: a short word is a head only where it stands apart, or before a colon. */
function isEnglish({ 0: text, 3: word = "" }: RegExpExecArray, body: string): boolean {
  if (!/^[a-z]{1,2}$/i.test(word)) return false;
  const isApart = /\s[a-z]{1,2}\.?$/i.test(text);
  const hasColon = /^\.?\s*(?:\([^()]*\)\s*)?:/.test(body.slice(text.length));
  return !isApart || (word.length === 1 && !hasColon);
}

function draftOf(text: string, word = "", from = "", to: string | undefined): HeadDraft | null {
  const known = headWords.get(word.toLowerCase());
  if (!known) return null;
  return {
    text: text.replace(/\.$/, ""),
    // Words for "row" are said of rounds as well.
    word: known.word === "round" ? "round" : "none",
    from: Number(from),
    to: to === undefined ? null : [Number(to)],
    open: false,
    many: null,
    language: known.language,
  };
}
