import type { WorkedRow } from "../fabric/worked";
import type { PatternLine } from "../notation/lines";
import type { Span } from "../text/span";
import { inProse } from "./outline";
import type { Found, WorkedPattern } from "./rule";
import { numbers, rowName, says } from "./wording";

/** Pieces that are closed flat with more stitches than half of their last round. */
export function flatClosings(pattern: WorkedPattern): Found[] {
  return closings(pattern).flatMap(({ said, line, part }) => {
    const last = part.piece?.rows.at(-1);
    const isBehind =
      last?.result === "ok" && last.line.head?.word !== "row" && line.start >= last.line.span.end;
    return isBehind ? closing(said, line, last) : [];
  });
}

const throughBoth =
  /\b(\d{1,3})\s*(?:sc|hdc|dc|htr|tr|sl\s?st|ss)s?\b(?=[^.;,]*\bthrough\s+both\s+(?:layers|thicknesses)\b)/i;

const twoPieces = /\b(?:two|pieces|circles|discs|motifs|squares|halves|front|back|other)\b/i;

const closings = inProse(({ text }): RegExpExecArray[] => {
  const match = throughBoth.exec(text);
  return match ? [match] : [];
});

function closing(match: RegExpExecArray, { text, start }: PatternLine, last: WorkedRow): Found[] {
  const makes = last.outcome?.makes ?? [];
  if (makes.length !== 1 || makes[0] == null) return [];
  const at = start + match.index;
  const span = { start: at, end: at + (match[1] as string).length };
  const n = Number(match[1]);
  // Two pieces that lie alike take one for each of their stitches: `hold the circles together`.
  if (n === makes[0] || twoPieces.test(text)) return [];
  // Of an odd number one is worked alone; fewer leave the ends open, as they may.
  return n <= Math.ceil(makes[0] / 2) ? [] : [found(span, n, makes[0], last)];
}

function found(span: Span, n: number, all: number, last: WorkedRow): Found {
  const half = Math.floor(all / 2);
  return {
    span,
    message: `${n} stitches through both layers need ${2 * n}, and ${says(rowName(last), "has")} ${numbers([all])}. Did you mean ${half}?`,
    fixes: [{ title: `Write ${half}`, edits: () => [{ span, newText: `${half}` }] }],
    related: [{ span: last.line.span, message: `${rowName(last)} is the round that is closed.` }],
  };
}
