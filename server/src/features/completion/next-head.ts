import type { WorkedRow } from "../../fabric/worked";
import type { WorkedPattern } from "../../rules/rule";

/** How the row behind some rows is announced, as the last of them is: `Rnd 7: ` behind `Rnds 5-6: `; null where that is not plain. */
export function nextHead(rows: readonly WorkedRow[], { text }: WorkedPattern): string | null {
  const row = rows.findLast(({ line }) => line.head?.from != null);
  const head = row?.line.head;
  if (!row || !head || head.from === null || head.open) return null;
  const last = Math.max(head.from, ...(head.to ?? []).map((n) => n ?? 0)) + rowsBehind(row, rows);
  return headLike(row, last + 1, sideBehind(row, rows), text);
}

/** How the first row of a piece is announced, as the rows of the pattern are. */
export function firstHead({ pieces, text }: WorkedPattern): string {
  const model = pieces.flatMap(({ rows }) => rows.slice(0, 3)).find(({ line }) => line.head?.from != null);
  return (model && headLike(model, 1, "", text)) ?? "Rnd 1: ";
}

/** Rows without a number of their own that follow a numbered one: `Rep last rnd 3 times` are three. */
function rowsBehind(row: WorkedRow, rows: readonly WorkedRow[]): number {
  const behind = rows.slice(rows.indexOf(row) + 1);
  return behind.reduce((sum, { times }) => sum + (times?.[0] ?? 1), 0);
}

/** `Rnds 5-6 (red): ` becomes `Rnd 7: `; heads such as `1st row:` are left to whoever writes them. */
function headLike({ line }: WorkedRow, n: number, side: string, text: string): string | null {
  const written = text.slice(line.span.start, line.start);
  const [, word, rest] = /^(\P{Nd}*)\d+(.*)$/su.exec(written) ?? [];
  if (word === undefined || rest === undefined || /^(?:st|nd|rd|th|d)\b/i.test(rest)) return null;
  const mark = /[\s:.)–—-]*$/u.exec(rest)?.[0] ?? "";
  const single = word.replace(/\b(r(?:nd|d|ow|ound|w))s(?=\W*$)/i, "$1");
  return `${single}${n}${side}${mark === "" ? " " : mark}`;
}

/** Sides that take turns go on doing so. */
function sideBehind(row: WorkedRow, rows: readonly WorkedRow[]): string {
  const before = rows[rows.indexOf(row) - 1]?.line.head?.side ?? null;
  const own = row.line.head?.side ?? null;
  return own !== null && before !== null && own !== before ? ` (${before})` : "";
}
