const modulus = 2 ** 31 - 1;

/** Random numbers that are the same in every run with the same seed (Park and Miller's minimal standard). */
export class Random {
  private state: number;

  constructor(seed: number) {
    this.state = (seed % (modulus - 1)) + 1;
  }

  /** From 0 up to but not including 1. */
  fraction(): number {
    this.state = (this.state * 48_271) % modulus;
    return (this.state - 1) / (modulus - 1);
  }

  /** A whole number from `low` to `high`, both included. */
  between(low: number, high: number): number {
    return low + Math.floor(this.fraction() * (high - low + 1));
  }

  oneOf<T>(list: readonly [T, ...T[]]): T {
    return list[Math.floor(this.fraction() * list.length)] ?? list[0];
  }

  shuffled<T>(list: readonly T[]): T[] {
    const keyed = list.map((value) => ({ value, key: this.fraction() }));
    return keyed.sort((a, b) => a.key - b.key).map(({ value }) => value);
  }
}
