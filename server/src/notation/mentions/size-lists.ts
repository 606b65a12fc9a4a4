import type { Span } from "../../text/span";

/** One number a size, `60 (64, 68)`, in offsets of the line. */
export interface SizeList extends Span {
  readonly length: number;
}

const value = String.raw`(?:[-–]|\d{1,5}(?:[./]\d{1,3})?(?:\s?[½¼¾]|\s\d/\d)?(?:\s?[-–]\s?\d{1,5})?|[½¼¾])`;
const list = new RegExp(
  String.raw`(?<![\d.,/])${value}\s?[([]\s?(${value}(?:\s?[,:;]\s?${value}){1,15})\s?[)\]]`,
  "gu",
);

const values = new RegExp(value, "gu");

/** The lists of a line that have two numbers or more in their bracket. */
export function sizeListsIn(text: string): SizeList[] {
  if (!/[([]\s?[\d–-]/.test(text)) return [];
  return [...text.matchAll(list)].map(({ 0: all, 1: inside = "", index }) => ({
    start: index,
    end: index + all.length,
    length: (inside.match(values) ?? []).length + 1,
  }));
}
