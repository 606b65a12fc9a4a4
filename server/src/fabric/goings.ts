import type { Instruction, Take } from "./instructions";

/** A repeat, or a run over places that are not counted out, as a row came to it once. */
export interface Going {
  /** The same object each time the row comes to it. */
  readonly of: Instruction | Take;
  /** How often it is worked, the places tell; else it is written. */
  readonly isFree: boolean;
  /** How many repeats it lies in. */
  readonly depth: number;
  /** Where its first pass began and ended, among the places of the row below. */
  readonly from: number;
  first: number;
  passes: number;
  /** Places that the row had used before it, after its first pass and after its last. */
  readonly before: number;
  afterFirst: number;
  afterLast: number;
  /** It went along the places of another piece, or another side. */
  readonly isElsewhere: boolean;
}

/** Whether all passes used as many places as the first. */
export function isEven({ passes, before, afterFirst, afterLast }: Going): boolean {
  return afterLast - before === passes * (afterFirst - before);
}

/** What a repeat worked over and over came to in each pass, so many places further on. */
export interface GoingLoop {
  readonly goings: readonly Goings[];
  readonly times: number;
  readonly shift: number;
}

export type Goings = Going | GoingLoop;

/** How often the repeats of a row were worked, without those inside others. */
export function passesIn(all: readonly Goings[]): number[] {
  return all.flatMap((one) =>
    "goings" in one || one.depth > 0 || !("op" in one.of) || one.of.op !== "repeat" ? [] : [one.passes],
  );
}

/** More than a row has that is not worked into a billion corners. */
const listedAtMost = 256;

/** Each by itself, in the order they were worked; null where they are too many. */
export function listed(all: readonly Goings[]): Going[] | null {
  const out: Going[] = [];
  return list(all, 0, out) ? out : null;
}

function list(all: readonly Goings[], shift: number, out: Going[]): boolean {
  return all.every((one) => {
    if (!("goings" in one)) {
      out.push({ ...one, from: one.from + shift, first: one.first + shift });
      return out.length <= listedAtMost;
    }
    for (let pass = 0; pass < one.times; pass++)
      if (!list(one.goings, shift + pass * one.shift, out)) return false;
    return true;
  });
}
