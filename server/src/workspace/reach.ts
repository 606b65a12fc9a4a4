import { notUnderstood } from "../rules/not-understood";
import { type Finding, findingOf } from "../rules/rule";
import { say } from "../text/say";

/** Ten times what the longest patterns have: a text with more lines is no pattern. */
const linesAtMost = 10_000;
/** So many lines of such a text are checked all the same; more of them would have to be waited for. */
const linesOfOthers = 1_000;
/** Texts up to this length are not looked through: lines that short are no rows. */
const lengthOfShortLines = 16 * linesAtMost;

/** Where what is read of a text ends: of one that is too long, behind its first lines. */
export function reachOf(text: string): number {
  if (text.length <= lengthOfShortLines) return text.length;
  let [end, reach] = [0, text.length];
  for (let lines = 1; lines <= linesAtMost; lines++) {
    end = text.indexOf("\n", end) + 1;
    if (end === 0) return text.length;
    if (lines === linesOfOthers) reach = end;
  }
  return reach;
}

/** Tells that, and from where on, a text is not read; never in silence. */
export function beyondReach(text: string, reach: number): readonly Finding[] {
  if (reach === text.length) return [];
  const lineEnd = text.indexOf("\n", reach);
  const span = { start: reach, end: lineEnd < 0 ? text.length : lineEnd };
  const [most, first] = [linesAtMost, linesOfOthers].map((n) => n.toLocaleString("en"));
  const message = say`Nothing is checked from here on: a pattern can have ${most} lines, and of a longer text only the first ${first} are looked at. Split it into several files.`;
  return [findingOf(notUnderstood, { span, message, fixes: [], related: [] })];
}
