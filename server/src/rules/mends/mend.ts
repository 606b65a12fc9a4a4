import type { Span } from "../../text/span";

/** A change of the row's own text, or of the starting chain that it is worked along. */
export interface MendEdit {
  readonly line: "row" | "below";
  /** In offsets of that line's instructions. */
  readonly span: Span;
  readonly newText: string;
}

/**
 * A small change after which the row is right: it was made, read and worked again on the same
 * places, and then fitted and agreed with its count.
 */
export interface Mend {
  /** What to do, as a button would say it. */
  readonly title: string;
  /** A whole sentence for the message. */
  readonly question: string;
  /** `8 sc for 4 sc`: where several ways are named in one sentence. */
  readonly exchange: string;
  readonly edits: readonly MendEdit[];
}

/** A text with some of its stretches replaced. */
export function edited(text: string, edits: readonly Omit<MendEdit, "line">[]): string {
  const inOrder = [...edits].sort((a, b) => b.span.start - a.span.start);
  return inOrder.reduce(
    (now, { span, newText }) => now.slice(0, span.start) + newText + now.slice(span.end),
    text,
  );
}
