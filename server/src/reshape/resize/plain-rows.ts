import type { DraftRow } from "./draft";
import { rowsOf, type Silhouette } from "./silhouette";

/** The rows of the full width, as many times as many: ranges get longer or shorter, single rows stay. */
export function scaledRows(wide: readonly DraftRow[], { rungs }: Silhouette, by: number): DraftRow[] {
  const all = wide.reduce((sum, { row }) => sum + rowsOf(row), 0);
  const plain = new Set(rungs.filter(({ turn }) => turn === "even").map(({ row }) => row));
  const canGrow = wide.filter(({ row }) => plain.has(row) && !standsForMany(row) && rowsOf(row) > 1);
  const lone = wide.findLast(({ row }) => plain.has(row) && row.line.kind === "row" && !row.line.head?.label);
  const ranges = canGrow.length > 0 ? canGrow : lone ? [lone] : [];
  const more = evenlyTurned(Math.round(all * by) - all, wide);
  const to = shared(
    ranges.map(({ row }) => rowsOf(row)),
    more,
  );
  return wide.map((one) => {
    const i = ranges.indexOf(one);
    return i < 0 ? one : { ...one, rows: to[i] ?? one.rows };
  });
}

/** A line that repeats several rows is worked in whole repeats. */
function standsForMany({ line }: DraftRow["row"]): boolean {
  const copied = line.plan?.copies?.rows;
  return Array.isArray(copied) && copied.length > 1;
}

/** Rows that are turned and tell their sides come in pairs. */
function evenlyTurned(more: number, wide: readonly DraftRow[]): number {
  const hasSides = wide.some(({ row }) => row.line.head?.side != null);
  return hasSides ? 2 * Math.round(more / 2) : more;
}

/** So many more or fewer, shared out by how many each has; one at least stays of each. */
function shared(rows: readonly number[], more: number): number[] {
  const all = rows.reduce((sum, n) => sum + n, 0);
  const wanted = Math.max(all + more, rows.length);
  const exact = rows.map((n) => Math.max((n * wanted) / Math.max(all, 1), 1));
  const down = exact.map(Math.floor);
  let left = wanted - down.reduce((sum, n) => sum + n, 0);
  const byRest = exact.map((n, i) => ({ i, rest: n - Math.floor(n) })).sort((a, b) => b.rest - a.rest);
  const extra = new Set(byRest.slice(0, Math.max(left--, 0)).map(({ i }) => i));
  return down.map((n, i) => n + (extra.has(i) ? 1 : 0));
}
