/* The numbers that patterns spell out: common practice, no source. The survey of published patterns met them "to at least twelve". */

const ones = [
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
  "thirteen",
  "fourteen",
  "fifteen",
  "sixteen",
  "seventeen",
  "eighteen",
  "nineteen",
];
const onesth = [
  "first",
  "second",
  "third",
  "fourth",
  "fifth",
  "sixth",
  "seventh",
  "eighth",
  "ninth",
  "tenth",
  "eleventh",
  "twelfth",
  "thirteenth",
  "fourteenth",
  "fifteenth",
  "sixteenth",
  "seventeenth",
  "eighteenth",
  "nineteenth",
];
const tens = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
const tensth = tens.map((word) => word.replace(/y$/, "ieth"));

/** `one` to `ninety-nine`, with a hyphen. */
export const numberWords: ReadonlyMap<string, number> = counted(ones, tens);

/** `six` and `6`; NaN for another word. */
export function numberFrom(typed: string): number {
  return numberWords.get(typed.toLowerCase()) ?? Number(typed);
}

/** `first` to `ninety-ninth`. */
export const ordinalWords: ReadonlyMap<string, number> = counted(onesth, tensth);

/** How often: `once`, `twice`, `thrice`. */
export const timesWords: ReadonlyMap<string, number> = new Map([
  ["once", 1],
  ["twice", 2],
  ["thrice", 3],
]);

/** Numbers below 100 whose last part is one of `units`, or one of `decades` when they are round. */
function counted(units: readonly string[], decades: readonly string[]): Map<string, number> {
  const round = decades.map((word, index) => [word, 20 + 10 * index] as const);
  const between = tens.flatMap((decade, index) =>
    units.slice(0, 9).map((unit, below) => [`${decade}-${unit}`, 21 + 10 * index + below] as const),
  );
  return new Map([...units.map((word, index) => [word, index + 1] as const), ...round, ...between]);
}
