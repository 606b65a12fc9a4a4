import type { Terms } from "../../trade/stitches";
import { partOf, type Stretch } from "./stretch";

/** What a line says of the terms a pattern is written in. */
export interface TermsLine extends Stretch {
  readonly terms: Terms;
}

const forms: readonly (readonly [Terms, RegExp])[] = [
  [
    "UK",
    /\b(?:uk|british)\b[^.]*\bterm|\b(?:terms?|abbreviations|stitch(?:es)?)\s*(?:used|are|is)?\s*[:=-]?\s*\(?(?:uk|british)\b|written in (?:uk|british)|[(,]\s*(?:uk|british)\s*\)\s*$|uk (?:crochet )?(?:terminology|abbreviations)/i,
  ],
  [
    "US",
    /\b(?:us|usa|american)\b[^.]*\bterm|\b(?:terms?|abbreviations|stitch(?:es)?)\s*(?:used|are|is)?\s*[:=-]?\s*\(?(?:us|american)\b|written in (?:us|american)|[(,]\s*(?:us|usa|american)\s*\)\s*$/i,
  ],
];

/** The terms that a line declares; null where it declares none. */
export function termsDeclaredIn(text: string): Terms | null {
  return forms.find(([, form]) => form.test(text))?.[0] ?? null;
}

/** The first of several lines that declares the terms. */
export function readTermsLine(lines: readonly Stretch[]): TermsLine | null {
  for (const line of lines) {
    const terms = termsDeclaredIn(line.text);
    if (terms) return { ...partOf(line, 0), terms };
  }
  return null;
}
