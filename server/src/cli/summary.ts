import { isQuery } from "../features/queries";
import type { FileEntry } from "./report-shape";

const NO_ROW = 'There is no row to check. A row starts with its name, for example "Rnd 1: 6 sc in mr (6)".';

/** One sentence such as `12 rows checked, 1 not checked, 2 queries.` */
export function summary(files: readonly FileEntry[]): string {
  const rows = files.flatMap(({ pieces }) => pieces).flatMap((piece) => piece.rows);
  const queries = files.flatMap(({ findings }) => findings).filter(isQuery).length;
  if (rows.length === 0 && queries === 0) return NO_ROW;
  const unchecked = rows.filter(({ result }) => result === "unchecked").length;
  const checked = rows.filter(({ kind, result }) => kind === "row" && result !== "unchecked").length;
  return [
    `${checked} ${checked === 1 ? "row" : "rows"} checked`,
    ...(unchecked > 0 ? [`${unchecked} not checked`] : []),
    `${queries || "no"} ${queries === 1 ? "query" : "queries"}`,
  ]
    .join(", ")
    .concat(".");
}
