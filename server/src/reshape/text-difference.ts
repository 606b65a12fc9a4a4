import type { TextEdit } from "../text/span";

/** The edits that make one text of another: number by number where only numbers differ, else one stretch. */
export function difference(before: string, after: string): TextEdit[] {
  if (before === after) return [];
  const [old, now] = [partsOf(before), partsOf(after)];
  const isAlike =
    old.length === now.length && old.every((part, i) => part === now[i] || areNumbers(part, now[i]));
  return isAlike ? byNumber(old, now) : oneStretch(before, after);
}

function partsOf(text: string): string[] {
  return text.match(/\d+|\D+/g) ?? [];
}

function areNumbers(a: string, b = ""): boolean {
  return /^\d/.test(a) && /^\d/.test(b);
}

function byNumber(old: readonly string[], now: readonly string[]): TextEdit[] {
  let start = 0;
  return old.flatMap((part, i) => {
    const span = { start, end: start + part.length };
    start = span.end;
    return part === now[i] ? [] : [{ span, newText: now[i] ?? "" }];
  });
}

/** It leaves both ends alone, at whole numbers and words. */
function oneStretch(before: string, after: string): TextEdit[] {
  let start = 0;
  while (start < before.length && before[start] === after[start]) start++;
  let tail = 0;
  const most = Math.min(before.length, after.length) - start;
  while (tail < most && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  while (start > 0 && /\w/.test(before[start - 1] ?? "")) start--;
  while (tail > 0 && /\w/.test(before[before.length - tail] ?? "")) tail--;
  return [{ span: { start, end: before.length - tail }, newText: after.slice(start, after.length - tail) }];
}
