/** How many UTF-16 units two texts share in whole lines. */
export interface SharedEnds {
  /** At their start. */
  readonly start: number;
  /** At their end, after what they share at their start. */
  readonly end: number;
}

/** What an edit left alone: whole lines at the start and at the end of two versions of a text. */
export function sharedEnds(before: string, after: string): SharedEnds {
  const shorter = Math.min(before.length, after.length);
  if (before.length === after.length && before === after) return { start: shorter, end: 0 };
  const head = sharedStart(before, after, shorter);
  const start = head === 0 ? 0 : before.lastIndexOf("\n", head - 1) + 1;
  const tail = sharedEnd(before, after, shorter - start);
  const lineEnd = before.indexOf("\n", before.length - tail);
  return { start, end: lineEnd < 0 ? 0 : before.length - lineEnd - 1 };
}

/** Stretches are compared whole first, since that is far quicker than unit by unit. */
const stretch = 2048;

function sharedStart(before: string, after: string, most: number): number {
  let at = 0;
  while (at + stretch <= most && before.slice(at, at + stretch) === after.slice(at, at + stretch))
    at += stretch;
  while (at < most && before.charCodeAt(at) === after.charCodeAt(at)) at++;
  return at;
}

function sharedEnd(before: string, after: string, most: number): number {
  const [a, b] = [before.length, after.length];
  let n = 0;
  while (n + stretch <= most && before.slice(a - n - stretch, a - n) === after.slice(b - n - stretch, b - n))
    n += stretch;
  while (n < most && before.charCodeAt(a - n - 1) === after.charCodeAt(b - n - 1)) n++;
  return n;
}
