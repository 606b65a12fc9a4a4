import type { PatternLine } from "../../notation/lines";
import type { WorkedPattern } from "../../rules/rule";
import type { TextEdit } from "../../text/span";

/** Headings under which something is said for the whole pattern; the first that is there is taken. */
export type Under = readonly RegExp[];

/** A sentence on a line of its own, under one of some headings, else before the first piece. */
export function newLine(pattern: WorkedPattern, sentence: string, under: Under): TextEdit {
  const lineEnd = pattern.text.includes("\r\n") ? "\r\n" : "\n";
  const last = lastLineUnder(pattern, under);
  if (last) return { span: { start: last.end, end: last.end }, newText: `${lineEnd}${sentence}` };
  const start = firstPieceStart(pattern);
  return { span: { start, end: start }, newText: `${sentence}${lineEnd}${lineEnd}` };
}

function lastLineUnder({ lines }: WorkedPattern, under: Under): PatternLine | null {
  for (const heading of under) {
    const at = lines.findIndex(({ kind, text }) => isProse(kind) && heading.test(text.trim()));
    if (at < 0) continue;
    const behind = lines.slice(at + 1).findIndex(({ kind }) => kind === "heading" || !isProse(kind));
    return lines[behind < 0 ? lines.length - 1 : at + behind] ?? null;
  }
  return null;
}

function isProse(kind: PatternLine["kind"]): boolean {
  return kind === "heading" || kind === "field" || kind === "prose";
}

/** The heading of the first piece, or its first row. */
function firstPieceStart({ lines, pieces }: WorkedPattern): number {
  const [first] = pieces;
  if (!first) return 0;
  const row = first.rows[0]?.line.span.start ?? 0;
  const at = first.piece.name === "" ? row : first.piece.span.start;
  return lines.findLast(({ start }) => start <= at)?.start ?? at;
}
