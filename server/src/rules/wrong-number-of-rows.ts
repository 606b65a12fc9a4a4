import { perPiece } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import { readRowReferences } from "../notation/row-references";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { numberWords, timesWords } from "../trade/number-words";
import type { Found, PatternRule } from "./rule";
import { headOf, rowName, says } from "./wording";

/** A range of rows says how many it has, and has another number. */
export const wrongNumberOfRows: PatternRule = {
  id: "wrong-number-of-rows",
  severity: "warning",
  documentation: `## What it finds
A range of rows with a remark on how many they are that does not go with its numbers: "Rnds 5-9 … (6 rnds)". Also a range that repeats others more or less often than it has rows: "Rows 4-9: Rep Rows 2-3 four more times".

## Why it matters
Makers go by the one or by the other, and the next row does not bear the number that they have reached.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnds 3-7: sc in each st around (12) (6 rnds)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnds 3-7: sc in each st around (12) (5 rnds)
\`\`\`
`,
  check({ pieces }) {
    return pieces.flatMap((piece) =>
      slipsIn(piece).map(({ at, ...slip }) => found(piece.rows[at] as WorkedRow, slip)),
    );
  },
};

/** What a line says of its number of rows; the span counts from the start of its instructions. */
interface Told {
  /** As a sentence has it: `the line says 6`, `4 times 2 are 8`; asked for when it is told. */
  words(): string;
  readonly n: number;
  readonly span: Span;
  readonly inTotal?: boolean;
  /** What should stand there for so many rows; null where nothing can. */
  written(n: number): string | null;
}

interface Slip {
  readonly n: number;
  readonly told: Told;
}

const slipsIn = perPiece(({ rows }) =>
  rows.flatMap((row, at) => {
    const slip = slipOf(row);
    return slip ? [{ ...slip, at }] : [];
  }),
);

/** `(6 rnds)`, `- 6 rnds`: nothing but a count stands behind it. */
const remark =
  /(?:[([–—-])\s*(\d{1,3})\s+(?:rows|rnds|rounds)(\s+(?:in\s+)?total|\s+in\s+all)?(?:\s*[)\]]?\.?\s*$|\s*[)\]]\s*[.,;:–—-]?\s*(?:[([{][^()[\]{}]*[)\]}]|=?\s*\d+\s*(?:\p{L}+\s*)?)\.?\s*$)/iu;

function slipOf({ line: { head, text } }: WorkedRow): Slip | null {
  const [to, ...others] = head?.to ?? [];
  if (!head || head.from === null || to == null || others.length > 0) return null;
  if (/[,&]|\band\b/i.test(head.text)) return null;
  const n = to - head.from + 1;
  const told = said(text) ?? repeated(text);
  // `(62 rows in total)` may count those before as well.
  const isRight = told?.n === n || (told?.inTotal === true && told.n === to);
  return told === null || isRight ? null : { n, told };
}

function said(text: string): Told | null {
  const match = remark.exec(text);
  if (!match) return null;
  const start = match.index + match[0].indexOf(match[1] as string);
  const n = Number(match[1]);
  const span = { start, end: start + `${n}`.length };
  return {
    words: () => say`the line says ${n}`,
    n,
    span,
    inTotal: match[2] !== undefined,
    written: (other) => `${other}`,
  };
}

const often =
  /^\s*[,:(]?\s*(?:(?:for\s+)?(?:a\s+total\s+of\s+)?(\d{1,3}|[a-z]{3,9}(?:-[a-z]{3,5})?)\s+(more\s+)?times?(\s+more)?|(twice|thrice|once)(\s+more)?)\b(?!\s*(?:,\s*then|and\b|or\b))/i;

/** `Rep Rows 2-3 four more times`: four times two rows. */
function repeated(text: string): Told | null {
  const [copied, ...others] = readRowReferences(text);
  if (!copied || others.length > 0 || !/^\W*(?:rep(?:eat)?|work|as)\b/i.test(text)) return null;
  const match = often.exec(text.slice(copied.end));
  if (!match || /\b(?:until|then|in\s+all|total|ending|end\s+with|except)\b/i.test(text)) return null;
  const word = (match[1] ?? match[4] ?? "").toLowerCase();
  const times = numberWords.get(word) ?? timesWords.get(word) ?? Number(word);
  const [first, last] = [copied.numbers[0]?.n ?? 0, copied.numbers.at(-1)?.n ?? 0];
  const each = copied.range ? last - first + 1 : copied.numbers.length;
  const start = copied.end + match.index + match[0].toLowerCase().indexOf(word);
  const n = times * each;
  if (!Number.isInteger(n) || n < 1) return null;
  const isWord = !/^\d/.test(word);
  const written = (rows: number): string | null => {
    const right = rows / each;
    const asWord = [...numberWords].find(([, value]) => value === right)?.[0];
    if (!Number.isInteger(right) || timesWords.has(word)) return null;
    return isWord ? (asWord ?? null) : `${right}`;
  };
  return {
    words: () => say`${times} times ${each} are ${n}`,
    n,
    span: { start, end: start + word.length },
    written,
  };
}

function found(row: WorkedRow, { n, told: { words, span: own, written } }: Slip): Found {
  const span = { start: row.line.start + own.start, end: row.line.start + own.end };
  const noun = row.line.head?.word === "round" ? say`rounds` : say`rows`;
  const newText = written(n);
  return {
    span,
    message: say`${says(rowName(row), "is")} ${n} ${noun}, and ${words()}. Which is meant?`,
    fixes: newText === null ? [] : [{ title: say`Write ${newText}`, edits: () => [{ span, newText }] }],
    related: [{ span: headOf(row), message: say`Its numbers make ${n} ${noun}.` }],
  };
}
