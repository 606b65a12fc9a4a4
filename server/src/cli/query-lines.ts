import { plain } from "./plain-text";
import type { FileEntry, FindingEntry, PieceEntry, RowEntry } from "./report-shape";
import { fileLabel } from "./unreadable";

/** Errors and warnings are for the designer to answer; the rest are notes. */
export function isQuery({ severity }: FindingEntry): boolean {
  return severity === "error" || severity === "warning";
}

/** The queries of all files as one numbered list that can be copied into a mail. */
export function queryLines(files: readonly FileEntry[]): string[] {
  const withFile = files.length > 1;
  const queries = files.flatMap((file) =>
    file.findings.filter(isQuery).map((finding) => {
      const place = [...(withFile ? [fileLabel(file.file)] : []), ...placeOf(file, finding)];
      return `${place.join(", ")}: ${plain(finding.message)}${mending(finding.fixes)}`;
    }),
  );
  return queries.map((query, index) => `${index + 1}. ${query}`);
}

/** Piece, row and line; the row's name is left to a message that opens with it. */
function placeOf(file: FileEntry, { line, message }: FindingEntry): string[] {
  const [piece, row] = rowAt(file, line);
  const head = row && !message.startsWith(row.head) ? row.head : "";
  return [piece?.name ?? "", head].map(plain).filter(Boolean).concat(`line ${line}`);
}

function rowAt({ pieces }: FileEntry, line: number): [PieceEntry?, RowEntry?] {
  for (const piece of pieces) {
    const row = piece.rows.find((candidate) => candidate.line <= line && line <= candidate.endLine);
    if (row) return [piece, row];
  }
  return [];
}

function mending(fixes: readonly string[]): string {
  return fixes.length === 0 ? "" : ` To mend it: ${fixes.map(plain).join(", or: ")}.`;
}
