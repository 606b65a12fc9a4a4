import type { Span } from "../text/span";

/** `[as meant: wrong-count]`: a designer's word that what is written here is meant so. */
export interface AsMeant extends Span {
  /** The names of queries it answers, each where it stands. */
  readonly names: readonly (Span & { readonly name: string })[];
}

const remark = /\[as meant\b[^[\]\r\n]*\]/gi;
const lead = /^\[as meant\s*:?/i;

/** Every such remark of a text, in order. */
export function readAsMeant(text: string): AsMeant[] {
  return mayHaveAny(text) ? [...text.matchAll(remark)].map((match) => remarkOf(match[0], match.index)) : [];
}

/** The text with blanks in place of the remarks: all that is read of a pattern, at the same offsets. */
export function withoutAsMeant(text: string): string {
  return mayHaveAny(text) ? text.replace(remark, (found) => " ".repeat(found.length)) : text;
}

let last = { text: "", any: false };

/** Most texts have none, and this is asked twice of every version. */
function mayHaveAny(text: string): boolean {
  if (text !== last.text) last = { text, any: text.includes("s meant") || text.includes("S MEANT") };
  return last.any;
}

function remarkOf(text: string, start: number): AsMeant {
  const from = lead.exec(text)?.[0].length ?? 0;
  const names = [...text.slice(from, -1).matchAll(/[^\s,;]+/g)].map(({ 0: name, index }) => {
    const at = start + from + index;
    return { name: name.toLowerCase(), start: at, end: at + name.length };
  });
  return { start, end: start + text.length, names };
}
