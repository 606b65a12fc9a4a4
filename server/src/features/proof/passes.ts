import { isStepLoop, type Steps } from "../../fabric/steps";
import { type Done, doneBy, groupDone, isGroup, type Telling } from "./done";

/** What is done, in order, over and over. */
export interface Pass {
  readonly items: readonly Item[];
  readonly times: number;
}

export type Item = Done | Pass;

export function isPass(item: Item): item is Pass {
  return "items" in item;
}

/** What the steps of a row do, as short as it can be told: what comes again is told once. */
export function passesOf(steps: readonly Steps[], telling: Telling): Item[] {
  return folded(absorbed(steps.map((step) => itemOf(step, telling))));
}

function itemOf(step: Steps, telling: Telling): Item {
  if (!isStepLoop(step)) return doneBy(step, telling);
  if (isGroup(step)) return groupDone(step, telling);
  return { items: absorbed(step.steps.map((inner) => itemOf(inner, telling))), times: step.times };
}

const keys = new WeakMap<Item, string>();

function keyOf(item: Item): string {
  let key = keys.get(item);
  if (key === undefined) {
    key = isPass(item) ? `${item.times}(${item.items.map(keyOf).join()})` : `${item.places}*${item.key}`;
    keys.set(item, key);
  }
  return key;
}

function areAlike(a: readonly Item[], b: readonly Item[]): boolean {
  return a.length === b.length && a.every((item, i) => keyOf(item) === keyOf(b[i] as Item));
}

/** Passes written out beside the loop of those like them are taken into it. */
function absorbed(items: readonly Item[]): Item[] {
  const out: Item[] = [];
  for (const item of items) {
    out.push(item);
    while (joinsLast(out));
  }
  return out;
}

function joinsLast(out: Item[]): boolean {
  return joinsLoops(out) || joinsBefore(out) || joinsBehind(out);
}

function joinsLoops(out: Item[]): boolean {
  const [before, last] = out.slice(-2);
  if (!before || !last || !isPass(before) || !isPass(last) || !areAlike(before.items, last.items))
    return false;
  out.splice(-2, 2, { ...last, times: before.times + last.times });
  return true;
}

function joinsBefore(out: Item[]): boolean {
  const last = out.at(-1);
  if (!last || !isPass(last)) return false;
  const { length } = last.items;
  if (out.length <= length || !areAlike(out.slice(-1 - length, -1), last.items)) return false;
  out.splice(-1 - length, 1 + length, { ...last, times: last.times + 1 });
  return true;
}

function joinsBehind(out: Item[]): boolean {
  const at = out.findLastIndex(isPass);
  const loop = out[at];
  if (!loop || !isPass(loop) || !areAlike(out.slice(at + 1), loop.items)) return false;
  out.splice(at, out.length - at, { ...loop, times: loop.times + 1 });
  return true;
}

/** Longer stretches than this are not looked at for coming again. */
const longestStretch = 24;

/** Neighbours that are alike are drawn together: single things, then ever longer stretches. */
function folded(items: readonly Item[]): Item[] {
  let out = items.map((item) => (isPass(item) ? { ...item, items: folded(item.items) } : item)).map(plain);
  for (let length = 1; length <= Math.min(longestStretch, out.length / 2); length++)
    out = foldedBy(out, length);
  return out;
}

function foldedBy(items: readonly Item[], length: number): Item[] {
  const out: Item[] = [];
  for (let i = 0; i < items.length; ) {
    const stretch = items.slice(i, i + length);
    let times = 1;
    while (
      stretch.length === length &&
      areAlike(items.slice(i + times * length, i + (times + 1) * length), stretch)
    )
      times++;
    if (length === 1) times = runLength(items, i);
    if (times === 1) out.push(items[i++] as Item);
    else {
      out.push(length === 1 ? run(items.slice(i, i + times)) : { items: stretch, times });
      i += times * length;
    }
  }
  return out;
}

/** How many things in a row are the same, on however many places each. */
function runLength(items: readonly Item[], from: number): number {
  const first = items[from] as Item;
  if (isPass(first)) return 1;
  let n = 1;
  for (let next = items[from + n]; next && !isPass(next) && next.key === first.key; next = items[from + n])
    n++;
  return n;
}

function run(items: readonly Item[]): Item {
  const first = items[0] as Done;
  return { ...first, places: items.reduce((sum, item) => sum + (item as Done).places, 0) };
}

/** A loop of one thing is that thing on more places. */
function plain(item: Item): Item {
  if (!isPass(item)) return item;
  const [only, ...others] = item.items;
  if (!only || others.length > 0) return item;
  return isPass(only)
    ? { ...only, times: only.times * item.times }
    : { ...only, places: only.places * item.times };
}
