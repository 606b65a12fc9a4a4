/**
 * Values by text. What was not asked for lately is let go, so that somebody who types all day leaves no more behind
 * than who types for a minute: between `most` and twice as many are kept.
 */
export class Lately<V> {
  private young = new Map<string, V>();
  private old = new Map<string, V>();

  constructor(private most: number) {}

  /** Keeps so many at least from now on: what is all in use at once is not let go. */
  makeRoomFor(many: number): void {
    this.most = Math.max(this.most, many);
  }

  get(key: string): V | undefined {
    const found = this.young.get(key);
    if (found !== undefined) return found;
    const before = this.old.get(key);
    if (before !== undefined) this.set(key, before);
    return before;
  }

  set(key: string, value: V): void {
    if (this.young.size >= this.most) [this.old, this.young] = [this.young, new Map()];
    this.young.set(key, value);
  }

  /** All that is kept. */
  get entries(): Iterable<readonly [string, V]> {
    return new Map([...this.old, ...this.young]);
  }

  /** One that has what this one has, and goes on by itself. */
  apart(): Lately<V> {
    const other = new Lately<V>(this.most);
    [other.young, other.old] = [new Map(this.young), new Map(this.old)];
    return other;
  }
}
