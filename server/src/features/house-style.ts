import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { styledHead } from "../reshape/house-style/heads";
import { restyledRow } from "../reshape/house-style/restyle-row";
import { type HouseStyle, houseStyles, type StyleName } from "../reshape/house-style/styles";
import { type Span, type TextEdit, withEdits } from "../text/span";
import type { Checked } from "../workspace/checker";
import type { MeasuredRow } from "../workspace/report";

export { type HouseStyle, houseStyles, readHouseStyle, type StyleName } from "../reshape/house-style/styles";
export const styleNames = Object.keys(houseStyles) as readonly StyleName[];

type Work = (text: string) => Checked;

/** Rows of which the whole pattern shows that they would be read otherwise are left out one by one; no more than these. */
const dropsAtMost = 8;

/**
 * The changes that bring the rows of a stretch into a house's style. Prose stays as it is; so do all
 * needs, counts and results: the whole changed pattern is checked, and what does not hold is left out.
 */
export function houseStyleEdits(checked: Checked, style: HouseStyle, within: Span, work: Work): TextEdit[] {
  const { text } = checked.worked;
  let edits = checked.worked.pieces.flatMap((piece) =>
    piece.rows
      .filter(({ line: { span } }) => span.start >= within.start && span.end <= within.end)
      .flatMap((row) => editOf(row, piece, style, text)),
  );
  for (let drops = 0; drops < dropsAtMost && edits.length > 0; drops++) {
    const wrong = firstChanged(checked, work(withEdits(text, edits)));
    if (wrong === null) return edits;
    const kept = edits.filter(({ span }) => span.end < wrong.start || span.start > wrong.end);
    if (kept.length === edits.length) return [];
    edits = kept;
  }
  return [];
}

/** One row, its head with it, as one edit; none over a line end or a remark. */
function editOf(row: WorkedRow, piece: WorkedPiece, style: HouseStyle, text: string): TextEdit[] {
  const { line } = row;
  const start = text.lastIndexOf("\n", line.start - 1) + 1;
  const before = text.slice(start, line.start) + line.text;
  const isNumbered = line.kind === "row" || line.kind === "copy";
  const head = isNumbered ? styledHead(text.slice(start, line.start), style) : text.slice(start, line.start);
  const edit = difference(before, head + restyledRow(row, piece, style));
  if (!edit) return [];
  const span = { start: start + edit.span.start, end: start + edit.span.end };
  const isAsRead = text.slice(span.start, span.end) === before.slice(edit.span.start, edit.span.end);
  return isAsRead ? [{ span, newText: edit.newText }] : [];
}

function difference(before: string, after: string): TextEdit | null {
  if (before === after) return null;
  let start = 0;
  while (start < before.length && before[start] === after[start]) start++;
  let tail = 0;
  const most = Math.min(before.length, after.length) - start;
  while (tail < most && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  const newText = after.slice(start, after.length - tail);
  return { span: { start, end: before.length - tail }, newText };
}

/** The first row that comes out otherwise; a span before the text where other rows are read. */
function firstChanged(before: Checked, after: Checked): Span | null {
  const [old, now] = [rowsOf(before), rowsOf(after)];
  if (old.length !== now.length) return { start: -1, end: -1 };
  const at = old.findIndex((row, i) => numbersOf(row) !== numbersOf(now[i] as MeasuredRow));
  return old[at]?.span ?? null;
}

function rowsOf({ report }: Checked): MeasuredRow[] {
  return report.pieces.flatMap(({ rows }) => [...rows]);
}

function numbersOf({ head: _, span: __, ...numbers }: MeasuredRow): string {
  return JSON.stringify(numbers);
}
