/** A pattern with one slip put into it. */
export interface Mutant {
  readonly file: string;
  readonly text: string;
  /** Offsets in `text` of the changed line; where rows were moved, of those it can show in. */
  readonly start: number;
  readonly end: number;
  /** The line with the change marked in it: `(2 sc, inc) x{6→7} (24)`. */
  readonly shown: string;
  /** What was changed, as far as its surroundings tell. */
  readonly place: Place;
}

export const places = [
  "count",
  "multiplier",
  "stretch",
  "chain",
  "ordinal",
  "stitch name",
  "number",
  "starting chain",
  "digits",
  "stitch",
  "place",
  "item left out",
  "item twice",
  "repeat",
  "row left out",
  "row twice",
  "rows changed about",
] as const;
/** `stretch`: the number behind `to last`. `digits`: two changed about, or one left out. */
export type Place = (typeof places)[number];

/** A change of some characters of a line. */
export interface Change {
  readonly at: number;
  readonly from: string;
  readonly to: string;
  readonly place: Place;
}

const head =
  /^(?:(?:R|Rnd|Round|Row)s? ?\d[^:]*:|\d+(?:st|nd|rd|th) (?:row|rnd|round):|(?:Next|Last) (?:row|rnd|round):) ?/i;

/** Where what is worked begins in the line of a row; null where the line is none. */
export function bodyStart(line: string): number | null {
  return head.exec(line)?.[0].length ?? (/^Rep last/.test(line) ? 0 : null);
}

export interface NumberedLine {
  readonly line: string;
  /** Offset in the text. */
  readonly start: number;
}

export function linesOf(text: string): readonly NumberedLine[] {
  let start = 0;
  return text.split("\n").map((line) => {
    const here = { line, start };
    start += line.length + 1;
    return here;
  });
}

/** The pattern with one change in one line. */
export function mutantIn(
  file: string,
  text: string,
  { line, start }: NumberedLine,
  { at, from, to, place }: Change,
): Mutant {
  const withIn = (put: string) => line.slice(0, at) + put + line.slice(at + from.length);
  const changed = withIn(to);
  return {
    file,
    text: text.slice(0, start) + changed + text.slice(start + line.length),
    start,
    end: start + changed.length,
    shown: withIn(`{${from}→${to}}`),
    place,
  };
}
