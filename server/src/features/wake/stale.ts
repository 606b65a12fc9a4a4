import type { Span, TextEdit } from "../../text/span";

/** `fit`, `count`, `doubt`: a row that was right; `numbers`: one that is right, with other numbers. */
export type StaleSort = "fit" | "count" | "doubt" | "numbers" | "reference" | "placement" | "piece";

/** Something that the designer left alone, and that a change elsewhere has made out of date. */
export interface Stale {
  readonly sort: StaleSort;
  /** Where to look, in offsets of the text as it is now. */
  readonly span: Span;
  /** What it is: `Rnd 8`, or the sentence. */
  readonly name: string;
  /** The piece it belongs to; empty where that has no name. */
  readonly piece: string;
  /** What happened to it, in a whole sentence. */
  readonly says: string;
  readonly mend: Mending | null;
}

export interface Mending {
  readonly title: string;
  edits(): readonly TextEdit[];
}
