import { expect } from "vitest";
import { type CompletionEntry, completionsAt } from "../../server/src/features/completion/completion";
import { withEdits } from "../../server/src/text/span";
import { marked, outdented } from "./marked-pattern";

/** What could be written at the `$0` of a pattern. */
export function entriesAt(pattern: string, mark?: string): CompletionEntry[] {
  const { worked, offset } = marked(outdented(pattern));
  return completionsAt(worked, offset, mark);
}

/** The entries of some kinds, by their labels, the likeliest first. */
export function labelsAt(pattern: string, ...kinds: CompletionEntry["kind"][]): string[] {
  return entriesAt(pattern)
    .filter(({ kind }) => kinds.includes(kind))
    .map(({ label }) => label);
}

/** The pattern once the entry with this label is chosen at its `$0`. */
export function chosen(pattern: string, label: string): string {
  const { text, worked, offset } = marked(outdented(pattern));
  const entry = completionsAt(worked, offset).find((one) => one.label === label);
  expect(entry, `"${label}" is to be offered`).toBeDefined();
  return withEdits(text, entry ? [{ span: entry.span, newText: entry.newText }] : []);
}
