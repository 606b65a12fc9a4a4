import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import type { Span } from "../text/span";
import type { Below } from "./below";
import { compare, sumOf, type Tally, tally } from "./count";
import { type Going, isEven, listed } from "./goings";
import type { Instruction, Take } from "./instructions";
import { grown } from "./more-places";
import { type How, type Outcome, seenBy, workAgain } from "./outcome";
import { whyUnknown } from "./unknown-words";
import type { Walk } from "./walker";

/** A number that changes evenly with the number k of repeats: base + each × k. */
export interface Line {
  readonly base: number;
  readonly each: number;
}

/** What a row does to counts, as lines in the number of its main repeat. */
export interface Profile {
  /** Places needed; in a ring, none. */
  readonly needs: Line;
  /** Stitches made, as the row's own count counts them; null where it counts groups that have no name. */
  readonly makes: Line | null;
  /** How often the repeat was worked; 0 where the row has none. */
  readonly k: number;
  readonly repeat: Repeat | null;
  /** The other repeats, which stay as they are. */
  readonly others: readonly Repeat[];
}

/** A repeat, or a run over places that are not counted out (`sc in each st`). */
export interface Repeat {
  /** In the text of the row; of a line that repeats another row, in that row's. */
  readonly span: Span;
  /** It goes on as far as the places do (`around`, `to last 2 sts`); else its number is written. */
  readonly isFree: boolean;
}

/** Why a row has no profile, in a maker's words. */
export interface NoProfile {
  readonly why: string;
}

export function hasProfile(profile: Profile | NoProfile): profile is Profile {
  return "needs" in profile;
}

/**
 * The profile of a worked row for one size. The row is worked again as it was worked, with one and with
 * two repeats more, on places for them; where the three are not on a line there is no profile.
 */
export function profileOf({ how }: Outcome, size: number): Profile | NoProfile {
  if (!how) return { why: say`only what it does to the count is told` };
  const kept = profiles(how);
  const profile = kept.get(size) ?? profileAfresh(how, size);
  kept.set(size, profile);
  return profile;
}

const profiles = keptBy((_: How) => new Map<number, Profile | NoProfile>());

function profileAfresh(how: How, size: number): Profile | NoProfile {
  const below = seenBy(how, size);
  if (!below) return { why: say`this size does not work it` };
  const worked = workAgain(how, below, size, null);
  const goings = listed(worked.goings);
  const why = notFollowed(how, worked, goings);
  if (why !== null || goings === null)
    return { why: why ?? say`its repeats are worked too many times to be told apart` };
  const row = new Row(how, size, below, worked);
  const [main, ...others] = byRank(how, goings);
  if (main) return inLine(row, main, others);
  const isIdle = goings.some(({ isFree }) => isFree);
  return isIdle ? { why: say`its repeat is not worked on these places` } : withoutRepeat(row);
}

function notFollowed({ plan }: How, worked: Walk, goings: readonly Going[] | null): string | null {
  const [stuck] = plan.unknown;
  if (stuck) return whyUnknown(stuck);
  if (goings?.some(({ isElsewhere }) => isElsewhere)) return say`it is worked along more than one edge`;
  if (goings?.some(({ of }) => "op" in of && of.op === "whichever"))
    return say`what is worked into a place depends on what the place is`;
  return worked.outOfReach ?? plan.outOfReach;
}

/** A row as it was worked for one size, and may be worked again. */
class Row {
  private readonly count: Count | null;

  constructor(
    private readonly how: How,
    private readonly size: number,
    private readonly below: Below,
    readonly worked: Walk,
  ) {
    this.count = countOf(how, size, tally(worked.steps));
  }

  /** With so many more passes of a repeat, on the places for them. */
  withMore({ of, isFree, goings }: Repeated, passes: number): Walk {
    const more = isFree ? null : { of: of as Instruction, passes };
    const below = grown(this.below, this.worked.movedTo, goings, passes);
    return workAgain(this.how, below, this.size, more);
  }

  makes({ steps }: Walk): number | null {
    return this.count?.(tally(steps)) ?? null;
  }
}

