/** Lines gone or come at most; beyond that a change is a new text, in which nothing is what it was. */
const changesAtMost = 400;

/**
 * For each line of a text as it is now, the same line as it was before: its index, or null for a line that is new.
 * As few lines as can be are taken for new. Method: E. W. Myers, "An O(ND) Difference Algorithm and Its Variations",
 * Algorithmica 1 (1986).
 */
export function aligned(before: readonly string[], now: readonly string[]): (number | null)[] {
  const twins: (number | null)[] = now.map(() => null);
  let start = 0;
  while (start < before.length && start < now.length && before[start] === now[start]) twins[start] = start++;
  let [a, b] = [before.length, now.length];
  while (a > start && b > start && before[a - 1] === now[b - 1]) twins[--b] = --a;
  for (const [was, is] of matches(before.slice(start, a), now.slice(start, b)))
    twins[start + is] = start + was;
  return twins;
}

type Match = readonly [was: number, is: number];

/** How far one has come on each diagonal `was - is` after so many changes. */
type Front = ReadonlyMap<number, number>;

function matches(before: readonly string[], now: readonly string[]): Match[] {
  const fronts: Front[] = [];
  for (let changes = 0; changes <= changesAtMost; changes++) {
    const front = nextFront(changes, fronts.at(-1), before, now);
    fronts.push(front);
    if ((front.get(before.length - now.length) ?? -1) >= before.length) return wayBack(fronts, before, now);
  }
  return [];
}

function nextFront(
  changes: number,
  last: Front | undefined,
  before: readonly string[],
  now: readonly string[],
): Front {
  const front = new Map<number, number>();
  for (let diagonal = -changes; diagonal <= changes; diagonal += 2) {
    let was = last ? reached(last, diagonal) : 0;
    while (was < before.length && was - diagonal < now.length && before[was] === now[was - diagonal]) was++;
    front.set(diagonal, was);
  }
  return front;
}

/** The farther of two ways onto a diagonal: a line that came, or one that is gone. */
function reached(last: Front, diagonal: number): number {
  return Math.max(last.get(diagonal + 1) ?? -1, (last.get(diagonal - 1) ?? -1) + 1);
}

function wayBack(fronts: readonly Front[], before: readonly string[], now: readonly string[]): Match[] {
  const found: Match[] = [];
  let diagonal = before.length - now.length;
  let was = before.length;
  for (let changes = fronts.length - 1; changes >= 0; changes--) {
    const last = fronts[changes - 1];
    const from = last ? reached(last, diagonal) : 0;
    while (was > from) {
      was--;
      found.push([was, was - diagonal]);
    }
    if (last) diagonal += (last.get(diagonal + 1) ?? -1) === from ? 1 : -1;
    was = fronts[changes - 1]?.get(diagonal) ?? 0;
  }
  return found;
}
