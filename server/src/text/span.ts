/** A stretch of text as UTF-16 offsets: `start` included, `end` not. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** One replacement in a text, in offsets of the text before the edit. */
export interface TextEdit {
  readonly span: Span;
  readonly newText: string;
}

/** The same span moved by `by` UTF-16 units. */
export function shift(span: Span, by: number): Span {
  return { start: span.start + by, end: span.end + by };
}

/** A text with all of `edits` made at once; they must not overlap. What is put in at one place stands in their order. */
export function withEdits(text: string, edits: readonly TextEdit[]): string {
  const lastFirst = [...edits]
    .reverse()
    .sort((a, b) => b.span.start - a.span.start || b.span.end - a.span.end);
  return lastFirst.reduce(
    (now, { span, newText }) => now.slice(0, span.start) + newText + now.slice(span.end),
    text,
  );
}

/** Where an offset of a text is once `edits` are made; inside a replaced stretch, at its start. */
export function offsetAfter(offset: number, edits: readonly TextEdit[]): number {
  return edits.reduce((at, { span, newText }) => {
    if (span.end <= offset) return at + newText.length - (span.end - span.start);
    return span.start < offset ? at + span.start - offset : at;
  }, offset);
}
