import type { Span } from "../../text/span";

/** A stretch of a pattern's text, where it stands. */
export interface Stretch extends Span {
  readonly text: string;
}

export function stretchAt(text: string, start: number): Stretch {
  return { text, start, end: start + text.length };
}

/** A part of a stretch, from one index of its text to another, without the blanks around it. */
export function partOf({ text, start }: Stretch, from: number, to = text.length): Stretch {
  const part = text.slice(from, to);
  const blank = part.length - part.trimStart().length;
  return stretchAt(part.trim(), start + from + blank);
}

/** The parts between the matches of a pattern that has the flag `g`; empty ones are left out. */
export function splitAt(stretch: Stretch, separator: RegExp): Stretch[] {
  const marks = [...stretch.text.matchAll(separator)];
  const starts = [0, ...marks.map(({ 0: mark, index }) => index + mark.length)];
  const parts = starts.map((from, i) => partOf(stretch, from, marks[i]?.index));
  return parts.filter(({ text }) => text !== "");
}

/** Commas and the like that stand in no brackets. */
export function splitOutsideBrackets(stretch: Stretch, separators: string): Stretch[] {
  const cuts: number[] = [];
  let depth = 0;
  for (let i = 0; i < stretch.text.length; i++) {
    const char = stretch.text[i] as string;
    if ("([{".includes(char)) depth++;
    else if (")]}".includes(char)) depth = Math.max(0, depth - 1);
    else if (depth === 0 && separators.includes(char) && !isInNumber(stretch.text, i)) cuts.push(i);
  }
  const starts = [0, ...cuts.map((cut) => cut + 1)];
  const parts = starts.map((from, i) => partOf(stretch, from, cuts[i]));
  return parts.filter(({ text }) => text !== "");
}

/** `3,5 mm`: a comma between figures belongs to the number. */
function isInNumber(text: string, i: number): boolean {
  return /\d/.test(text[i - 1] ?? "") && /\d/.test(text[i + 1] ?? "");
}
