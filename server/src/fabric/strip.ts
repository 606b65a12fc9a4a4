/**
 * What a row leaves for the next one: places in order, run-length encoded, with repeats kept as
 * loops. Every question is answered by arithmetic, so a loop of a billion costs what a loop of ten
 * does. A position is the number of places before it.
 */
export interface Run {
  /** What the places are: tops of stitches, chain spaces, single chains. */
  readonly sort: "stitch" | "space" | "chain";
  /** The stitch word; `ch` for chains and spaces. */
  readonly kind: string;
  /** How many places in a row. */
  readonly n: number;
  /** Chains of each space. */
  readonly chains?: number | undefined;
  /** Such a space is held together by a picot, or by other work, between so many chain spaces. */
  readonly halves?: number | undefined;
  /** The group worked into one place that this run belongs to: `shell`, or "" without a name. */
  readonly unit?: string | undefined;
  /** How many places such a group has, and which of them (from 0) the run begins with; one group may follow another. */
  readonly size?: number | undefined;
  readonly offset?: number | undefined;
  /** Set while groups are looked at place by place: which stitch of its group, from 1; whether it is the middle. */
  readonly nth?: number;
  readonly middle?: boolean;
}

export interface Loop {
  readonly body: Strip;
  readonly times: number;
}

export type StripNode = Run | Loop;
export type Strip = readonly StripNode[];
export type Match = (run: Run) => boolean;

export const everyPlace: Match = () => true;
export const stitches: Match = (run) => run.sort === "stitch";
export const spaces: Match = (run) => run.sort === "space";

export function isLoop(node: StripNode): node is Loop {
  // Asked more often than anything else: an `in` costs several times as much.
  return (node as Partial<Loop>).body !== undefined;
}

/** A strip of `n` places of one kind; empty where `n` is 0. */
export function plainStrip(kind: string, n: number, sort: Run["sort"] = "stitch"): Strip {
  return n > 0 ? [{ sort, kind, n }] : [];
}

/** How many places match. */
export function countPlaces(strip: Strip, match: Match = everyPlace): number {
  if (match === everyPlace) return sizeOf(strip);
  let sum = 0;
  for (const node of strip) sum += countNode(node, match);
  return sum;
}

function countNode(node: StripNode, match: Match): number {
  if (isLoop(node)) return countPlaces(node.body, match) * node.times;
  return match(node) ? node.n : 0;
}

/** How many places there are: asked far more often than for those that match. */
function sizeOf(strip: Strip): number {
  let sum = 0;
  for (const node of strip) sum += sizeOfNode(node);
  return sum;
}

function sizeOfNode(node: StripNode): number {
  return isLoop(node) ? sizeOf(node.body) * node.times : node.n;
}

/** How many places before position `at` match. */
export function countBefore(strip: Strip, at: number, match: Match = everyPlace): number {
  let sum = 0;
  let left = at;
  for (const node of strip) {
    if (left <= 0) break;
    const size = sizeOfNode(node);
    sum += left >= size ? countNode(node, match) : countWithin(node, left, match);
    left -= size;
  }
  return sum;
}

/** How many places from one position to another match. */
export function countBetween(strip: Strip, from: number, to: number, match: Match): number {
  return from >= to ? 0 : countBefore(strip, to, match) - countBefore(strip, from, match);
}

function countWithin(node: StripNode, at: number, match: Match): number {
  if (!isLoop(node)) return match(node) ? at : 0;
  const size = countPlaces(node.body);
  const whole = Math.floor(at / size);
  return whole * countPlaces(node.body, match) + countBefore(node.body, at - whole * size, match);
}

/** The position of the `k`-th (from 0) matching place, or -1. */
export function findPlace(strip: Strip, k: number, match: Match = everyPlace): number {
  let start = 0;
  let left = k;
  for (const node of strip) {
    const matching = countNode(node, match);
    if (left < matching) return start + findWithin(node, left, match);
    left -= matching;
    start += sizeOfNode(node);
  }
  return -1;
}

function findWithin(node: StripNode, k: number, match: Match): number {
  if (!isLoop(node)) return k;
  const matching = countPlaces(node.body, match);
  const whole = Math.floor(k / matching);
  return whole * countPlaces(node.body) + findPlace(node.body, k - whole * matching, match);
}

/** The run that the place at a position belongs to; undefined past the end. */
export function runAt(strip: Strip, at: number): Run | undefined {
  return stretchAt(strip, at)?.run;
}

