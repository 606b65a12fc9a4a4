import type { LineIndex } from "../text/line-index";
import { plainLine } from "../text/plain-line";
import { say } from "../text/say";
import type { Finding, PatternReport, Severity } from "../workspace/report";

/** Lines from 1. */
interface AskedRow {
  readonly head: string;
  readonly line: number;
  readonly endLine: number;
}

/** What queries are made from. */
interface Asked {
  readonly severity: Severity;
  readonly line: number;
  readonly message: string;
  /** Ways to mend it, in words. */
  readonly fixes: readonly string[];
}

/** One pattern as far as queries need it. */
export interface Queried {
  readonly pieces: readonly { readonly name: string; readonly rows: readonly AskedRow[] }[];
  readonly findings: readonly Asked[];
}

/** Errors and warnings are for the designer to answer; the rest are notes. */
export function isQuery({ severity }: Pick<Asked, "severity">): boolean {
  return severity === "error" || severity === "warning";
}

/** The queries of one pattern or of several as one numbered list that can be put into a mail. */
export function queryLines(patterns: readonly (readonly [label: string, pattern: Queried])[]): string[] {
  const queries = patterns.flatMap(([label, pattern]) =>
    pattern.findings.filter(isQuery).map((finding) => {
      const place = [...(patterns.length > 1 ? [label] : []), ...placeOf(pattern, finding)];
      return `${place.join(", ")}: ${plainLine(finding.message)}${mending(finding.fixes)}`;
    }),
  );
  return queries.map((query, index) => `${index + 1}. ${query}`);
}

/** A report as queries need it, with its findings as they are shown. */
export function queriedOf(
  { pieces }: PatternReport,
  findings: readonly Finding[],
  lines: LineIndex,
  fixesOf: (finding: Finding) => readonly string[],
): Queried {
  const lineOf = (offset: number) => lines.position(offset).line + 1;
  return {
    pieces: pieces.map(({ name, rows }) => ({
      name,
      rows: rows.map(({ head, span }) => ({ head, line: lineOf(span.start), endLine: lineOf(span.end) })),
    })),
    findings: findings.map((finding) => ({
      severity: finding.severity,
      line: lineOf(finding.span.start),
      message: finding.message,
      fixes: isQuery(finding) ? fixesOf(finding) : [],
    })),
  };
}

/** Piece, row and line; the row's name is left to a message that opens with it. */
function placeOf({ pieces }: Queried, { line, message }: Asked): string[] {
  const [piece, row] = rowAt(pieces, line);
  const head = row && !message.startsWith(row.head) ? row.head : "";
  return [piece?.name ?? "", head].map(plainLine).filter(Boolean).concat(say`line ${line}`);
}

function rowAt(pieces: Queried["pieces"], line: number): [Queried["pieces"][number]?, AskedRow?] {
  for (const piece of pieces) {
    const row = piece.rows.find((candidate) => candidate.line <= line && line <= candidate.endLine);
    if (row) return [piece, row];
  }
  return [];
}

function mending(fixes: readonly string[]): string {
  return fixes.length === 0 ? "" : say` To mend it: ${fixes.map(plainLine).join(say`, or: `)}.`;
}
