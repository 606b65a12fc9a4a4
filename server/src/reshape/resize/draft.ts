import type { State } from "../../fabric/outcome";
import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { shift, type TextEdit } from "../../text/span";
import { difference } from "../text-difference";
import { leadFor } from "./heads";
import { rowsOf } from "./silhouette";

/** A line of a piece that is being resized. */
export interface DraftRow {
  /** The line it was; of a new one, the line that it stands behind or before, and whose head it is written after. */
  readonly row: WorkedRow;
  readonly state: "kept" | "gone" | "new-behind" | "new-before";
  readonly body: string;
  /** How many rows it stands for. */
  readonly rows: number;
  /** What it leaves for the next row, where that is known already. */
  readonly after?: State;
}

/** All lines of a piece as they are written. */
export function draftOf(text: string, { rows }: WorkedPiece): DraftRow[] {
  return rows.map((row) => ({ row, state: "kept", body: bodyOf(text, row), rows: rowsOf(row) }));
}

/** As it is typed: remarks for the checker are blank in the text that was read. */
function bodyOf(text: string, { line }: WorkedRow): string {
  return text.slice(line.start, line.start + line.text.length);
}

/** A line of a draft with the number of its first row; null where it has none. */
export interface NumberedRow extends DraftRow {
  readonly from: number | null;
}

export function isNew({ state }: DraftRow): boolean {
  return state === "new-behind" || state === "new-before";
}

/** Numbers go on by what was added and taken away above. */
export function numbered(draft: readonly DraftRow[]): NumberedRow[] {
  let moved = 0;
  let last = 0;
  return draft.map((one) => {
    const own = one.row.line.head?.from ?? null;
    const from = isNew(one) ? last + 1 : own === null ? null : own + moved;
    if (one.state === "gone") moved -= rowsOf(one.row);
    else {
      moved += one.rows - (isNew(one) ? 0 : rowsOf(one.row));
      last = (from ?? last + 1) + one.rows - 1;
    }
    return { ...one, from };
  });
}

/** The edits of one line of a draft, in offsets of the text. */
export interface RowEdits {
  readonly row: NumberedRow;
  readonly edits: readonly TextEdit[];
}

/** What makes a text of the draft; lines that stay as they are have no edits. */
export function editsOf(text: string, draft: readonly DraftRow[]): RowEdits[] {
  const range =
    draft.map(({ row }) => leadOf(text, row)).find((lead) => /\d\s*[-–—]\D*\d/.test(lead)) ?? null;
  return numbered(draft).map((row) => {
    const lead = withRows(leadFor(leadOf(text, row.row), row, range), row);
    const told = { ...row, body: withRows(row.body, row) };
    return { row: told, edits: isNew(row) ? [insertion(text, told, lead)] : changes(text, told, lead) };
  });
}

/** `(8 rounds)` in a line that stands for another number of them now. */
function withRows(text: string, one: NumberedRow): string {
  const were = rowsOf(one.row);
  if (isNew(one) || were === one.rows || were < 2) return text;
  return text.replace(/\b(\d+)(?=\s+(?:rounds?|rnds?|rows?)\b)/gi, (n) =>
    Number(n) === were ? `${one.rows}` : n,
  );
}

function insertion(text: string, { state, row: { line }, body }: NumberedRow, lead: string): TextEdit {
  const newline = text.includes("\r\n") ? "\r\n" : "\n";
  const isBefore = state === "new-before";
  const at = isBefore ? lineStart(text, line.span.start) : lineEnd(text, line.span.end);
  const newText = isBefore ? `${lead}${body}${newline}` : `${newline}${lead}${body}`;
  return { span: { start: at, end: at }, newText };
}

function changes(text: string, { state, row, body }: NumberedRow, lead: string): TextEdit[] {
  const { line } = row;
  if (state === "gone") {
    // With the end of the line before it: the first line of a text has none.
    const start = lineStart(text, line.span.start);
    const before = text.slice(0, start).replace(/\r?\n$/, "").length;
    return [{ span: { start: before, end: lineEnd(text, line.span.end) }, newText: "" }];
  }
  const placed = (edits: readonly TextEdit[], by: number): TextEdit[] =>
    edits.map(({ span, newText }) => ({ span: shift(span, by), newText }));
  return [
    ...placed(difference(leadOf(text, row), lead), line.span.start),
    ...placed(difference(bodyOf(text, row), body), line.start),
  ];
}

function leadOf(text: string, { line }: WorkedRow): string {
  return text.slice(line.span.start, line.start);
}

function lineStart(text: string, offset: number): number {
  return text.lastIndexOf("\n", offset - 1) + 1;
}

function lineEnd(text: string, offset: number): number {
  const at = text.slice(offset).search(/\r?\n/);
  return at < 0 ? text.length : offset + at;
}
