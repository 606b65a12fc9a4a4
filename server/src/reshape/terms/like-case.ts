/** A word or phrase with capitals where another has them: `Half double` and `HALF DOUBLE` tell how. */
export function likeCase(text: string, found: string): string {
  if (found === found.toLowerCase()) return text;
  if (found === found.toUpperCase() && /\p{Lu}.*\p{Lu}/u.test(found)) return text.toUpperCase();
  const parts = found.split(/[\s-]+/);
  const every = parts.length > 1 && parts.every((part) => /^\p{Lu}/u.test(part));
  return every ? text.replace(/(?<!\p{L})\p{L}/gu, upper) : text.replace(/^\p{L}/u, upper);
}

function upper(letter: string): string {
  return letter.toUpperCase();
}
