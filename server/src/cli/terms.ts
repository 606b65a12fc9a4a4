import { turnedText } from "../features/turn-pattern";
import type { Output } from "./output";
import { readOrTell } from "./pattern-file";
import { fileLabel } from "./unreadable";

/** Writes a pattern in other terms to standard output, and what was left alone to the other stream; gives the exit status. */
export async function writeTerms(
  file: string,
  to: "US" | "UK",
  host: { readonly input: AsyncIterable<Uint8Array>; readonly output: Output },
): Promise<number> {
  const text = await readOrTell(file, host);
  if (text === null) return 2;
  const { output } = host;
  const turned = turnedText(text, to);
  output.out(turned?.text ?? text);
  if (!turned) output.err(`${fileLabel(file)} is in ${to} terms already, or in another language.\n`);
  for (const line of turned?.left ?? []) output.err(`Left alone: ${line}\n`);
  return 0;
}
