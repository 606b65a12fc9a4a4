/** The words of a line, whatever their order; lines with the same words share one object. */
export interface WordSet {
  /** In lower case; `sc2tog` is `sc` and `tog`. */
  readonly words: readonly string[];
  /** Capitals that stand alone, as letters of yarns do: `B`, `MC`. */
  readonly letters: readonly string[];
}

const setsAtMost = 50_000;
const sets = new Map<string, WordSet>();

export function wordSetOf(text: string, letters: readonly string[]): WordSet {
  const words = [...new Set(text.toLowerCase().match(/\p{L}+/gu) ?? [])].sort();
  const key = [...words, ...letters].join(" ");
  let found = sets.get(key);
  if (!found) {
    if (sets.size >= setsAtMost) sets.clear();
    found = { words, letters };
    sets.set(key, found);
  }
  return found;
}
