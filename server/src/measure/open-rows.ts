import type { WorkedRow } from "../fabric/worked";
import { readLengths } from "../notation/front-matter/lengths";
import { stretchAt } from "../notation/front-matter/stretch";
import { convertLength } from "../trade/units";

/** How far rows are to be worked that are told by a length: from the first row of the piece, or from here on. */
export interface LengthAsked {
  readonly millimetres: number;
  readonly from: "start" | "here";
}

/** `until piece measures 20 cm`, `for another 5 cm`: what a row without a number of repeats asks for in one size. */
export function lengthAsked({ line }: WorkedRow, size: number): LengthAsked | null {
  const [length] = readLengths(stretchAt(line.text, 0));
  const value = length?.values[length.values.length === 1 ? 0 : size];
  if (!length || value === undefined || value <= 0) return null;
  const millimetres = convertLength(value, length.unit, "mm");
  if (/\b(?:more|another|further|additional)\b|\bfor\s+(?:about\s+|approx\.?\s+)?\d/i.test(line.text))
    return { millimetres, from: "here" };
  return /\b(?:until|till?|measur\w+)\b/i.test(line.text) ? { millimetres, from: "start" } : null;
}

/** How often rows that are so high together are worked to come nearest to what is asked; once at least. */
export function passesTo({ millimetres, from }: LengthAsked, along: number, high: number): number | null {
  const left = from === "here" ? millimetres : millimetres - along;
  return high > 0 ? Math.max(Math.round(left / high), 1) : null;
}
