import type { Span } from "../../text/span";

/** One number a size, `60 (64, 68)`, in offsets of the line. */
export interface SizeList extends Span {
  readonly length: number;
}

const value = String.raw`(?:[-–]|\d{1,5}(?:[./]\d{1,3})?(?:\s?[½¼¾]|\s\d/\d)?(?:\s?[-–]\s?\d{1,5})?|[½¼¾])`;
const list = new RegExp(
  String.raw`(?<![\d.,/])${value}\s?[([{]\s?(${value}(?:\s?[,:;]\s?${value}){1,15})\s?[)\]}]`,
  "gu",
);

/** `12` and `12 (14, 16)`, where the words beside it say what is counted. */
export const numberOrSizes = String.raw`\d{1,3}(?:\s*[([]\s*\d{1,3}(?:\s*[,;:]\s*\d{1,3})*\s*[)\]])?`;

const unit = String.raw`\s?(?:cm\b|mm\b|in(?:ch(?:es)?)?\b|"|g\b|m\b|yds?\b|yards?\b|balls?\b|skeins?\b)`;
const short = new RegExp(String.raw`(?<![\d.,/])${value}\s?[([]\s?${value}\s?[)\]](?=${unit})`, "gu");

/** Lists of two numbers with one unit, `18 (20) cm`; a pattern of one size has others that look so. */
export function shortListsIn(text: string): SizeList[] {
  return [...text.matchAll(short)].map(({ 0: all, index }) => ({
    start: index,
    end: index + all.length,
    length: 2,
  }));
}

const values = new RegExp(value, "gu");

/** The lists of a line that have two numbers or more in their bracket. */
export function sizeListsIn(text: string): SizeList[] {
  if (!/[([{]\s?[\d–-]/.test(text)) return [];
  return [...text.matchAll(list)].map(({ 0: all, 1: inside = "", index }) => ({
    start: index,
    end: index + all.length,
    length: (inside.match(values) ?? []).length + 1,
  }));
}
