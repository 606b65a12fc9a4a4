import { expect } from "vitest";
import { hoverAt } from "../../server/src/features/hover/hover";
import { toPlainText } from "../../server/src/features/shown/plain-text";
import { marked, outdented } from "./marked-pattern";

/**
 * Points at the `$0` of a pattern: the first line of what is expected is the text that the hover stands
 * under, the rest is what it shows, without markup and blank lines; "nothing" where it shows nothing.
 */
export function checkHover(pattern: string, expected: string): void {
  const { text, offset, worked } = marked(outdented(pattern));
  const hover = hoverAt(worked, offset);
  const shown = hover
    ? `${text.slice(hover.span.start, hover.span.end)}\n${toPlainText(hover.blocks)}`
    : "nothing";
  expect(shown.replace(/\n{2,}/g, "\n")).toBe(outdented(expected));
}
