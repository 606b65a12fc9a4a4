import type { Position, Range } from "vscode-languageserver";
import type { LineIndex } from "../text/line-index";
import type { Span } from "../text/span";

export function rangeOf(span: Span, lines: LineIndex): Range {
  return { start: positionOf(span.start, lines), end: positionOf(span.end, lines) };
}

export function positionOf(offset: number, lines: LineIndex): Position {
  const { line, column } = lines.position(offset);
  return { line, character: column };
}

/** The offset of a position; one that is not in the text is brought to the nearest end of its line. */
export function offsetOf({ line, character }: Position, lines: LineIndex): number {
  const end = line + 1 < lines.lineCount ? lines.lineStart(line + 1) : lines.text.length;
  return line >= lines.lineCount ? end : Math.min(lines.lineStart(line) + character, end);
}

/** The stretch between the ends of a range, whichever comes first. */
export function spanOf({ start, end }: Range, lines: LineIndex): Span {
  const [from, to] = [offsetOf(start, lines), offsetOf(end, lines)];
  return { start: Math.min(from, to), end: Math.max(from, to) };
}