function withoutRepeat(row: Row): Profile {
  const makes = row.makes(row.worked);
  return {
    needs: { base: row.worked.needs ?? 0, each: 0 },
    makes: makes === null ? null : { base: makes, each: 0 },
    k: 0,
    repeat: null,
    others: [],
  };
}

function inLine(row: Row, main: Repeated, others: readonly Repeated[]): Profile | NoProfile {
  const [{ passes: k }] = main.goings as [Going];
  if (main.goings.some(({ passes }) => passes !== k))
    return { why: say`its repeat is not worked the same number of times each time` };
  const walks = [row.worked, row.withMore(main, 1), row.withMore(main, 2)];
  const numbers = walks.map((walked) => ({ needs: walked.needs ?? 0, makes: row.makes(walked) ?? 0 }));
  const needs = lineThrough(
    numbers.map((one) => one.needs),
    k,
  );
  const makes = lineThrough(
    numbers.map((one) => one.makes),
    k,
  );
  const isAlike =
    main.goings.every(isEven) && walks.every((walked, more) => goesOn(walked, row.worked, main, more));
  if (!isAlike || !needs || !makes) return { why: say`its repeat does not do the same each time` };
  return { needs, makes: row.makes(row.worked) === null ? null : makes, k, repeat: main, others };
}

/** Through the numbers for k repeats, one more and two more. */
function lineThrough([now = 0, next = 0, afterNext = 0]: readonly number[], k: number): Line | null {
  const each = next - now;
  return afterNext - next === each ? { base: now - each * k, each } : null;
}

/** Whether so many more passes were worked wherever the repeat is, and nothing else left over. */
function goesOn(walked: Walk, before: Walk, main: Repeated, more: number): boolean {
  const goings = listed(walked.goings)?.filter(({ of }) => of === main.of) ?? [];
  return (
    walked.outOfReach === null &&
    goings.length === main.goings.length &&
    goings.every(({ passes }, i) => passes === (main.goings[i]?.passes ?? 0) + more) &&
    (!main.isFree || leftOver(walked) === leftOver(before))
  );
}

function leftOver({ has, needs }: Walk): number {
  return (has ?? 0) - (needs ?? 0);
}

// Which repeat

/** A repeat with all the times that the row came to it. */
interface Repeated extends Repeat {
  readonly of: Going["of"];
  readonly goings: readonly Going[];
}

/** Free ones before written ones, outer ones before inner ones, those over more places before others. */
function byRank({ plan }: How, goings: readonly Going[]): Repeated[] {
  const all = [...new Set(goings.map(({ of }) => of))].flatMap((of) => {
    const own = goings.filter((going) => going.of === of && going.passes > 0);
    const [first] = own;
    // What is repeated within a stitch belongs to the stitch.
    const span = spanOf(plan.instructions, of);
    if (!first || !span) return [];
    const places = sumOf(own.map((one) => (one.first - one.from) * one.passes));
    return [{ of, span, isFree: first.isFree, depth: first.depth, places, goings: own }];
  });
  return all.sort((a, b) => Number(b.isFree) - Number(a.isFree) || a.depth - b.depth || b.places - a.places);
}

function spanOf(list: readonly Instruction[], of: Instruction | Take): Span | null {
  for (const one of list) {
    if (one === of || ("takes" in one && one.takes.some((take) => take === of))) return one.span;
    const parts = one.op === "either" ? one.options.flat() : "body" in one ? one.body : [];
    const found = spanOf(parts, of);
    if (found) return found;
  }
  return null;
}

// Counting

type Count = (sum: Tally) => number;

/** The way of counting by which the row comes to what it was found to make; null where there is no such way. */
function countOf({ plan: { stated } }: How, size: number, sum: Tally): Count | null {
  const unsaid = stated?.map((term) => ({ ...term, n: [null] })) ?? null;
  const { makes, unknownNoun } = compare(stated, sum, size);
  // `5 petals` are told by the passes of the repeat, not by what it makes.
  if (unknownNoun !== null) return null;
  const ways: Count[] = [
    (one) => compare(unsaid, one, 0).makes,
    (one) => sumOf(one.stitches.values()) + one.chains,
    (one) => sumOf(one.stitches.values()) + sumOf(one.spaces.values()),
  ];
  return ways.find((way) => way(sum) === makes) ?? null;
}
