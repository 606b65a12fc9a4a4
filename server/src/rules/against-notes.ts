import { perPiece } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { readConventions } from "../notation/declared";
import type { PatternLine } from "../notation/lines";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { faultOf, goesByNotes, startOf } from "./broken-notes";
import { fixOf, mendsOf, questionFor } from "./mends";
import type { Finding, Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { belowName, counted, listed, numbers, placesNoun, rowName, says } from "./wording";

/** A row is right only if its opening chain is what the notes say it is not. */
export const againstNotes: PatternRule = {
  id: "against-notes",
  severity: "error",
  documentation: `## What it finds
A row that is right only if the chain at its start counts as a stitch, in a pattern that says that such chains do not count; or the other way round.

## Why it matters
Makers go by the notes, and come out with a stitch too many or too few. Either the row was written without thinking of the chain, or the note is left over from an earlier version.

## Example
\`\`\`crochet
Notes
Ch 3 counts as a dc.

Ch 12.
Row 1: Dc in 4th ch from hook and in each ch across. (10 dc)
Row 2: Ch 3, turn, sk first dc, dc in next 9 dc. (10 dc)
Row 3: Ch 3, turn, dc in next 10 dc. (10 dc)
\`\`\`

## Mended
\`\`\`crochet
Notes
Ch 3 counts as a dc.

Ch 12.
Row 1: Dc in 4th ch from hook and in each ch across. (10 dc)
Row 2: Ch 3, turn, sk first dc, dc in next 9 dc. (10 dc)
Row 3: Ch 3, turn, sk first dc, dc in next 9 dc. (10 dc)
\`\`\`
`,
  check(pattern) {
    const breaking = pattern.pieces.flatMap((piece) => (breaks(piece) ? breaksIn(piece) : []));
    return [...new Set(breaking.map(({ chains }) => chains))].flatMap((chains) =>
      foundFor(
        chains,
        breaking.filter((one) => one.chains === chains),
        pattern,
      ),
    );
  },
};

interface Break {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
  readonly chains: number;
}

const breaks = perPiece(({ rows }) => rows.some(({ fault }) => fault?.sort === "against-notes"));

function breaksIn(piece: WorkedPiece): Break[] {
  return piece.rows.flatMap((row) => {
    const fault = faultOf(row, piece);
    return fault?.sort === "against-notes" ? [{ row, piece, chains: fault.chains }] : [];
  });
}

/** Where no row goes by the note, the note is told, once. */
function foundFor(chains: number, breaking: readonly Break[], pattern: WorkedPattern): Found[] {
  const counts = pattern.context.conventions.startCounts.get(chains) ?? true;
  const note = pattern.lines.find((line) => saysOf(line, chains));
  const isStale = note && breaking.length > 1 && !pattern.pieces.some((piece) => goesByNotes(piece, chains));
  if (isStale) return [noteFound(note, chains, counts, breaking)];
  return breaking.map((one) => rowFound(one, counts, note));
}

function saysOf({ text, kind }: PatternLine, chains: number): boolean {
  return kind !== "row" && kind !== "blank" && readConventions([text]).startCounts.has(chains);
}

function noteFound(note: PatternLine, chains: number, counts: boolean, breaking: readonly Break[]): Found {
  const rows = breaking.map(({ row }) => rowName(row));
  const shown = rows.length > 4 ? [...rows.slice(0, 3), say`${rows.length - 3} more`] : rows;
  return {
    span: note,
    message: `${noteSays(chains, counts)} ${onlyOtherwise(listed(shown, "and"), counts)}`,
    fixes: noteFix(note, counts),
    related: breaking.map(({ row }) => ({ span: row.line.span, message: numbersAsNoted(row, breaking) })),
  };
}

function sense(counts: boolean): string {
  return counts ? say`counts as a stitch` : say`does not count as a stitch`;
}

function noteSays(chains: number, counts: boolean): string {
  return counts
    ? say`The notes say that ch ${chains} counts as a stitch.`
    : say`The notes say that ch ${chains} does not count as a stitch.`;
}

function onlyOtherwise(rows: string, counts: boolean): string {
  return counts
    ? say`${rows} are right only if it does not, and no row goes by the note.`
    : say`${rows} are right only if it does, and no row goes by the note.`;
}

function numbersAsNoted(row: WorkedRow, breaking: readonly Break[]): string {
  const piece = breaking.find((one) => one.row === row)?.piece;
  const { needs = [], has = [], makes = [], fits = false } = row.outcome ?? {};
  const name = rowName(row);
  if (fits || !piece)
    return say`By the note ${says(name, "makes")} ${numbers(makes)}; the line says ${statedIn(row)}.`;
  const places = counted(needs[0] ?? 0, placesNoun(row));
  return say`By the note ${says(name, "needs")} ${places}; ${says(belowName(row, piece), "has")} ${numbers(has)}.`;
}

function statedIn({ line }: WorkedRow): string {
  return numbers((line.plan?.stated ?? []).flatMap(({ n }) => n));
}

/** The note turned round, where it is plain which of its words says so. */
function noteFix(note: PatternLine, counts: boolean): Fix[] {
  const words = counts ? /\bcounts?\b/gi : /\b(?:does|do) not count\b/gi;
  const [only, ...others] = note.text.matchAll(words);
  if (!only || others.length > 0) return [];
  const newText = counts ? "does not count" : "counts";
  const span = spanIn(only, note.start);
  return [{ title: say`Change the note to "${newText}"`, edits: () => [{ span, newText }] }];
}

function spanIn({ 0: text, index }: RegExpExecArray, from: number): Span {
  return { start: from + index, end: from + index + text.length };
}

function rowFound({ row, piece, chains }: Break, counts: boolean, note: PatternLine | undefined): Found {
  const related: Finding["related"] = note
    ? [{ span: note, message: say`Here the pattern says that ch ${chains} ${sense(counts)}.` }]
    : [];
  const is = says(rowName(row), "is");
  const about = counts
    ? say`${is} right only if its ch ${chains} does not count.`
    : say`${is} right only if its ch ${chains} does count.`;
  return {
    span: row.line.span,
    message: `${numbersAsNoted(row, [{ row, piece, chains }])} ${about}`,
    asks: () => questionFor(mendsOf(row, piece).instructions),
    get fixes() {
      const mends = mendsOf(row, piece).instructions;
      return [...mends.map((mend) => fixOf(mend, row)), ...inRowFix(row, counts)];
    },
    related,
  };
}

/** `Ch 3 (does not count as a st)`: the row says it for itself. */
function inRowFix({ line }: WorkedRow, counts: boolean): Fix[] {
  const start = line.plan && startOf(line.plan);
  if (!start) return [];
  const at = line.start + start.span.end;
  const newText = counts ? " (does not count as a st)" : " (counts as a st)";
  return [{ title: say`Add "${newText.trim()}"`, edits: () => [{ span: { start: at, end: at }, newText }] }];
}
