import { copyOf } from "../fabric/copies";
import { isWorkedOnce } from "../fabric/rework";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { type TextEdit, withEdits } from "../text/span";
import { type DraftRow, draftOf, editsOf } from "./resize/draft";
import { rowsOf } from "./resize/silhouette";

/** Rows that were written one by one at most. */
const rowsAtMost = 12;

/** `Rnds 5-8` as four lines, each with its own count; null of a line that stands for one row, or for others. */
export function rangeApart(text: string, piece: WorkedPiece, row: WorkedRow): readonly TextEdit[] | null {
  const rows = rowsOf(row);
  const isPlain = row.result === "ok" && row.line.kind === "row" && !copyOf(row.line.content);
  if (!isPlain || row.line.head?.to == null || rows < 2 || rows > rowsAtMost || tellsRows(text, row))
    return null;
  const bodies = Array.from({ length: rows }, (_, i) => withCount(row, i + 1, rows));
  if (bodies.some((body) => body === null)) return null;
  const draft = draftOf(text, piece).flatMap((one): DraftRow[] =>
    one.row === row
      ? bodies.map((body, i) => ({
          ...one,
          state: i === 0 ? "kept" : "new-behind",
          body: body ?? "",
          rows: 1,
        }))
      : [one],
  );
  return editsOf(text, draft).flatMap(({ edits }) => edits);
}

/** `(8 rounds)` would not be true of any of them. */
function tellsRows(text: string, { line }: WorkedRow): boolean {
  return /\b\d+\s+(?:rounds?|rnds?|rows?)\b/i.test(text.slice(line.span.start, line.span.end));
}

/** The row of that number in its range, with its own count: counts of a range go evenly to that of its last row. */
function withCount({ line, outcome }: WorkedRow, at: number, rows: number): string | null {
  const [has, makes] = [outcome?.has[0] ?? null, outcome?.makes[0] ?? 0];
  const count = line.plan?.statedSpan;
  if (has === null || has === makes || !count || at === rows) return line.text;
  const made = has + ((makes - has) * at) / rows;
  const typed = [...line.text.slice(count.start, count.end).matchAll(/\d+/g)];
  const [only] = typed;
  if (!only || typed.length > 1 || !Number.isInteger(made)) return null;
  const start = count.start + only.index;
  return withEdits(line.text, [{ span: { start, end: start + only[0].length }, newText: `${made}` }]);
}

/** Rows next to each other that say the same. */
export interface EqualRows {
  readonly first: WorkedRow;
  readonly last: WorkedRow;
  readonly edits: readonly TextEdit[];
}

/** The equal rows around one as a range; null where its neighbours are others. */
export function rowsTogether(text: string, piece: WorkedPiece, row: WorkedRow): EqualRows | null {
  const { rows } = piece;
  const at = rows.indexOf(row);
  const isNext = (i: number): boolean => isLike(text, rows[i], rows[i + 1]);
  let [from, to] = [at, at];
  while (from > 0 && isNext(from - 1)) from--;
  while (isNext(to)) to++;
  const [first, last] = [rows[from], rows[to]];
  if (!first || !last || first === last) return null;
  const own = new Set(rows.slice(from + 1, to + 1));
  const draft = draftOf(text, piece).map((one): DraftRow => {
    if (own.has(one.row)) return { ...one, state: "gone" };
    return one.row === first ? { ...one, rows: to - from + 1 } : one;
  });
  return { first, last, edits: editsOf(text, draft).flatMap(({ edits }) => edits) };
}

/** The next row, on the next line, in the same words. */
function isLike(text: string, one: WorkedRow | undefined, next: WorkedRow | undefined): boolean {
  if (!one || !next || ![one, next].every(isSingle)) return false;
  const between = text.slice(one.line.span.end, next.line.span.start);
  const isBehind = next.line.head?.from === (one.line.head?.from ?? 0) + 1;
  return isBehind && one.line.text === next.line.text && /^[ \t]*\r?\n[ \t]*$/.test(between);
}

/** A row with a number and no name or side of its own. */
function isSingle(row: WorkedRow): boolean {
  const { result, line } = row;
  const isBare = line.head?.side == null && !/\p{L}/u.test(line.head?.label ?? "");
  return result === "ok" && line.kind === "row" && line.head?.to === null && isBare && isWorkedOnce(row);
}
