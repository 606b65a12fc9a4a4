import { plainLine } from "../text/plain-line";
import type { Output } from "./output";
import { STANDARD_INPUT, type UnreadableEntry } from "./report-shape";

/** Says on standard error what could not be checked, and why. */
export function writeUnreadable(entries: readonly UnreadableEntry[], output: Output): void {
  for (const { file, reason } of entries) output.err(`${fileLabel(file)}: ${plainLine(reason)}\n`);
}

/** A file's name as people read it. */
export function fileLabel(file: string): string {
  return file === STANDARD_INPUT ? "(standard input)" : plainLine(file);
}
