import type { Span } from "../../text/span";
import type { Terms } from "../../trade/stitches";

/** A word that tells which terms something is in. */
export interface Label extends Span {
  readonly terms: Terms;
  /** The same in the other terms. */
  readonly turned: string;
}

const opposites: Readonly<Record<string, string>> = {
  UK: "US",
  US: "UK",
  USA: "UK",
  British: "American",
  American: "British",
  Uk: "Us",
  uk: "us",
  us: "uk",
};
const label = "(?:UK|USA?|British|American)";
const labels = new RegExp(`(?<!\\p{L})${label}(?!\\p{L})`, "gu");
/** Where a label tells the terms of the whole pattern; only here small letters are no pronoun. */
const declaring = new RegExp(
  `(?<!\\p{L})(?:UK|USA?|British|American|uk|us)(?=\\b(?:(?!${label})[^.;()]){0,40}?\\b(?:terms?|terminology|abbreviations|stitch names)\\b)|(?<=\\bterms?\\s*(?:used)?\\s*[:=-]?\\s*|\\bwritten in\\s+)(?:UK|USA?|British|American|Uk|uk|us)(?!\\p{L})`,
  "giu",
);

/** The labels that tell the terms of the pattern. */
export function declaringLabels(text: string): Label[] {
  return labelsIn(text, declaring);
}

/** Everything in a line that may tell in which terms a name is. */
export function allLabels(text: string): readonly Label[] {
  return labelsIn(text, labels);
}

/** Characters between a label and what it is about, and around both. */
const nearby = 80;

/** The label, of all of a line, that tells in which terms a name is: `sc (UK dc)`, `dc (US)`. */
export function labelOf({ start, end }: Span, text: string, all: readonly Label[]): Label | null {
  const last = all.findLast((one) => one.end <= start);
  if (last && start - last.end <= nearby) {
    const before = text.slice(Math.max(0, last.start - nearby), last.start);
    if (governs(text.slice(last.end, start), before)) return last;
  }
  const next = all.find((one) => one.start >= end);
  if (!next || next.start - end > nearby) return null;
  return isBehind(text.slice(end, next.start), text.slice(next.end, next.end + nearby)) ? next : null;
}

function labelsIn(text: string, form: RegExp): Label[] {
  return [...text.matchAll(form)].flatMap(({ 0: word, index }) => {
    const turned = opposites[word];
    if (turned === undefined) return [];
    const terms = /^u?k|^b/i.test(word) ? "UK" : "US";
    return [{ start: index, end: index + word.length, terms, turned }] as const;
  });
}

/** Directly before a name, or before several within one bracket. */
function governs(between: string, before: string): boolean {
  if (/^\s*(?:terms?)?\s*[:=-]?\s*(?:\d+\s*)?(?:\p{L}{1,5})?$/u.test(between)) return true;
  return /[([][^()[\]]*$/.test(before) && /^[^()[\]]{0,60}$/.test(between);
}

function isBehind(between: string, behind: string): boolean {
  return (
    (/^\p{L}{0,3}\s*[([]\s*(?:in\s+)?$/u.test(between) && /^(?:\s+terms)?\s*[)\]]/.test(behind)) ||
    /^\p{L}{0,3}\s+in\s+$/u.test(between)
  );
}
