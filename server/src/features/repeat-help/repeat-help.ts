import type { WorkedPattern } from "../../rules/rule";
import type { Span } from "../../text/span";
import { WritingPlace } from "../completion/writing-place";
import type { Block } from "../shown/blocks";
import { partsOf, type RepeatText, repeatAround } from "./repeat-text";
import { timesThatFit } from "./times-that-fit";
import { timesWorked } from "./times-worked";

/** What is told of a repeat while it is written: its words, the part at the caret, and what it comes to. */
export interface RepeatHelp {
  readonly label: string;
  /** Its parts, within the label. */
  readonly parts: readonly Span[];
  /** Which of them the caret is in. */
  readonly active: number;
  readonly blocks: readonly Block[];
}

/** Marks behind which the help opens by itself. */
export const helpMarks = ["(", "[", "*", ","] as const;

/** Characters; a longer row is not worked again at each letter. */
const longestRow = 500;

/** The help for the repeat around an offset: how many times, and what is used and left; null where there is no repeat. */
export function repeatHelpAt(pattern: WorkedPattern, offset: number): RepeatHelp | null {
  const place = new WritingPlace(pattern, offset);
  const { current } = place;
  if (!place.isInRow || !current) return null;
  const { text, start } = current.row.line;
  const at = offset - start;
  const repeat = text.length > longestRow ? null : repeatAround(text, at);
  if (!repeat || repeat.body.trim() === "") return null;
  const blocks = timesWorked(current, at) ?? timesThatFit(current, repeat);
  return blocks && helpOf(repeat, at, blocks);
}

function helpOf({ body, start }: RepeatText, at: number, blocks: readonly Block[]): RepeatHelp {
  const parts = partsOf(body);
  const begun = parts.findLastIndex((part) => part.start + start <= at);
  return { label: body, parts, active: Math.max(begun, 0), blocks };
}
