import { say } from "../../text/say";
/** One number a size; null where a size has none. */
export type Numbers = readonly (number | null)[];

/** `1,030`: digits in threes, as in print; not where a comma stands for a decimal point. */
export function grouped(n: number): string {
  return String(n).replace(/\B(?=(?:\d{3})+$)/g, say`,`);
}

/** `56 (64, 72, 80)`: one number a size as patterns write them; `-` for a size without one; equal ones once. */
export function sized(list: Numbers): string {
  const [first, ...rest] = list.map((n) => (n === null ? "-" : String(n)));
  if (first === undefined) return "-";
  return rest.every((n) => n === first) ? first : `${first} (${rest.join(", ")})`;
}

const digits = /\d+/g;

/** Texts that differ only in their numbers, as one text with a number for each size that has one; null for others. */
export function mergedSizes(texts: readonly (string | null)[]): string | null {
  const known = texts.filter((text) => text !== null);
  const [first] = known;
  if (first === undefined || known.some((text) => text.replace(digits, "0") !== first.replace(digits, "0")))
    return null;
  const numbers = known.map((text) => text.match(digits) ?? []);
  let at = 0;
  return first.replace(digits, () => {
    const place = at++;
    return sized(numbers.map((all) => Number(all[place])));
  });
}
