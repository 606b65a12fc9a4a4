import { readRowReferences } from "../../notation/row-references";
import { type TextEdit, withEdits } from "../../text/span";
import { type DraftRow, isNew, type NumberedRow, numbered } from "./draft";
import type { DraftParts } from "./resize";
import { rowsOf } from "./silhouette";

/** Where the rows of a piece have gone. */
export interface RowMap extends NumberMap {
  /** Behind which row a place is that was behind this one: both ends of a slope stay, what is between is spread. */
  behind(old: number): number;
  isGone(old: number): boolean;
}

/** The number that a row has now; of a row that is gone, of the one in its place. */
export interface NumberMap {
  numberOf(old: number): number;
}

export function numberMapOf(draft: readonly DraftRow[]): NumberMap {
  const kept = keptIn(draft);
  const last = kept.at(-1);
  const moved = (last?.from ?? 0) - (last?.row.line.head?.from ?? 0);
  return {
    numberOf: (old) => {
      const one = holderOf(kept, old);
      if (one?.from == null) return old + moved;
      return one.from + scaledInto(old - (one.row.line.head?.from ?? old), rowsOf(one.row), one.rows);
    },
  };
}

export function mapOf(parts: DraftParts): RowMap {
  const draft = [...parts.up, ...parts.wide, ...parts.down, ...parts.rest];
  const kept = keptIn(draft);
  const stretches = [
    parts.up,
    ...parts.wide.map((one) => [one]),
    parts.down,
    ...parts.rest.map((one) => [one]),
  ];
  return {
    ...numberMapOf(draft),
    behind: (old) => boundary(stretches, old),
    isGone: (old) => holderOf(kept, old)?.state === "gone",
  };
}

function keptIn(draft: readonly DraftRow[]): NumberedRow[] {
  return numbered(draft).filter((one) => !isNew(one));
}

function holderOf(kept: readonly NumberedRow[], old: number): NumberedRow | undefined {
  return kept.find(({ row }) => {
    const from = row.line.head?.from;
    return from != null && from <= old && old < from + rowsOf(row);
  });
}

/** Which of so many rows is at the place of one of so many others; the first and the last stay so. */
function scaledInto(into: number, were: number, are: number): number {
  return were <= 1 ? 0 : Math.round((into * (are - 1)) / (were - 1));
}

function boundary(stretches: readonly (readonly DraftRow[])[], old: number): number {
  let [before, now] = [0, 0];
  for (const stretch of stretches) {
    const rows = stretch.filter(({ row }) => row.line.kind !== "foundation");
    const were = rows.reduce((sum, one) => sum + (isNew(one) ? 0 : rowsOf(one.row)), 0);
    const are = rows.reduce((sum, one) => sum + (one.state === "gone" ? 0 : one.rows), 0);
    if (old <= before + were) return now + Math.round(((old - before) * are) / Math.max(were, 1));
    [before, now] = [before + were, now + are];
  }
  return now + old - before;
}

/** Rows that a line names have the numbers they have now. */
export function withReferences(body: string, { numberOf }: NumberMap): string {
  const edits = readRowReferences(body).flatMap(({ numbers }) =>
    numbers.flatMap(({ n, start, end }): TextEdit[] =>
      numberOf(n) === n ? [] : [{ span: { start, end }, newText: `${numberOf(n)}` }],
    ),
  );
  return withEdits(body, edits);
}
