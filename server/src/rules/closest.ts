/** The one of `names` that a mistyped name was most likely meant for; null when none is near. */
export function closest(typed: string, names: readonly string[]): string | null {
  const near = names
    .filter((name) => Math.abs(typed.length - name.length) <= name.length / 2)
    .map((name) => ({ name, slips: slipsBetween(typed, name) }))
    .filter(({ name, slips }) => slips <= Math.ceil(name.length / 4));
  return near.sort((a, b) => a.slips - b.slips)[0]?.name ?? null;
}

/** Letters added, left out or exchanged: the distance of Levenshtein. */
export function slipsBetween(a: string, b: string): number {
  let above = [...Array(b.length + 1).keys()];
  for (let i = 0; i < a.length; i++) {
    const row = [i + 1];
    for (let j = 0; j < b.length; j++) {
      const kept = (above[j] as number) + (a[i] === b[j] ? 0 : 1);
      row.push(Math.min(kept, (above[j + 1] as number) + 1, (row[j] as number) + 1));
    }
    above = row;
  }
  return above[b.length] as number;
}
