import { LineIndex } from "../text/line-index";
import type { Span } from "../text/span";
import type { Prover } from "../workspace/prover";
import type { Finding, Fix, MeasuredRow, PatternReport, PieceReport, Related } from "../workspace/report";
import type { Extent, FileEntry, FindingEntry, PieceEntry, RelatedEntry, RowEntry } from "./report-shape";

/** What is reported of one file: the pattern's report with lines and columns in place of offsets. */
export function fileEntry(file: string, text: string, report: PatternReport, prover: Prover): FileEntry {
  const lines = new LineIndex(text);
  return {
    file,
    terms: report.terms,
    sizes: report.sizes,
    pieces: report.pieces.map((piece) => pieceEntry(piece, lines)),
    findings: report.findings.map((finding) => findingEntry(finding, lines, prover.fixesOf(finding))),
  };
}

function pieceEntry({ name, make, span, rows }: PieceReport, lines: LineIndex): PieceEntry {
  const { line } = extent(span, lines);
  return { name, make, line, rows: rows.map((row) => rowEntry(row, lines)) };
}

function rowEntry({ kind, head, span, ...numbers }: MeasuredRow, lines: LineIndex): RowEntry {
  return { kind, head, ...extent(span, lines), ...numbers };
}

function findingEntry(finding: Finding, lines: LineIndex, fixes: readonly Fix[]): FindingEntry {
  const { rule, severity, span, message, related } = finding;
  return {
    rule,
    severity,
    ...extent(span, lines),
    message,
    fixes: fixes.map(({ title }) => title),
    related: related.map((place) => relatedEntry(place, lines)),
  };
}

function relatedEntry({ span, message }: Related, lines: LineIndex): RelatedEntry {
  return { ...extent(span, lines), message };
}

function extent(span: Span, lines: LineIndex): Extent {
  const start = lines.position(span.start);
  const end = lines.position(span.end);
  return {
    line: start.line + 1,
    column: start.column + 1,
    endLine: end.line + 1,
    endColumn: end.column + 1,
  };
}
