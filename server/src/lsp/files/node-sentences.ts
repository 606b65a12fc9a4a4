import { readFile } from "node:fs/promises";
import { join } from "node:path";
import type { Sentences } from "../../text/say";

/** Reads the sentences of a language from a folder; null where that has none. */
export function sentencesIn(folder: string): (language: string) => Promise<Sentences | null> {
  return (language) =>
    readFile(join(folder, `${language}.json`), "utf8").then(
      (text) => JSON.parse(text),
      () => null,
    );
}
