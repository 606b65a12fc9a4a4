import { partsOf, perPiece, type WorkedPart } from "../fabric/parts";
import type { WorkedRow } from "../fabric/worked";
import type { RowHead } from "../notation/document";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { lostTurns } from "./lost-turns";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { isRearranged, turningOf, turnsBetween } from "./turning";
import { rowName, says } from "./wording";

/** Rows with the work turned between them are marked with the same side, or the other way round. */
export const sidesNotAlternating: PatternRule = {
  id: "sides-not-alternating",
  severity: "warning",
  documentation: `## What it finds
Rows marked RS and WS whose sides do not follow from how often the work is turned between them. Only turns that are written in the rows are counted; rounds that are not turned are left alone. Also the one pair of rows with different sides between which no turn is written, where all others have one.

## Why it matters
The right side decides which way a textured stitch stands out and where an end is hidden. A maker who goes by the label has the work the wrong way round.

## Example
\`\`\`crochet
Ch 11.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10)
Row 2 (RS): Ch 1, sc in each st across, turn. (10)
\`\`\`

## Mended
\`\`\`crochet
Ch 11.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10)
Row 2 (WS): Ch 1, sc in each st across, turn. (10)
\`\`\`
`,
  check(pattern) {
    return partsOf(pattern)
      .filter(({ piece }) => piece && hasSides(piece))
      .flatMap((part) => [...slipsIn(part, pattern), ...lostTurns(part)]);
  },
};

const hasSides = perPiece(({ rows }) => rows.some(({ line }) => line.head?.side));

type Side = NonNullable<RowHead["side"]>;

/** A row with its side, and the rows since. */
interface Marked {
  readonly row: WorkedRow;
  readonly side: Side;
  readonly turns: number;
  /** After a query either side may be meant, until a row says which. */
  readonly isDoubted: boolean;
}

function slipsIn(part: WorkedPart, pattern: WorkedPattern): Found[] {
  const found: Found[] = [];
  let last = null as Marked | null;
  let before = null as WorkedRow | null;
  for (const row of part.piece?.rows ?? []) {
    last = last && before && moved(last, turnsBetween(before, row));
    const side = row.line.head?.side ?? null;
    const wrong = side !== null && last !== null && side !== sideNow(last) ? last : null;
    const isTold = wrong !== null && !wrong.isDoubted && !isRearranged(part, wrong.row, row);
    if (isTold) found.push(slip(row, wrong, pattern));
    if (side !== null) last = { row, side, turns: 0, isDoubted: isTold };
    last = last && moved(last, turnsWithin(row));
    before = row;
  }
  return found;
}

function moved(marked: Marked, turns: number | null): Marked | null {
  return turns === null ? null : { ...marked, turns: marked.turns + turns };
}

function sideNow({ side, turns }: Marked): Side {
  return turns % 2 === 0 ? side : otherThan(side);
}

function otherThan(side: Side): Side {
  return side === "RS" ? "WS" : "RS";
}

/** Turns between the rows of a range. */
function turnsWithin({ line, times }: WorkedRow): number | null {
  const [n, ...others] = times ?? [];
  const isKnown = n !== undefined && others.every((one) => one === n);
  return isKnown && turningOf(line.content)?.isOnce ? n - 1 : null;
}

function slip(row: WorkedRow, { row: before, side, turns }: Marked, pattern: WorkedPattern): Found {
  const span = labelOf(row, pattern);
  const due = turns % 2 === 0 ? side : otherThan(side);
  const [now, then] = [rowName(row), rowName(before)];
  const often = turns === 1 ? say`once` : say`${turns} times`;
  return {
    span,
    message: say`${says(now, "is")} marked ${otherThan(due)} and ${then} is marked ${side}; the work is turned ${often} between them, so ${now} shows the ${due}.`,
    fixes: relabel(row, span, due, pattern),
    related: [{ span: labelOf(before, pattern), message: say`${says(then, "is")} marked ${side}.` }],
  };
}

const label = /\b(?:rs|ws|right side|wrong side)\b/i;

function labelOf({ line }: WorkedRow, { text }: WorkedPattern): Span {
  const { start } = line.span;
  const found = label.exec(text.slice(start, line.start));
  if (!found) return { start, end: line.start };
  return { start: start + found.index, end: start + found.index + found[0].length };
}

function relabel(row: WorkedRow, span: Span, side: Side, { text }: WorkedPattern): Fix[] {
  const typed = text.slice(span.start, span.end);
  const long = side === "RS" ? "right side" : "wrong side";
  const words = typed.length > 2 ? long : side;
  const newText = typed === typed.toLowerCase() ? words.toLowerCase() : words;
  return [{ title: say`Mark ${rowName(row)} as ${side}`, edits: () => [{ span, newText }] }];
}
