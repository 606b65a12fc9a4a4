/** A text as a sentence begins: with a capital. */
export function sentenceStart(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A text as a whole sentence: with a capital, and a full stop unless it has its end. */
export function sentence(text: string): string {
  return sentenceStart(text).replace(/(?<![.?!])$/, ".");
}
