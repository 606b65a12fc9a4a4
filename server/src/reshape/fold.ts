/** Things in a row with what comes again drawn together. */
export type Folded<T> = T | FoldedRepeat<T>;

export interface FoldedRepeat<T> {
  readonly body: readonly Folded<T>[];
  readonly times: number;
}

/** A list with repeats drawn together, the repeat that covers most first; `key` is equal for equal things. */
export function fold<T>(items: readonly T[], key: (item: T) => string): Folded<T>[] {
  const keys = items.map(key);
  const out: Folded<T>[] = [];
  for (let at = 0; at < items.length; ) {
    const { length, times } = bestAt(keys, at);
    const body = items.slice(at, at + length);
    if (times > 1) out.push({ body: length > 1 ? fold(body, key) : body, times });
    else out.push(...body);
    at += length * times;
  }
  return out;
}

interface Again {
  readonly length: number;
  readonly times: number;
}

/** The repeat that saves most of the list from a place on; the shortest of those that save as much. */
function bestAt(keys: readonly string[], at: number): Again {
  let best: Again = { length: 1, times: 1 };
  for (let length = 1; at + 2 * length <= keys.length; length++) {
    const times = timesAt(keys, at, length);
    if (length * (times - 1) > best.length * (best.times - 1)) best = { length, times };
  }
  return best;
}

function timesAt(keys: readonly string[], at: number, length: number): number {
  let i = at + length;
  while (i < keys.length && keys[i] === keys[i - length]) i++;
  return Math.floor((i - at) / length);
}
