import type { Span } from "../text/span";
import type { Finding, PatternReport, RowReport } from "../workspace/report";

/** Longer runs of letters are no word being typed. */
const LONGEST_WORD = 64;
const WORD_AT_END = /[\p{L}\p{M}\p{N}'’-]+$/u;
/** `12`, `x5`, `3-8`: a number is whole at every keystroke. */
const NUMBER = /^[x×]?\p{N}+(-\p{N}+)*$/iu;
/** What an editor puts behind the caret by itself: the brackets and quotes it closes. */
const CLOSED_BY_EDITOR = /^[ \t)\]}*"”'’]*$/;

/**
 * The findings to show while someone types at `caret`: nothing is said of a row whose last word may
 * still be growing. A row that states its count is finished, apart from a word not understood.
 */
export function findingsToShow(
  report: PatternReport,
  text: string,
  caret: number | null,
): readonly Finding[] {
  if (caret === null || report.findings.length === 0 || !isWordGrowing(text, caret)) return report.findings;
  const row = rowAt(report, caret);
  const typedIn = row?.span ?? lineAt(text, caret);
  const hasCount = row !== undefined && row.stated !== null;
  const waits = (finding: Finding) =>
    startsIn(finding.span, typedIn) && (finding.rule === "not-understood" || !hasCount);
  return report.findings.filter((finding) => !waits(finding));
}

/** Whether a word, not a number, ends at the caret with nothing of the line behind it. */
export function isWordGrowing(text: string, caret: number): boolean {
  const line = lineAt(text, caret);
  const before = text.slice(Math.max(line.start, caret - LONGEST_WORD), caret);
  const word = WORD_AT_END.exec(before)?.[0];
  if (word === undefined || NUMBER.test(word)) return false;
  return CLOSED_BY_EDITOR.test(text.slice(caret, Math.min(line.end, caret + LONGEST_WORD)));
}

function lineAt(text: string, offset: number): Span {
  const start = Math.max(text.lastIndexOf("\n", offset - 1), text.lastIndexOf("\r", offset - 1)) + 1;
  const length = text.slice(offset).search(/[\r\n]/);
  return { start, end: length < 0 ? text.length : offset + length };
}

function rowAt(report: PatternReport, offset: number): RowReport | undefined {
  for (const piece of report.pieces) {
    const row = piece.rows.find(({ span }) => span.start <= offset && offset <= span.end);
    if (row) return row;
  }
  return undefined;
}

function startsIn(span: Span, { start, end }: Span): boolean {
  return start <= span.start && span.start <= end;
}
