import type { OneSize } from "./one-size";

/** Numbers as the lists of a pattern are written: `48 (52, 56)`, `48[52:56]`, `(48, 52, 56)`. */
export type ListForm = (entries: readonly string[]) => string;

/** As the first list of numbers is written; where there is none, in the usual way. */
export function listFormOf(text: string, sizes: readonly OneSize[]): ListForm {
  const [first, ...others] = sizes;
  const at = first?.cuts.findIndex(({ newText }) => /^\d+$/.test(newText)) ?? -1;
  const span = first?.cuts[at]?.span;
  const cells = sizes.map(({ cuts }) => cuts.find((cut) => cut.span.start === span?.start)?.cell ?? null);
  const [a, b, c] = cells;
  const last = cells.at(-1);
  if (!span || !a || !b || !last || others.length === 0) return written("", " (", ", ", ")");
  return written(
    text.slice(span.start, a.start),
    text.slice(a.end, b.start),
    c ? text.slice(b.end, c.start) : ", ",
    text.slice(last.end, span.end),
  );
}

function written(lead: string, open: string, between: string, close: string): ListForm {
  return ([first = "", ...others]) =>
    others.length === 0 ? first : `${lead}${first}${open}${others.join(between)}${close}`;
}
