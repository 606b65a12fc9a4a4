import type { Output } from "./output";
import { plain } from "./plain-text";
import { STANDARD_INPUT, type UnreadableEntry } from "./report-shape";

/** Says on standard error what could not be checked, and why. */
export function writeUnreadable(entries: readonly UnreadableEntry[], output: Output): void {
  for (const { file, reason } of entries) output.err(`${fileLabel(file)}: ${plain(reason)}\n`);
}

/** A file's name as people read it. */
export function fileLabel(file: string): string {
  return file === STANDARD_INPUT ? "(standard input)" : plain(file);
}
