import { draftIn } from "../reshape/terms/other-language";
import { withEdits } from "../text/span";
import { type Language, languages, stitchNamesIn } from "../trade/languages/languages";
import { type Checked, Checker } from "../workspace/checker";
import { leftLines, turnedText } from "./turn-pattern";

/** A pattern in another language, to be gone over by a maker of that language. */
export interface LanguageDraft {
  readonly text: string;
  /** What stayed English, a line for each word. */
  readonly left: readonly string[];
}

/** The languages that have names of stitches with a source. */
export const draftLanguages: readonly Language[] = languages.filter((language) =>
  stitchNamesIn(language, "sourced").has("ch"),
);

/** Null where the pattern is in another language already. */
export function languageDraft(read: Checked, language: Language): LanguageDraft | null {
  if (read.worked.context.language) return null;
  const { worked } = inUsTerms(read);
  const { edits, left } = draftIn(language, worked);
  const lineEnd = worked.text.includes("\r\n") ? "\r\n" : "\n";
  const said = `Language: ${language.name}`;
  const terms = worked.lines.find(({ text }) => /^\s*terms?\s*:/i.test(text));
  // Terms are a matter of English: the language stands in their place.
  const all = terms ? [...edits, { span: { start: terms.start, end: terms.end }, newText: said }] : edits;
  const top = [
    `Draft, word for word from the English text. To be checked by a maker whose language is ${language.name} before anybody works from it.`,
    ...(terms ? [] : [said]),
    "",
    "",
  ];
  const inOrder = [...all].sort((one, other) => one.span.start - other.span.start);
  return { text: top.join(lineEnd) + withEdits(worked.text, inOrder), left: leftLines(left, worked.text) };
}

/** What stays English in a pattern of another language is read in US terms. */
function inUsTerms(read: Checked): Checked {
  const turned = read.worked.context.terms === "UK" ? turnedText(read.worked.text, "US") : null;
  return turned ? new Checker().work(turned.text) : read;
}

export function languageDraftOf(text: string, language: Language): LanguageDraft | null {
  return languageDraft(new Checker().work(text), language);
}
