import type { Span } from "../../text/span";
import type { Block } from "../shown/blocks";
import type { WritingPlace } from "./writing-place";

export type EntryKind = "row" | "count" | "stitch" | "own stitch" | "phrase" | "place" | "yarn" | "header";

/** One thing that could be written at a place. */
export interface CompletionEntry {
  readonly kind: EntryKind;
  readonly label: string;
  /** Behind the label, in a few words. */
  readonly detail: string;
  /** What it takes the place of: it ends where the caret is, or behind it on the same line. */
  readonly span: Span;
  readonly newText: string;
  /** Lower ones stand higher in the list. */
  readonly rank: number;
  /** Told when the entry is looked at. */
  blocks(): readonly Block[];
}

/** One sort of thing to write; gives nothing where it does not belong. */
export type CompletionSource = (place: WritingPlace) => readonly CompletionEntry[];
