import type { WorkedPattern, WorkedPiece } from "../fabric/worked";
import type { Span } from "../text/span";

/** Where a text first speaks of a piece by its whole name, of one or of several: `ear` and `ears`, never `near`. */
export function whereNamed(text: string, name: string): Span | null {
  const [said, wanted] = [text.toLowerCase(), name.toLowerCase()];
  if (wanted.length < 2) return null;
  for (let start = said.indexOf(wanted); start >= 0; start = said.indexOf(wanted, start + 1)) {
    const end = start + wanted.length;
    if (!endsInWord.test(said.slice(0, start)) && !goesOn.test(said.slice(end))) return { start, end };
  }
  return null;
}

const endsInWord = /[\p{L}\d]$/u;
const goesOn = /^(?!e?s(?![\p{L}\d]))[\p{L}\d]/u;

/** The pieces that a text names. */
export function piecesNamedIn({ pieces }: WorkedPattern, text: string): readonly WorkedPiece[] {
  return pieces.filter(({ piece }) => whereNamed(text, piece.name) !== null);
}
