import { bodyStart, type Change, linesOf, type Mutant, mutantIn, type Place } from "./mutant";

/** A chain on a line of its own; its fault shows in the row that is worked on it. */
const start = /^(?:With \w+, )?ch \d+[.,]/i;

/** Numbers that name rows are no counts: `Rep Row 2`, `As Round 6`. */
const rowName = /\b(?:rows?|rnds?|rounds?) \d+(?:-\d+)?/gi;

/** Every number behind the head of a row, one more and one less. */
export function mutantsOf(file: string, text: string): Mutant[] {
  return linesOf(text).flatMap((line) =>
    offByOne(line.line).map((change) => mutantIn(file, text, line, change)),
  );
}

export function offByOne(line: string): Change[] {
  return numbersIn(line).flatMap(({ at, from }) =>
    [1, -1].flatMap((step) => {
      const to = changed(from, step);
      return to === null ? [] : [{ at, from, to, place: placeOf(line, at, from) }];
    }),
  );
}

/** Slips of the hand in numbers of two digits and more: two changed about, the last left out. */
export function slippedDigits(line: string): Change[] {
  const long = numbersIn(line).filter(({ from }) => /^\d{2,}$/.test(from));
  return long.flatMap(({ at, from }) => {
    const [last, other] = [from.at(-1) ?? "", from.at(-2) ?? ""];
    const swapped = from.slice(0, -2) + last + other;
    return [...new Set([swapped, from.slice(0, -1)])]
      .filter((to) => to !== from)
      .map((to) => ({ at, from, to, place: "digits" as const }));
  });
}

function numbersIn(line: string): readonly { readonly at: number; readonly from: string }[] {
  const from = bodyStart(line) ?? (start.test(line) ? 0 : null);
  if (from === null) return [];
  const names = [...line.matchAll(rowName)].map(
    ({ 0: name, index }) => [index, index + name.length] as const,
  );
  const isName = (at: number) => names.some(([first, end]) => first <= at && at < end);
  return [...line.slice(from).matchAll(/\d+(?:st|nd|rd|th)?/g)]
    .map(({ 0: number, index }) => ({ at: from + index, from: number }))
    .filter(({ at }) => !isName(at));
}

/** One more or less in the same form; there is no 0th chain. */
function changed(number: string, step: number): string | null {
  const n = Number.parseInt(number, 10) + step;
  if (/^\d+$/.test(number)) return `${n}`;
  return n < 1 ? null : `${n}${({ 1: "st", 2: "nd", 3: "rd" } as Record<number, string>)[n] ?? "th"}`;
}

function placeOf(line: string, at: number, from: string): Place {
  const before = line.slice(0, at);
  const behind = line.slice(at + from.length);
  if (start.test(line)) return "starting chain";
  if (/[a-z]$/.test(from)) return "ordinal";
  if (/[a-z]$/i.test(before) && /^tog/.test(behind)) return "stitch name";
  if (at >= countStart(line)) return "count";
  if (/\bto last $/.test(before)) return "stretch";
  if (/^ (?:more )?times/.test(behind) || /x ?$/.test(before)) return "multiplier";
  if (/\bch[- ]$/i.test(before) || /^ ?ch\b/.test(behind)) return "chain";
  return "number";
}

/** Where the stated count begins: the last bracket of the line, or what is left behind the last full stop inside it. */
export function countStart(line: string): number {
  const bracket = /[([][^()[\]]*[)\]](?:[.;].*)?$/.exec(line);
  if (bracket && !/\d[ a-z]*\([\d, -]+\)/.test(line)) return bracket.index + 1;
  const sentence = line.replace(/\.$/, "").lastIndexOf(". ");
  return sentence < 0 ? line.length : sentence + 1;
}
