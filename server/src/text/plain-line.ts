/** Characters that steer a terminal or turn the direction of what follows, and halves of characters. */
const UNPRINTABLE = /[\p{Cc}\p{Cs}\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;

/** Text as one line that is safe to print: words quoted from a file may hold anything. */
export function plainLine(text: string): string {
  return text.replace(/\s+/g, " ").replace(UNPRINTABLE, "\ufffd");
}
