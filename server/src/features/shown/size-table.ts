import type { Block } from "./blocks";

/** A label, and a text for each size; null where it does not apply to that size. */
export interface SizeRow {
  readonly label: string;
  readonly cells: readonly (string | null)[];
}

/** A table with one column a size; rows that apply to no size are left out. */
export function sizeTable(corner: string, sizes: readonly string[], rows: readonly SizeRow[]): Block[] {
  const kept = rows.filter(({ cells }) => cells.some((cell) => cell !== null));
  if (kept.length === 0) return [];
  const head = [corner, ...(sizes.length > 1 ? sizes : [""])];
  return [
    {
      kind: "table",
      head,
      rows: kept.map(({ label, cells }) => [`${label}:`, ...cells.map((cell) => cell ?? "–")]),
    },
  ];
}
