import { signsOf } from "../fabric/term-signs";
import { termsDeclaredIn } from "../notation/front-matter/terms";
import type { Span } from "../text/span";
import type { Terms } from "../trade/stitches";

/** The terms that a pattern and a stretch of it are in, where the two differ. */
export interface PastedTerms {
  readonly pattern: Terms;
  readonly pasted: Terms;
}

/**
 * A stretch that was pasted, held against the rest of the pattern. Only names that one of the two terms has,
 * `htr` or `hdc`, tell: a `dc` alone is of either. Null where nothing tells, or both are of the same.
 */
export function pastedTerms(text: string, { start, end }: Span): PastedTerms | null {
  const pasted = plainTerms(text.slice(start, end));
  if (pasted === null) return null;
  const rest = `${text.slice(0, start)}${text.slice(end)}`;
  const declared = rest.split(lineEnd).map(termsDeclaredIn);
  const pattern = declared.find((terms) => terms !== null) ?? plainTerms(rest);
  return pattern === null || pattern === pasted ? null : { pattern, pasted };
}

const lineEnd = /\r\n|\n|\r/;

function plainTerms(text: string): Terms | null {
  const lines = text.split(lineEnd).map(signsOf);
  const [uk, us] = [lines.some((line) => line.uk), lines.some((line) => line.us)];
  if (uk === us) return null;
  return uk ? "UK" : "US";
}
