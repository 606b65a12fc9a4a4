import type { WorkedRow } from "../fabric/worked";
import { sentencesOf } from "../notation/assembly";
import type { PatternLine } from "../notation/lines";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { numberFrom } from "../trade/number-words";
import { inProse } from "./outline";
import type { Found, WorkedPattern } from "./rule";
import { numbers, rowName, says } from "./wording";

/** Pieces that are closed flat with more stitches than half of their last round. */
export function flatClosings(pattern: WorkedPattern): Found[] {
  return [...throughLayers(pattern), ...toFoundations(pattern), ...alongFoundations(pattern)];
}

function throughLayers(pattern: WorkedPattern): Found[] {
  return closings(pattern).flatMap(({ said, line, part }) => {
    const last = part.piece?.rows.at(-1);
    const isBehind =
      last?.result === "ok" &&
      (last.line.head?.word !== "row" || folded.test(line.text)) &&
      line.start >= last.line.span.end;
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

const eachChain = inProse((line): NumberSaid[] =>
  sentencesOf(line).flatMap(({ text, start }) => {
    const match = foundation.test(text)
      ? /\beach\s+of\s+the\s+(\d{1,3})\s+(?:chs?|chains?)\b/i.exec(text)
      : null;
    if (!match) return [];
    const typed = match[1] as string;
    const at = start + match.index + match[0].indexOf(typed);
    return [{ n: Number(typed), start: at, end: at + typed.length }];
  }),
);

/** `1 dc in each of the 51 chs of the foundation edge`: no piece was begun on so many. */
function alongFoundations(pattern: WorkedPattern): Found[] {
  return eachChain(pattern).flatMap(({ said: { n, start, end }, line }) => {
    const begun = pattern.pieces.flatMap(({ rows }) => rows.slice(0, 2));
    const numbersBegun = begun.flatMap(({ outcome, makes, line: row }) => {
      const chains = row.kind === "foundation" ? (makes?.[0] ?? null) : (row.plan?.foundation?.[0] ?? null);
      return [outcome?.makes[0] ?? null, outcome?.needs[0] ?? null, chains].filter((one) => one !== null);
    });
    const [row] = begun;
    if (!row || numbersBegun.length === 0 || numbersBegun.includes(n)) return [];
    const span = { start: line.start + start, end: line.start + end };
    return [
      {
        span,
        message: say`No piece begins with ${n} chains. Make the numbers agree.`,
        fixes: [],
        related: [{ span: row.line.span, message: say`Here the work begins.` }],
      },
    ];
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

/** A row, too, is closed on itself where it is folded. */
const folded = /\bfold\b[^.;]*\bhalf\b/i;
const bothLayers =
  /\b(?:through|across|into?)\s+(?:both|the\s+two|all)\s+(?:layers|thicknesses|sides|walls|edges|halves|sets\s+of\s+\w+)\b/i;
/** `5 sc`, `(5 sc)`, `five sc`; behind a stitch also the number alone, `sc … across (5)`. */
const soMany =
  /\b(\d{1,3}|[a-z]{3,8})\s+(?:sl\s?sts?|slip\s+stitches|ss|single\s+crochets?|sc|hdc|dc|htr|tr|sts|stitches|x(?=\s+through))\b|\(\s*(\d{1,3})\s*\)/giu;
const crocheted = /\b(?:x|sc|hdc|dc|htr|tr|ss|sl\s?st|slip\s+stitch|single\s+crochet|crochet|work)\b/i;

const twoPieces = /\b(?:two|pieces|circles|discs|motifs|squares|halves|front|back|other)\b/i;

/** How many stitches a sentence closes a flattened piece with; null where it names none, or several numbers. */
const closings = inProse((line): NumberSaid[] =>
  sentencesOf(line).flatMap(({ text, start }) => {
    if (!bothLayers.test(text) || !crocheted.test(text)) return [];
    const [only, ...others] = numbersIn(text, start);
    return only && others.length === 0 ? [only] : [];
  }),
);

/** A number of stitches in a line. */
interface NumberSaid extends Span {
  readonly n: number;
}

function numbersIn(text: string, from: number): NumberSaid[] {
  return [...text.matchAll(soMany)].flatMap((match) => {
    const typed = (match[1] ?? match[2]) as string;
    const n = numberFrom(typed);
    const start = from + match.index + match[0].indexOf(typed);
    return Number.isInteger(n) ? [{ n, start, end: start + typed.length }] : [];
  });
}

function closing({ n, start: at, end }: NumberSaid, { text, start }: PatternLine, last: WorkedRow): Found[] {
  const [all, ...sizes] = new Set(last.outcome?.makes ?? []);
  if (all == null || sizes.length > 0) return [];
  const span = { start: start + at, end: start + end };
  // Two pieces that lie alike take one for each of their stitches: `hold the circles together`.
  if (n === all || twoPieces.test(text)) return [];
  // Of an odd number one is worked alone; fewer leave the ends open, as they may.
  return n <= Math.ceil(all / 2) ? [] : [found(span, n, all, last)];
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
