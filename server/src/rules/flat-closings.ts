import type { WorkedRow } from "../fabric/worked";
import { sentencesOf } from "../notation/assembly";
import type { PatternLine } from "../notation/lines";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { inProse } from "./outline";
import type { Found, WorkedPattern } from "./rule";
import { numbers, rowName, says } from "./wording";

/** Pieces that are closed flat with more stitches than half of their last round. */
export function flatClosings(pattern: WorkedPattern): Found[] {
  return [...throughLayers(pattern), ...toFoundations(pattern)];
}

function throughLayers(pattern: WorkedPattern): Found[] {
  return closings(pattern).flatMap(({ said, line, part }) => {
    const last = part.piece?.rows.at(-1);
    const isBehind =
      last?.result === "ok" && last.line.head?.word !== "row" && line.start >= last.line.span.end;
    return isBehind ? closing(said, line, last) : [];
  });
}

const stitches = /\b(\d{1,3})\s*(?:sl\s?sts?|ss|sc|hdc|dc|htr|tr|sts|stitches)\b/i;
const lastRow = /\blast\s+(?:row|rnd|round)\b/i;
const foundation = /\b(?:foundation|starting|beginning|base)\s+(?:ch(?:ain)?|row|edge)\b|\bfirst\s+row\b/i;

const joined = inProse((line): RegExpExecArray[] =>
  sentencesOf(line).flatMap(({ text, start }) => {
    const match = lastRow.test(text) && foundation.test(text) ? stitches.exec(text) : null;
    return match ? [Object.assign(match, { index: start + match.index })] : [];
  }),
);

/** `Sl st the last row to the foundation chain, 18 sl sts`: as many as the row has. */
function toFoundations(pattern: WorkedPattern): Found[] {
  return joined(pattern).flatMap(({ said, line, part }) => {
    const last = part.piece?.rows.at(-1) ?? lastRowOf(pattern);
    const [made, ...sizes] = new Set(last?.result === "ok" ? (last.outcome?.makes ?? []) : []);
    const n = Number(said[1]);
    if (!last || line.start < last.line.span.end || sizes.length > 0 || made == null || made === n) return [];
    const start = line.start + said.index;
    return [notAllJoined({ start, end: start + `${n}`.length }, n, made, last)];
  });
}

/** What a part without rows speaks of, in a pattern of one piece. */
function lastRowOf({ pieces }: WorkedPattern): WorkedRow | undefined {
  return pieces.length === 1 ? pieces[0]?.rows.at(-1) : undefined;
}

function notAllJoined(span: Span, n: number, made: number, last: WorkedRow): Found {
  return {
    span,
    message: say`${says(rowName(last), "has")} ${numbers([made])} stitches, and this joins ${n} of them. Did you mean ${made}?`,
    fixes: [{ title: say`Write ${made}`, edits: () => [{ span, newText: `${made}` }] }],
    related: [{ span: last.line.span, message: say`${rowName(last)} is the row that is joined.` }],
  };
}

const throughBoth =
  /\b(\d{1,3})\s*(?:sc|hdc|dc|htr|tr|sl\s?st|ss)s?\b(?=[^.;,]*\bthrough\s+both\s+(?:layers|thicknesses)\b)/i;

/** `Flatten; sc through both layers across (4 sc)` */
const toldBehind =
  /\b(?:sc|hdc|dc|htr|tr|sl\s?st|ss)\s+(?:\w+\s+){0,2}?through\s+both\s+(?:layers|thicknesses)\b[^.;,()]*\(\s*(\d{1,3})(\s*(?:sc|hdc|dc|htr|tr|sl\s?sts?|ss|sts|stitches)?)\s*\)/i;

const twoPieces = /\b(?:two|pieces|circles|discs|motifs|squares|halves|front|back|other)\b/i;

const closings = inProse(({ text }): RegExpExecArray[] => {
  const match = throughBoth.exec(text) ?? toldBehind.exec(text);
  if (!match) return [];
  const at = match[0].lastIndexOf(match[1] as string);
  return [Object.assign(match, { index: match.index + (match[2] === undefined ? 0 : at) })];
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
    message: say`${n} stitches through both layers need ${2 * n}, and ${says(rowName(last), "has")} ${numbers([all])}. Did you mean ${half}?`,
    fixes: [{ title: say`Write ${half}`, edits: () => [{ span, newText: `${half}` }] }],
    related: [{ span: last.line.span, message: say`${rowName(last)} is the round that is closed.` }],
  };
}
