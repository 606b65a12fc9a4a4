/** A pattern in which one number of one row line is off by one. */
export interface Mutant {
  readonly file: string;
  readonly text: string;
  /** Offsets of the changed line in `text`. */
  readonly start: number;
  readonly end: number;
  /** The line with the change marked in it: `(2 sc, inc) x{6→7} (24)`. */
  readonly shown: string;
  /** What the number is, as far as its surroundings tell. */
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
] as const;
/** `stretch`: the number behind `to last`. */
export type Place = (typeof places)[number];

const head =
  /^(?:(?:R|Rnds?|Rows?|Rounds?) ?\d+(?:-R?\d+)?(?: \([^)]*\))?|\d+(?:st|nd|rd|th) row|(?:Next|Last) rnd): ?/;

/** A chain on a line of its own; its fault shows in the row that is worked on it. */
const start = /^(?:With \w+, )?ch \d+[.,]/i;

/** Numbers that name rows are no counts: `Rep Row 2`, `As Round 6`. */
const rowName = /\b(?:rows?|rnds?|rounds?) \d+(?:-\d+)?/gi;

/** Every mutant of a pattern: each number behind the head of a row, one more and one less. */
export function mutantsOf(file: string, text: string): Mutant[] {
  const mutants: Mutant[] = [];
  let start = 0;
  for (const line of text.split("\n")) {
    for (const change of changesOf(line)) {
      const withIn = (put: string) =>
        line.slice(0, change.at) + put + line.slice(change.at + change.from.length);
      const changed = withIn(change.to);
      mutants.push({
        file,
        text: text.slice(0, start) + changed + text.slice(start + line.length),
        start,
        end: start + changed.length,
        shown: withIn(`{${change.from}→${change.to}}`),
        place: placeOf(line, change),
      });
    }
    start += line.length + 1;
  }
  return mutants;
}

interface Change {
  readonly at: number;
  readonly from: string;
  readonly to: string;
}

function changesOf(line: string): Change[] {
  const from = head.exec(line)?.[0].length ?? (/^Rep last/.test(line) || start.test(line) ? 0 : null);
  if (from === null) return [];
  const names = [...line.matchAll(rowName)].map(
    ({ 0: name, index }) => [index, index + name.length] as const,
  );
  const numbers = [...line.slice(from).matchAll(/\d+(?:st|nd|rd|th)?/g)];
  return numbers.flatMap(({ 0: number, index }) => {
    const at = from + index;
    if (names.some(([start, end]) => start <= at && at < end)) return [];
    return [1, -1].flatMap((step) => {
      const to = changed(number, step);
      return to === null ? [] : [{ at, from: number, to }];
    });
  });
}

/** One more or less in the same form; there is no 0th chain. */
function changed(number: string, step: number): string | null {
  const n = Number.parseInt(number, 10) + step;
  if (/^\d+$/.test(number)) return `${n}`;
  return n < 1 ? null : `${n}${({ 1: "st", 2: "nd", 3: "rd" } as Record<number, string>)[n] ?? "th"}`;
}

function placeOf(line: string, { at, from }: Change): Place {
  const before = line.slice(0, at);
  const behind = line.slice(at + from.length);
  if (start.test(line)) return "starting chain";
  if (/[a-z]$/.test(from)) return "ordinal";
  if (/[a-z]$/i.test(before) && /^tog/.test(behind)) return "stitch name";
  if (isInCount(line, at)) return "count";
  if (/\bto last $/.test(before)) return "stretch";
  if (/^ (?:more )?times/.test(behind) || /x ?$/.test(before)) return "multiplier";
  if (/\bch[- ]$/i.test(before) || /^ ?ch\b/.test(behind)) return "chain";
  return "number";
}

/** The last bracket of the line, or what is left behind the last full stop inside it. */
function isInCount(line: string, at: number): boolean {
  const bracket = /[([][^()[\]]*[)\]](?:[.;].*)?$/.exec(line);
  if (bracket && !/\d[ a-z]*\([\d, -]+\)/.test(line)) return at > bracket.index;
  const sentence = line.replace(/\.$/, "").lastIndexOf(". ");
  return sentence >= 0 && at > sentence;
}
