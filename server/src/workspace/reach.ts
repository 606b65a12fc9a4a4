import { notUnderstood } from "../rules/not-understood";
import { type Finding, findingOf } from "../rules/rule";

/** Ten times what the longest patterns have; beyond that, typing would be waited for. */
const linesAtMost = 20_000;
/** Texts up to this length are not looked through: lines that short are no rows. */
const lengthOfShortLines = 16 * linesAtMost;

/** Where what is read of a text ends: behind so many lines. */
export function reachOf(text: string): number {
  if (text.length <= lengthOfShortLines) return text.length;
  let end = 0;
  for (let lines = 0; lines < linesAtMost; lines++) {
    end = text.indexOf("\n", end) + 1;
    if (end === 0) return text.length;
  }
  return end;
}

/** Tells that, and from where on, a text is not read; never in silence. */
export function beyondReach(text: string, reach: number): readonly Finding[] {
  if (reach === text.length) return [];
  const lineEnd = text.indexOf("\n", reach);
  const span = { start: reach, end: lineEnd < 0 ? text.length : lineEnd };
  const message = `Nothing is checked from here on: a pattern can have ${linesAtMost.toLocaleString("en")} lines. Split it into several files.`;
  return [findingOf(notUnderstood, { span, message, fixes: [], related: [] })];
}
