import { plainLine } from "../text/plain-line";
import type { Severity } from "../workspace/report";
import type { Extent, FileEntry, FindingEntry } from "./report-shape";
import { fileLabel } from "./unreadable";

/** What is no query is a note, as the places are that a query refers to. */
const LABELS: Readonly<Record<Severity, string>> = {
  error: "error",
  warning: "warning",
  information: "note",
  hint: "note",
};

/** The findings as `file:line:column: error: message`, each followed by the places it refers to. */
export function findingLines({ file, findings }: FileEntry): string[] {
  return findings.flatMap((finding) => linesOf(fileLabel(file), finding));
}

function linesOf(file: string, finding: FindingEntry): string[] {
  return [
    lineOf(file, finding, LABELS[finding.severity], finding.message),
    ...finding.related.map((place) => lineOf(file, place, "note", place.message)),
  ];
}

function lineOf(file: string, { line, column }: Extent, label: string, message: string): string {
  return `${file}:${line}:${column}: ${label}: ${plainLine(message)}`;
}
