import { readLengths } from "./lengths";
import type { FrontLine } from "./sections";
import { partOf, type Stretch, splitAt } from "./stretch";

/** The sizes a pattern is written for, by name; none for a pattern of one size. */
export function readSizeNames(lines: readonly FrontLine[]): Stretch[] {
  for (const { topic, content } of lines) {
    if (topic !== "sizes" || readLengths(content).length > 0) continue;
    const names = splitAt(namesIn(content), /\s*[,:;()[\]]\s*(?:and\s+|&\s*)?|\s+(?:-|and|&)\s+/g);
    if (names.length > 1 && names.every(({ text }) => text.length <= 20)) return names;
  }
  return [];
}

/** `S, M, L (48, 54, 60 sts)`: a bracket behind a list of its own holds something else. */
function namesIn(content: Stretch): Stretch {
  const listed = /^[^()[\],;:]+[,;:][^()[\]]+(?=[([])/.exec(content.text)?.[0];
  return listed === undefined ? content : partOf(content, 0, listed.length);
}
