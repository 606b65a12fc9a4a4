import { copyOf } from "../../fabric/copies";
import { numberWords } from "../../trade/number-words";
import type { DraftRow } from "./draft";
import { rowsOf, type Silhouette } from "./silhouette";

/**
 * Rows that keep the width, so many times as many: ranges get longer or shorter, single rows stay. Where a line repeats
 * several rows, that is the design, and only whole repeats of it are more or fewer.
 */
export function scaledRows(lines: readonly DraftRow[], { rungs }: Silhouette, by: number): DraftRow[] {
  const shaped = new Set(
    rungs.filter(({ turn }) => turn === "rise" || turn === "fall").map(({ row }) => row),
  );
  const plain = lines.filter(({ row }) => !shaped.has(row) && row.line.kind !== "foundation");
  const all = plain.reduce((sum, { row }) => sum + rowsOf(row), 0);
  const more = evenlyTurned(Math.round(all * by) - all, lines);
  if (more === 0) return [...lines];
  const repeats = plain.filter(({ row }) => rowsRepeated(row) > 1);
  const changed = repeats.length > 0 ? withRepeats(repeats, more) : withRanges(plain, rungs, more);
  return lines.map((one) => changed.get(one) ?? one);
}

type Changed = ReadonlyMap<DraftRow, DraftRow>;

/** How many rows a line repeats: `Rep Rows 3-10` eight. */
function rowsRepeated({ line }: DraftRow["row"]): number {
  const copy = copyOf(line.content);
  if (copy?.how === "last") return copy.rows;
  return copy?.how === "rows" ? copy.rows.length : 1;
}

function withRepeats(repeats: readonly DraftRow[], more: number): Changed {
  const to = shared(
    repeats.map(({ rows }) => rows),
    more,
  );
  const entries = repeats.flatMap((one, i): [DraftRow, DraftRow][] => {
    const each = rowsRepeated(one.row);
    const [now, wanted] = [one.rows / each, Math.max(Math.round((to[i] ?? one.rows) / each), 1)];
    const body = withTimes(one.body, now, wanted);
    return body === null ? [] : [[one, { ...one, body, rows: wanted * each }]];
  });
  return new Map(entries);
}

/** `eleven more times`; null where no number in the text is how often. */
function withTimes(body: string, now: number, wanted: number): string | null {
  const told = /\b([\w-]+)(?=\s+(?:more\s+)?times?\b)/i.exec(body);
  const n = told ? (numberWords.get(told[0].toLowerCase()) ?? Number(told[0])) : Number.NaN;
  if (!told || n !== now) return null;
  const isWord = /^\D/.test(told[0]);
  const word = [...numberWords].find(([, value]) => value === wanted)?.[0];
  const newText = isWord && word !== undefined ? word : `${wanted}`;
  return body.slice(0, told.index) + newText + body.slice(told.index + told[0].length);
}

function withRanges(plain: readonly DraftRow[], rungs: Silhouette["rungs"], more: number): Changed {
  const even = new Set(rungs.filter(({ turn }) => turn === "even").map(({ row }) => row));
  const ranges = plain.filter(({ row }) => even.has(row) && rowsOf(row) > 1 && !row.line.head?.many);
  const behindLace = new Set(rungs.flatMap(({ row }, i) => (rungs[i - 1]?.turn === "lace" ? [row] : [])));
  const lone = plain.findLast(({ row }) => even.has(row) && isPlainHead(row) && !behindLace.has(row));
  const growing = ranges.length > 0 ? ranges : lone ? [lone] : [];
  const to = shared(
    growing.map(({ rows }) => rows),
    more,
  );
  return new Map(growing.map((one, i) => [one, { ...one, rows: to[i] ?? one.rows }]));
}

/** A number and no more: what has a name of its own is there once. */
function isPlainHead({ line: { kind, head } }: DraftRow["row"]): boolean {
  return kind === "row" && head?.from != null && /^\W*$/.test(head.label);
}

/** Rows that are turned and tell their sides come in pairs. */
function evenlyTurned(more: number, lines: readonly DraftRow[]): number {
  const hasSides = lines.some(({ row }) => row.line.head?.side != null);
  return hasSides ? 2 * Math.round(more / 2) : more;
}

/** So many more or fewer, shared out by how many each has; one at least stays of each. */
function shared(rows: readonly number[], more: number): number[] {
  const all = rows.reduce((sum, n) => sum + n, 0);
  const wanted = Math.max(all + more, rows.length);
  const exact = rows.map((n) => Math.max((n * wanted) / Math.max(all, 1), 1));
  const left = wanted - exact.reduce((sum, n) => sum + Math.floor(n), 0);
  const byRest = exact.map((n, i) => ({ i, rest: n % 1 })).sort((a, b) => b.rest - a.rest);
  const extra = new Set(byRest.slice(0, Math.max(left, 0)).map(({ i }) => i));
  return exact.map((n, i) => Math.floor(n) + (extra.has(i) ? 1 : 0));
}
