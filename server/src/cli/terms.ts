import { turnedText } from "../features/turn-pattern";
import type { Output } from "./output";
import { readPatternText } from "./pattern-file";
import { fileLabel, writeUnreadable } from "./unreadable";

/** Writes a pattern in other terms to standard output, and what was left alone to the other stream; gives the exit status. */
export async function writeTerms(
  file: string,
  to: "US" | "UK",
  { input, output }: { readonly input: AsyncIterable<Uint8Array>; readonly output: Output },
): Promise<number> {
  const content = await readPatternText(file, input);
  if ("reason" in content) {
    writeUnreadable([{ file, reason: content.reason }], output);
    return 2;
  }
  const turned = turnedText(content.text, to);
  output.out(turned?.text ?? content.text);
  if (!turned) output.err(`${fileLabel(file)} is in ${to} terms already.\n`);
  for (const line of turned?.left ?? []) output.err(`Left alone: ${line}\n`);
  return 0;
}
