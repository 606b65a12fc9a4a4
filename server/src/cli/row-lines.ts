import { plainLine } from "../text/plain-line";
import type { Counts, ReadingReport, RowResult } from "../workspace/report";
import type { FileEntry, PieceEntry, RowEntry } from "./report-shape";
import { table } from "./table";

const HEADINGS = ["line", "row", "needs", "has", "makes", "says", ""];

const RESULTS: Readonly<Record<RowResult, string>> = {
  ok: "fine",
  "does-not-fit": "does not fit",
  "wrong-count": "the count is not what is made",
  ambiguous: "can be read in several ways",
  unchecked: "not checked",
};

/** A table of the rows that are not well, piece by piece. */
export function rowLines({ pieces }: FileEntry): string[] {
  return pieces.flatMap((piece) => {
    const rows = piece.rows.filter(({ result }) => result !== "ok");
    return rows.length === 0 ? [] : [pieceTitle(piece), ...tableOf(rows).map((line) => `  ${line}`)];
  });
}

function pieceTitle({ name, make }: PieceEntry): string {
  const title = plainLine(name) || "Pattern";
  return make > 1 ? `${title} (make ${make})` : title;
}

function tableOf(rows: readonly RowEntry[]): string[] {
  const [headings = "", ...lines] = table([HEADINGS, ...rows.map(cellsOf)]);
  const withReadings = rows.flatMap((row, index) => [lines[index] ?? "", ...row.readings.map(readingLine)]);
  return [headings, ...withReadings];
}

function cellsOf({ line, head, needs, has, makes, stated, result, reason }: RowEntry): string[] {
  const verdict = reason === null ? RESULTS[result] : `${RESULTS[result]}: ${plainLine(reason)}`;
  return [
    String(line),
    plainLine(head),
    numbers(needs),
    numbers(has),
    numbers(makes),
    numbers(stated),
    verdict,
  ];
}

function readingLine({ assumption, needs, makes }: ReadingReport): string {
  return `    could mean: ${plainLine(assumption)} (needs ${numbers(needs)}, makes ${numbers(makes)})`;
}

/** One number a size, as patterns write them: `60/64/68`. */
function numbers(counts: Counts | null): string {
  return counts?.map((count) => count ?? "-").join("/") || "-";
}