/** The run that the place at a position belongs to, and how many of its places follow on from there; undefined past the end. */
export function stretchAt(strip: Strip, at: number): { readonly run: Run; readonly n: number } | undefined {
  let left = at;
  for (const node of strip) {
    const size = sizeOfNode(node);
    if (left < size) {
      if (isLoop(node)) return stretchAt(node.body, left % countPlaces(node.body));
      return { run: node, n: size - left };
    }
    left -= size;
  }
  return undefined;
}

/** The single place at a position; undefined past the ends. */
export function placeAt(strip: Strip, at: number): Run | undefined {
  const run = at < 0 ? undefined : runAt(strip, at);
  if (run === undefined || (run.n === 1 && run.size === undefined)) return run;
  const [place] = slice(strip, at, at + 1);
  return place !== undefined && !isLoop(place) ? place : undefined;
}

/** All runs, those of a loop once. */
export function runsOf(strip: Strip): Run[] {
  const runs: Run[] = [];
  addRuns(runs, strip);
  return runs;
}

function addRuns(runs: Run[], strip: Strip): void {
  for (const node of strip)
    if (isLoop(node)) addRuns(runs, node.body);
    else runs.push(node);
}

/** The places from one position to another. */
export function slice(strip: Strip, from: number, to: number): Strip {
  const out: StripNode[] = [];
  let start = 0;
  for (const node of strip) {
    const size = sizeOfNode(node);
    const low = Math.max(from - start, 0);
    const high = Math.min(to - start, size);
    if (low < high) out.push(...(high - low === size ? [node] : sliceNode(node, low, high)));
    start += size;
  }
  return out;
}

function sliceNode(node: StripNode, low: number, high: number): Strip {
  if (!isLoop(node)) return [{ ...movedOn(node, low), n: high - low }];
  const size = countPlaces(node.body);
  const first = Math.ceil(low / size);
  const last = Math.floor(high / size);
  if (first > last) return slice(node.body, low - last * size, high - last * size);
  const head = slice(node.body, low - (first - 1) * size, size);
  const tail = slice(node.body, 0, high - last * size);
  return [
    ...(low % size === 0 ? [] : head),
    ...(last > first ? [{ body: node.body, times: last - first }] : []),
    ...tail,
  ];
}

/** A run of groups from its `by`-th place on. */
function movedOn(run: Run, by: number): Run {
  return run.size === undefined ? run : { ...run, offset: ((run.offset ?? 0) + by) % run.size };
}

/** A joined round begun at another of its places. */
export function rotate(strip: Strip, at: number): Strip {
  return at === 0 ? strip : [...slice(strip, at, countPlaces(strip)), ...slice(strip, 0, at)];
}

/** The strip read backwards, as a turned row finds it. */
export function reverse(strip: Strip): Strip {
  return strip
    .map((node) => (isLoop(node) ? { ...node, body: reverse(node.body) } : reversedRun(node)))
    .reverse();
}

function reversedRun(run: Run): Run {
  if (run.size === undefined) return run;
  return { ...run, offset: run.size - 1 - (((run.offset ?? 0) + run.n - 1) % run.size) };
}

/**
 * Where a position lies in the outermost node that holds it: the node's bounds, the length of one
 * pass through it and the offset within the pass. Places one pass apart are alike.
 */
export interface Phase {
  readonly start: number;
  readonly end: number;
  readonly offset: number;
}

export function phaseAt(strip: Strip, at: number): Phase | undefined {
  let start = 0;
  for (const node of strip) {
    const size = sizeOfNode(node);
    if (at < start + size) {
      const pass = isLoop(node) ? countPlaces(node.body) : 1;
      return { start, end: start + size, offset: (at - start) % pass };
    }
    start += size;
  }
  return undefined;
}

/** A text that is equal for equal strips. */
export function keyOf(strip: Strip): string {
  return strip
    .map((node) =>
      isLoop(node)
        ? `${node.times}(${keyOf(node.body)})`
        : `${node.sort[1]}${node.kind}${node.chains ?? ""}${node.halves ? `/${node.halves}` : ""}${groupKey(node)}:${node.n}`,
    )
    .join(" ");
}

function groupKey({ unit, size, offset }: Run): string {
  if (unit === undefined) return "";
  return size === undefined ? `"${unit}` : `"${unit}"${size}.${offset}`;
}

/** Chain spaces looked at chain by chain. */
export function chainByChain(strip: Strip): Strip {
  return strip.map((node) => {
    if (isLoop(node)) return { ...node, body: chainByChain(node.body) };
    return node.sort === "space" ? { sort: "chain", kind: "ch", n: node.n * (node.chains ?? 1) } : node;
  });
}
