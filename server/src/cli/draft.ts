import { languageDraftOf } from "../features/draft-in-language";
import type { Language } from "../trade/languages/languages";
import type { Output } from "./output";
import { readOrTell } from "./pattern-file";
import { fileLabel } from "./unreadable";

/** Writes a draft of a pattern in another language to standard output, and what stayed English to the other stream; gives the exit status. */
export async function writeDraft(
  file: string,
  language: Language,
  host: { readonly input: AsyncIterable<Uint8Array>; readonly output: Output },
): Promise<number> {
  const text = await readOrTell(file, host);
  if (text === null) return 2;
  const { output } = host;
  const draft = languageDraftOf(text, language);
  output.out(draft?.text ?? text);
  if (!draft)
    output.err(`${fileLabel(file)} is in another language already; drafts are made from English.\n`);
  for (const line of draft?.left ?? []) output.err(`Left in English: ${line}\n`);
  return 0;
}
