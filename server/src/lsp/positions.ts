import type { Position, Range, TextDocumentContentChangeEvent } from "vscode-languageserver";
import type { TextDocument } from "vscode-languageserver-textdocument";
import { LineIndex } from "../text/line-index";
import type { Span } from "../text/span";
import type { Encoding } from "./encodings";

/** The lines of one text, with columns as a client counts them. */
export class ClientLines extends LineIndex {
  constructor(
    text: string,
    readonly encoding: Encoding,
  ) {
    super(text);
  }
}

export function rangeOf(span: Span, lines: ClientLines): Range {
  return { start: positionOf(span.start, lines), end: positionOf(span.end, lines) };
}

export function positionOf(offset: number, lines: ClientLines): Position {
  const { line, column } = lines.position(offset);
  const start = lines.lineStart(line);
  return { line, character: lines.encoding.lengthOf(lines.text, start, start + column) };
}

/** The offset of a position; one that is not in the text is brought to the nearest end of its line. */
export function offsetOf({ line, character }: Position, lines: ClientLines): number {
  if (line >= lines.lineCount) return lines.text.length;
  const start = lines.lineStart(line);
  const next = line + 1 < lines.lineCount ? lines.lineStart(line + 1) : lines.text.length;
  return lines.encoding.offsetOf(lines.text, start, beforeLineEnd(lines.text, start, next), character);
}

/** Where a line ends without what ends it: a column beyond that is brought there, and not into the next line. */
function beforeLineEnd(text: string, start: number, next: number): number {
  let end = next;
  while (end > start && (text[end - 1] === "\n" || text[end - 1] === "\r")) end--;
  return end;
}

/** The stretch between the ends of a range, whichever comes first. */
export function spanOf({ start, end }: Range, lines: ClientLines): Span {
  const [from, to] = [offsetOf(start, lines), offsetOf(end, lines)];
  return { start: Math.min(from, to), end: Math.max(from, to) };
}

/** How long a stretch is, as a client counts. */
export function lengthOf({ start, end }: Span, { text, encoding }: ClientLines): number {
  return encoding.lengthOf(text, start, end);
}

/** A client's change of a document, in the UTF-16 units that the document itself counts in. */
export function ownChange(
  change: TextDocumentContentChangeEvent,
  document: TextDocument,
  encoding: Encoding,
): TextDocumentContentChangeEvent {
  if (!("range" in change)) return change;
  const text = document.getText();
  const own = ({ line, character }: Position) => {
    const start = document.offsetAt({ line, character: 0 });
    const end = beforeLineEnd(text, start, document.offsetAt({ line: line + 1, character: 0 }));
    return document.positionAt(encoding.offsetOf(text, start, end, character));
  };
  return { text: change.text, range: { start: own(change.range.start), end: own(change.range.end) } };
}
