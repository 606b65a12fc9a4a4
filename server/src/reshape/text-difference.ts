import type { TextEdit } from "../text/span";

/** The edits that make one text of another: number by number where only numbers differ, and one stretch in between. */
export function difference(before: string, after: string): TextEdit[] {
  if (before === after) return [];
  const [old, now] = [partsOf(before), partsOf(after)];
  const { head, tail } = alikeEnds(old, now);
  const middle = { old: old.slice(head, old.length - tail), now: now.slice(head, now.length - tail) };
  const from = lengthOf(old.slice(0, head));
  const to = from + lengthOf(middle.old);
  return [
    ...byNumber(old.slice(0, head), now, 0),
    ...oneStretch(middle.old.join(""), middle.now.join(""), from),
    ...byNumber(old.slice(old.length - tail), now.slice(now.length - tail), to),
  ];
}

/** Numbers, and what stands between them. */
export function partsOf(text: string): string[] {
  return text.match(/\d+|\D+/g) ?? [];
}

/** How many parts at either end are the same but for numbers; those at the beginning go first. */
export function alikeEnds(old: readonly string[], now: readonly string[]): { head: number; tail: number } {
  const most = Math.min(old.length, now.length);
  const isAlike = (a = "", b = ""): boolean => a === b || (/^\d/.test(a) && /^\d/.test(b));
  let head = 0;
  while (head < most && isAlike(old[head], now[head])) head++;
  let tail = 0;
  while (tail < most - head && isAlike(old[old.length - 1 - tail], now[now.length - 1 - tail])) tail++;
  return { head, tail };
}

function lengthOf(parts: readonly string[]): number {
  return parts.reduce((sum, part) => sum + part.length, 0);
}

function byNumber(old: readonly string[], now: readonly string[], from: number): TextEdit[] {
  let start = from;
  return old.flatMap((part, i) => {
    const span = { start, end: start + part.length };
    start = span.end;
    return part === now[i] ? [] : [{ span, newText: now[i] ?? "" }];
  });
}

/** It leaves both ends alone, at whole words. */
function oneStretch(before: string, after: string, from: number): TextEdit[] {
  if (before === after) return [];
  let start = 0;
  while (start < before.length && before[start] === after[start]) start++;
  let tail = 0;
  const most = Math.min(before.length, after.length) - start;
  while (tail < most && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  while (start > 0 && /\w/.test(before[start - 1] ?? "")) start--;
  while (tail > 0 && /\w/.test(before[before.length - tail] ?? "")) tail--;
  const span = { start: from + start, end: from + before.length - tail };
  return [{ span, newText: after.slice(start, after.length - tail) }];
}
