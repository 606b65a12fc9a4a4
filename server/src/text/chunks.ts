/** Neighbours in a list: the same object as long as they are the same, wherever they stand. */
export interface Chunk<T> {
  readonly items: readonly T[];
}

/** A chunk with the index of its first item in the list. */
export interface PlacedChunk<T> {
  readonly chunk: Chunk<T>;
  readonly from: number;
}

/** On average; small enough to be gone through again when one item changes. */
const itemsOfChunk = 16;
const itemsAtMost = 4 * itemsOfChunk;

/**
 * Cuts one version of a list after another into chunks. What is found out about a chunk can be kept by it,
 * so that a change of one item costs what stands about it, however long the list. The items themselves tell where
 * a chunk ends, so that one more or less in the list moves no border behind it.
 */
export class Chunks<T extends object> {
  private readonly lasts = new WeakMap<T, boolean>();
  private readonly known = new WeakMap<T, Chunk<T>>();
  private seen = 0;

  of(items: readonly T[]): readonly PlacedChunk<T>[] {
    const found: PlacedChunk<T>[] = [];
    for (let from = 0; from < items.length; ) {
      const chunk = this.chunkAt(items, from);
      found.push({ chunk, from });
      from += chunk.items.length;
    }
    return found;
  }

  private chunkAt(items: readonly T[], from: number): Chunk<T> {
    const first = items[from] as T;
    const end = this.endOf(items, from);
    const before = this.known.get(first);
    if (before && isSame(before.items, items, from, end)) return before;
    const chunk = { items: items.slice(from, end) };
    this.known.set(first, chunk);
    return chunk;
  }

  private endOf(items: readonly T[], from: number): number {
    const most = Math.min(items.length, from + itemsAtMost);
    for (let at = from; at < most; at++) if (this.isLast(items[at] as T)) return at + 1;
    return most;
  }

  private isLast(item: T): boolean {
    let isLast = this.lasts.get(item);
    if (isLast === undefined) {
      isLast = ++this.seen % itemsOfChunk === 0;
      this.lasts.set(item, isLast);
    }
    return isLast;
  }
}

function isSame<T>(before: readonly T[], items: readonly T[], from: number, end: number): boolean {
  if (before.length !== end - from) return false;
  for (let at = from; at < end; at++) if (before[at - from] !== items[at]) return false;
  return true;
}
