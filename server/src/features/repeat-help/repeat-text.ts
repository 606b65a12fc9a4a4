import type { Span } from "../../text/span";

/** The repeat around a place of a row, as it is written so far. Spans are within the row's instructions. */
export interface RepeatText {
  /** What stands before its opening mark. */
  readonly lead: string;
  /** What is between its marks; up to the place, where it is not closed. */
  readonly body: string;
  /** Where the body starts. */
  readonly start: number;
  /** What stands behind its closing mark. */
  readonly behind: string;
}

const pairs: Readonly<Record<string, string>> = { "(": ")", "[": "]", "{": "}" };

/** The innermost bracket, or the asterisk, that is open at a place; null where none is. */
export function repeatAround(text: string, at: number): RepeatText | null {
  const open = openMark(text, at);
  if (open === null) return null;
  const start = open + 1;
  const end = closeMark(text, open, at);
  return {
    lead: text.slice(0, open),
    body: text.slice(start, end ?? at),
    start,
    behind: text.slice(end === null ? at : end + 1),
  };
}

function openMark(text: string, at: number): number | null {
  const open: number[] = [];
  let asterisk: number | null = null;
  for (let i = 0; i < at; i++) {
    const char = text[i] as string;
    if (char in pairs) open.push(i);
    else if (Object.values(pairs).includes(char)) open.pop();
    else if (char === "*") asterisk = asterisk === null ? i : null;
  }
  return open.at(-1) ?? asterisk;
}

/** Where the mark is closed behind a place. */
function closeMark(text: string, open: number, at: number): number | null {
  const mark = pairs[text[open] as string] ?? "*";
  let depth = 0;
  for (let i = at; i < text.length; i++) {
    if (text[i] === mark && depth-- === 0) return i;
    if (text[i] === text[open] && mark !== "*") depth++;
  }
  return null;
}

/** The parts of a repeat between its own commas, without blanks around them. */
export function partsOf(body: string): Span[] {
  const parts: Span[] = [];
  let [depth, from] = [0, 0];
  for (let i = 0; i <= body.length; i++) {
    const char = body[i];
    if (char !== undefined && char in pairs) depth++;
    else if (char !== undefined && Object.values(pairs).includes(char)) depth--;
    const isEnd = char === undefined || (depth === 0 && (char === "," || char === ";"));
    if (!isEnd) continue;
    const part = body.slice(from, i);
    const start = from + part.length - part.trimStart().length;
    if (part.trim() !== "") parts.push({ start, end: start + part.trim().length });
    from = i + 1;
  }
  return parts;
}
