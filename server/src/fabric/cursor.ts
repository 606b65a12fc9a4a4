import type { Below, View } from "./below";
import type { Target, Until } from "./instructions";
import {
  countBefore,
  countBetween,
  countPlaces,
  everyPlace,
  findPlace,
  isLoop,
  type Match,
  type Phase,
  phaseAt,
  placeAt,
  plainStrip,
  type Run,
  rotate,
  runAt,
  runsOf,
  type Strip,
  slice,
  stitches,
  stretchAt,
} from "./strip";

const plainStitch: Run = { sort: "stitch", kind: "sc", n: 1 };

/** How many times places were looked up since the program began: tests compare it, nobody else reads it. */
export const work = { placesVisited: 0 };

/** Why places are taken: an opening chain takes one without the row thereby working stitches. */
export type Manner = "next" | "each" | "start";

/** What of a cursor changes with the work, as one value to copy and compare. */
interface Reach {
  strip: Strip;
  total: number;
  at: number;
  /** Places wanted, those among them that do not exist, and those left unworked so far. */
  used: number;
  over: number;
  left: number;
  /** Stitches that slip stitches were worked into on the way to where the row begins. */
  travelled: number;
  passedStitches: number;
  /** Those of them before the first place that was taken: a round comes to them again at its end. */
  passedFirst: { readonly all: number; readonly missed: number };
  passedSpaces: number;
  worksStitches: boolean;
  worksSpaces: boolean;
  worksGaps: boolean;
  /** The first or the last stitch of the row below, which has its own place whatever else is worked. */
  worksEdges: boolean;
  takenAny: boolean;
  /** The place last taken is the one under the opening chain. */
  underStart: boolean;
  /** The place last taken is a part of a group that was named so. */
  inPart: boolean;
  /** Places from here on belong to what follows a repeat. */
  limit: number | null;
}

/**
 * Goes along the places of the row below: takes them, passes over them, and keeps the sums from
 * which needs and has are told.
 */
export class Cursor {
  private reach: Reach;
  private bridging = false;
  private travelling = false;
  private closing = false;
  /** Sorts of spaces that were worked into: a chain that closes the round leads over others. */
  private readonly workedInto = new Set<string>();

  constructor(
    private readonly below: Below,
    private readonly view: View,
  ) {
    const strip = placesOf(below);
    this.reach = {
      strip,
      total: countPlaces(strip),
      at: 0,
      used: 0,
      over: 0,
      left: 0,
      travelled: 0,
      passedStitches: 0,
      passedFirst: { all: 0, missed: 0 },
      passedSpaces: 0,
      worksStitches: false,
      worksSpaces: false,
      worksGaps: false,
      worksEdges: false,
      takenAny: false,
      underStart: false,
      inPart: false,
      limit: null,
    };
  }

  get at(): number {
    return this.reach.at;
  }

  get used(): number {
    return this.reach.used;
  }

  get total(): number {
    return this.reach.total;
  }

  get over(): number {
    return this.reach.over;
  }

  get underStart(): boolean {
    return this.reach.underStart;
  }

  get next(): Run | undefined {
    return runAt(this.reach.strip, this.reach.at);
  }

  get chainsAhead(): boolean {
    const { strip, at } = this.reach;
    const chain: Match = (run) => run.sort === "chain";
    return countPlaces(strip, chain) > countBefore(strip, at, chain);
  }

  /** Whether the row below has a loop of so many chains. */
  hasLoop(chains: number): boolean {
    const loop: Match = (run) => run.sort === "space" && (run.chains ?? 0) >= chains;
    return countPlaces(this.reach.strip, loop) > 0;
  }

  /** Nothing is left of the sorts of places that the row works. */
  get isDone(): boolean {
    return this.leftover() === 0;
  }

  get ended(): boolean {
    return this.from >= this.reach.total;
  }

  save(): Reach {
    return { ...this.reach };
  }

  restore(saved: Reach): void {
    this.reach = { ...saved };
  }

  /** Needs, has and what is left: places of the sorts that the row works. */
  sums(): { needs: number; has: number; left: number } {
    const { over, left, worksStitches, worksSpaces, passedStitches, passedSpaces, travelled } = this.reach;
    const used = this.reach.used + (this.usesTravelled ? travelled : 0);
    const all =
      left + this.leftover() + (worksStitches ? passedStitches : 0) + (worksSpaces ? passedSpaces : 0);
    return { needs: used, has: used - over + all, left: all };
  }

  /** The stitches that slip stitches passed at the start are of the sort that the row works. */
  get usesTravelled(): boolean {
    const { travelled, worksStitches, worksSpaces } = this.reach;
    return travelled > 0 && (worksStitches || !worksSpaces);
  }

  private leftover(): number {
    const { strip, worksGaps, worksStitches, worksSpaces, used } = this.reach;
    const [from, end] = [this.from, this.end];
    if (from >= end) return 0;
    const rest = slice(strip, from + this.underEnd(), end);
    if (worksGaps) return countPlaces(rest, stitches);
    const anything = !worksStitches && !worksSpaces && used === 0;
    const toLast = worksStitches || this.reach.worksEdges;
    const spaces = (run: Run): boolean =>
      worksSpaces && (!this.closing || this.workedInto.has(spaceKey(run)));
    return countPlaces(
      rest,
      (run) => anything || (run.sort === "space" ? spaces(run) : toLast && this.isNamed(run)),
    );
  }

  /** A round that began in the middle of a group ends before its first stitches, where the row leaves groups. */
  private get end(): number {
    const { strip, total, inPart } = this.reach;
    return total - (this.view.leavesGroups || inPart ? (placeAt(strip, 0)?.offset ?? 0) : 0);
  }

  /** Spaces that the chain closing the round stands over: those that come at once behind the last stitch. */
  private underEnd(): number {
    const { strip, at } = this.reach;
    if (!this.closing || placeAt(strip, at - 1)?.sort !== "stitch") return 0;
    return placeAt(strip, at)?.sort === "space" ? 1 : 0;
  }

  /** A chain closes the round. */
  close(): void {
    this.closing = true;
  }

  /** Which places a target means, in the view of the row. */
  match(target: Target): Match {
    if (target.sort === "gap" && target.unit !== undefined) return (run) => run.kind === "gap";
    if (target.sort === "gap") {
      this.reach.worksGaps = true;
      return stitches;
    }
    if (target.part !== undefined) return this.matchPart(target);
    if (target.sort === "space") return this.matchSpace(target);
    if (target.sort === "chain") return (run) => run.sort === "chain";
    if (target.named) return this.matchNamed(target.kind);
    return this.view.stMeans === "any" ? everyPlace : (run) => run.sort !== "space";
  }

  /** `next sc` in front of a shell of dc is the sc behind it. */
  private matchNamed(kind: string | undefined): Match {
    const { strip, at } = this.reach;
    const alike: Match = (one) => one.sort === "stitch" && one.kind === kind;
    if (this.view.kinds !== null && countPlaces(strip, alike) > countBefore(strip, at, alike)) return alike;
    const next = findPlace(strip, countBefore(strip, at, stitches), stitches);
    const run = next < 0 ? undefined : runAt(strip, next);
    if (kind === undefined || run?.size === undefined || run.kind === kind) return stitches;
    const alone: Match = (one) => one.sort === "stitch" && one.kind === kind && one.size === undefined;
    return countPlaces(strip, alone) > countBefore(strip, at, alone) ? alone : stitches;
  }

  /** A stitch of a kind that the row works into. */
  private isNamed(run: Run): boolean {
    return this.view.kinds === null || this.view.kinds.has(run.kind);
  }

  /** The middle of a group, or one of its stitches. */
  private matchPart(target: Target): Match {
    const { part, unit } = target;
    const group = this.groupNamed(unit);
    if (target.corner) return this.matchCorner(group);
    if (group === null) return target.sort === "space" ? this.matchSpace(target) : () => false;
    const own: Match = (run) => run.unit === group.unit && run.size === group.size;
    const nth = typeof part === "number" && part < 0 ? group.size - group.spaces + 1 + part : part;
    const found: Match = (run) => own(run) && (part === "middle" ? run.middle === true : run.nth === nth);
    const oneSpace = !group.odd && group.spaces === 1 && part === "middle";
    return oneSpace ? (run) => own(run) && run.sort === "space" : found;
  }

  /** The corners of a square: its longest spaces, or the middles of its groups; the next stitch where there are none yet. */
  private matchCorner(group: { readonly size: number } | null): Match {
    const { strip } = this.reach;
    if (longestSpace(strip) > 0) return this.matchSpace({ sort: "space", corner: true });
    const middle: Match = (run) => run.middle === true && run.size === group?.size;
    return countPlaces(strip, middle) > 0 ? middle : stitches;
  }

  /** How many corners its stitches tell. */
  get corners(): number {
    return countPlaces(this.reach.strip, this.match({ sort: "stitch", corner: true, part: "middle" }));
  }

  /** Whether there is a place that a target means. */
  finds(target: Target): boolean {
    const match = this.match(target);
    return match !== stitches && countPlaces(this.reach.strip, match) > 0;
  }

  hasGroups(name: string): boolean {
    return countPlaces(this.reach.strip, (run) => run.unit === name) > 0;
  }

  /** The groups that a name means here: those called so, or else the largest without a name. */
  private groupNamed(name = ""): { unit: string; size: number; odd: boolean; spaces: number } | null {
    const groups = runsOf(this.reach.strip).filter((run) => run.size !== undefined);
    const unit = groups.some((run) => run.unit === name) ? name : "";
    const said = Number(/^\d+(?=-)/.exec(name)?.[0] ?? 0);
    const sizes = groups.filter((run) => run.unit === unit).map((run) => run.size ?? 0);
    const size = sizes.includes(said) ? said : Math.max(0, ...sizes);
    if (size < 2) return null;
    const whole = groups.filter((run) => run.unit === unit && run.size === size);
    const spaces = new Set(whole.filter((run) => run.sort === "space").map((run) => run.offset)).size;
    return { unit, size, odd: size % 2 === 1, spaces };
  }

  /** A space of so many chains, or in a group of that name; where there is none such, any space. */
  private matchSpace(target: Target): Match {
    const { strip } = this.reach;
    // The loops of a starting chain are its chains.
    if (this.below.chain !== null) return everyPlace;
    if (target.loose && !hasSpaces(strip)) return stitches;
    const long =
      target.chains !== undefined &&
      countPlaces(strip, (run) => run.sort === "space" && run.chains === target.chains) > 0;
    const longest = target.corner ? longestSpace(strip) : null;
    const grouped = target.unit !== undefined && countPlaces(strip, (run) => run.unit === target.unit) > 0;
    return (run) =>
      run.sort === "space" &&
      (longest === null || run.chains === longest) &&
      (!long || run.chains === target.chains) &&
      (!grouped || run.unit === target.unit);
  }

  /** Takes `n` matching places from here on; those passed on the way are kept in mind. */
  take(n: number, match: Match, manner: Manner): void {
    if (n <= 0) return;
    work.placesVisited++;
    const { reach } = this;
    if (manner === "next") this.leaveGroup(match);
    const here = stretchAt(reach.strip, reach.at);
    if (here && here.n >= n && match(here.run)) this.takeAlike(n, here.run, manner);
    else this.takeAcross(n, match, manner);
    reach.underStart = manner === "start";
    reach.inPart = false;
    reach.takenAny = true;
  }

  /** The usual case: all places taken are of the run that lies at hand, and nothing is passed. */
  private takeAlike(n: number, run: Run, manner: Manner): void {
    const { reach } = this;
    const from = reach.at;
    const passed = this.travelling && run.sort !== "space" ? n : 0;
    reach.at += n;
    reach.used += n - passed;
    reach.travelled += passed;
    if (manner === "start" || passed > 0) return;
    if (run.sort === "space") this.noteSpace(run);
    else this.noteStitches(n, from, reach.at);
  }

  private takeAcross(n: number, match: Match, manner: Manner): void {
    const { reach } = this;
    const rank = countBefore(reach.strip, reach.at, match);
    const there = Math.max(Math.min(n, countPlaces(reach.strip, match) - rank), 0);
    const end = there === 0 ? reach.at : findPlace(reach.strip, rank + there - 1, match) + 1;
    if (manner === "next") this.pass(reach.at, end, match);
    const passed = this.travelling ? this.stitchesIn(reach.at, end, match) : 0;
    this.note(reach.at, end, match, passed > 0 ? "start" : manner);
    if (n > there && there === 0 && manner === "next") this.noteMissing(match);
    reach.at = end;
    reach.used += n - passed;
    reach.travelled += passed;
    reach.over += n - there - (n > there ? this.comeRoundTo(n - there, match) : 0);
  }

  /** Behind a chain, the stitches of the group whose space was worked into are passed. */
  private leaveGroup(match: Match): void {
    const { reach } = this;
    const last = this.view.leavesGroups && this.bridging ? placeAt(reach.strip, reach.at - 1) : undefined;
    const ofGroup = last?.sort === "space" && last.size !== undefined;
    if (ofGroup && !match(last)) reach.at += last.size - 1 - (last.offset ?? 0);
  }

  /** How many of the stitches wanted beyond the end are those that the round passed where it began. */
  private comeRoundTo(n: number, match: Match): number {
    const { reach } = this;
    const isStitch = match({ sort: "stitch", kind: "sc", n: 1 });
    if (!this.view.rotates || !isStitch || reach.passedFirst.all < n) return 0;
    const { all, missed } = reach.passedFirst;
    const counted = Math.min(n, missed);
    reach.passedFirst = { all: all - n, missed: missed - counted };
    reach.passedStitches -= counted;
    reach.at = reach.total;
    return n;
  }

  private stitchesIn(from: number, to: number, match: Match): number {
    return countBetween(this.reach.strip, from, to, (run) => match(run) && run.sort !== "space");
  }

  /** Slip stitches open the row: the stitches they are worked into are only passed, unless the row works stitches. */
  travels(travelling: boolean): void {
    this.travelling = travelling;
  }

  /** A chain was just made: it stands over the space that is passed next. */
  bridge(bridging: boolean): void {
    this.bridging = bridging;
  }

  /** The place taken last was a part of a group: what follows it there may be passed over. */
  tookPart(): void {
    this.reach.inPart = true;
  }

  /** Where the places not yet reached begin. */
  private get from(): number {
    const { at, strip, inPart } = this.reach;
    const last = inPart ? placeAt(strip, at - 1) : undefined;
    return last?.size === undefined ? at : at + last.size - 1 - (last.offset ?? 0);
  }

  private pass(from: number, to: number, match: Match): void {
    const between = (one: Match): number => countBetween(this.reach.strip, from, to, one);
    if (between(match) >= to - from) return;
    const passed: Match = (run) =>
      !match(run) && run.sort !== "space" && run.unit === undefined && this.isNamed(run);
    const stitchesPassed = between(passed);
    this.reach.passedStitches += stitchesPassed;
    if (!this.reach.takenAny) this.reach.passedFirst = { all: between(stitches), missed: stitchesPassed };
    const { worksEdges, worksStitches, worksSpaces } = this.reach;
    // Between the edge stitch and the first space that is worked: the half loop that ends the row below.
    const isHalfLoop = worksEdges && !worksStitches && !worksSpaces;
    if (!this.bridging && !isHalfLoop)
      this.reach.passedSpaces += between((run) => !match(run) && run.sort === "space");
  }

  private note(from: number, to: number, match: Match, manner: Manner): void {
    if (manner === "start") return;
    const { strip } = this.reach;
    const inSpaces: Match = (run) => match(run) && run.sort === "space";
    if (countBetween(strip, from, to, inSpaces) > 0)
      for (const run of runsOf(slice(strip, from, to))) if (inSpaces(run)) this.noteSpace(run);
    const stitchesTaken = this.stitchesIn(from, to, match);
    if (stitchesTaken > 0) this.noteStitches(stitchesTaken, from, to);
  }

  private noteSpace(space: Run): void {
    this.reach.worksSpaces = true;
    this.workedInto.add(spaceKey(space));
  }

  private noteStitches(n: number, from: number, to: number): void {
    const isEdge = n === 1 && (from === 0 || to === this.reach.total);
    if (isEdge) this.reach.worksEdges = true;
    else this.reach.worksStitches = true;
  }

  private noteMissing(match: Match): void {
    if (match(plainStitch)) this.reach.worksStitches = true;
    else this.reach.worksSpaces = true;
  }

  /** The row works these, whether or not there are any. */
  noteTargets(of: readonly Target[]): void {
    for (const target of of) {
      if (target.part !== undefined) this.note(0, this.reach.total, this.match(target), "each");
      else if (target.sort === "space" || target.unit !== undefined) this.reach.worksSpaces = true;
      else if (target.sort !== "gap") this.reach.worksStitches = true;
    }
  }

  /** Places were only skipped so far: "same st" is the next one, in which the work begins. */
  forgetTaken(): void {
    this.reach.takenAny = false;
  }

  /** The place worked into last; before any, the first one, or the loop whose end closed the round. */
  same(inSpace: boolean): void {
    const { reach } = this;
    if (reach.takenAny || this.below.ring || reach.total === 0) return;
    const closed = placeAt(reach.strip, reach.total - 1)?.sort === "space";
    if (inSpace && closed && this.view.rotates) this.turnRoundTo(reach.total - 1);
    const first = runAt(reach.strip, reach.at);
    this.take(1, everyPlace, "start");
    if (first?.sort === "space") reach.worksSpaces = true;
    reach.underStart = false;
  }

  /** `in last 2 sts`: at the end, whatever lies between is left unworked. */
  last(places: number, of: Target, before: number): void {
    const { reach } = this;
    const match = this.match(of);
    const rank = countBefore(reach.strip, reach.at, match);
    const gap = countPlaces(reach.strip, match) - rank - places - before;
    if (gap > 0) {
      const to = findPlace(reach.strip, rank + gap, match);
      const left = gap - (reach.worksSpaces ? this.grouped(match, to) : Math.min(gap, this.intoGroup(to)));
      // Among spaces only, stitches are passed here as they are anywhere in the row.
      if (reach.worksSpaces && !reach.worksStitches && match(plainStitch)) reach.passedStitches += left;
      else reach.left += left;
      if (!this.bridging) this.passSpaces(reach.at, to, match);
      reach.at = to;
    }
    this.take(places, match, of.sort === "stitch" ? "start" : "next");
    reach.underStart = false;
  }

  /** Stitches of groups whose spaces were worked are passed over, not left. */
  private grouped(match: Match, to: number): number {
    return countPlaces(
      slice(this.reach.strip, this.reach.at, to),
      (run) => match(run) && run.unit !== undefined,
    );
  }

  /** How many places of its group lie before this one. */
  private intoGroup(at: number): number {
    return placeAt(this.reach.strip, at)?.offset ?? 0;
  }

  /** Spaces that the row leaves on its way to its last stitches; not one at the end, which belongs to the turning chain. */
  private passSpaces(from: number, to: number, match: Match): void {
    const open: Match = (run) => run.sort === "space" && !match(run);
    const passed = countPlaces(slice(this.reach.strip, from, to), open);
    if (passed > 1) this.reach.passedSpaces += passed;
  }

  /** Takes all matching places up to a limit, `uses` at a time; how many times, whether it came out even, and where the first ended. */
  each(
    of: readonly Target[],
    until: Until | null,
    uses: number,
  ): { times: number; even: boolean; first: number } {
    const matches = of.map((target) => this.match(target));
    const match: Match = (run) => matches.some((one) => one(run));
    const { strip, at } = this.reach;
    const end = this.limitOf(until, match);
    const before = countBefore(strip, at, match);
    const there = Math.max(countBefore(strip, end, match) - before, 0);
    const times = Math.floor(there / uses);
    const first = times > 0 ? findPlace(strip, before + uses - 1, match) + 1 : at;
    this.noteTargets(of);
    this.take(times * uses, match, "each");
    return { times, even: times * uses === there, first };
  }

  /** Where the `n`-th last group of a name begins; -1 for groups known by their spaces. */
  private lastGroup(name: string, n: number): number {
    const { strip } = this.reach;
    const group = this.groupNamed(name);
    if (group === null || group.spaces > 0) return -1;
    const own: Match = (run) => run.unit === group.unit && run.size === group.size;
    return findPlace(strip, countPlaces(strip, own) - n * group.size, own);
  }

  /** The stretch of like places from here up to a limit; null at its end. */
  stretch(end: number): { run: Run; n: number } | null {
    const { strip, at } = this.reach;
    const run = at < end ? runAt(strip, at) : undefined;
    if (!run) return null;
    const same: Match = (one) =>
      one.sort === run.sort &&
      one.chains === run.chains &&
      one.unit === run.unit &&
      one.middle === run.middle;
    const other = findPlace(
      strip,
      countBefore(strip, at, (one) => !same(one)),
      (one) => !same(one),
    );
    return { run, n: Math.min(other < 0 ? end : other, end) - at };
  }

  /** The position where "to last 3 sts", "to marked st" or the end of the row stops. */
  limitOf(until: Until | null, match: Match): number {
    const { strip, at, total } = this.reach;
    const end = this.reach.limit ?? total;
    if (until === null) return end;
    if (until === "marked") return this.below.marked ?? end;
    if ("next" in until) {
      const next = this.match(until.next);
      const found = findPlace(strip, countBefore(strip, at, next), next);
      const short = until.short?.[0] ?? 0;
      if (found < 0 || short === 0) return found < 0 ? end : found;
      return Math.max(findPlace(strip, countBefore(strip, found, match) - short, match), at);
    }
    const group = until.of.unit === undefined ? -1 : this.lastGroup(until.of.unit, until.n[0] ?? 1);
    if (group >= 0) return group;
    const own = until.of.sort === "stitch" && match({ sort: "stitch", kind: "sc", n: 1 });
    const of = own ? match : this.match(until.of);
    const wanted = countBefore(strip, end, of) - (until.n[0] ?? 0);
    const found = findPlace(strip, wanted, of);
    return wanted < 0 ? at : found < 0 ? end : found;
  }

  /** Takes nothing, and is now somewhere else. */
  moveTo(at: number): void {
    this.reach.at = at;
  }

  setLimit(limit: number | null): number | null {
    const before = this.reach.limit;
    this.reach.limit = limit;
    return before;
  }

  /** `n` chains from the hook: the ones before it are passed. */
  beginAt(n: number): void {
    const { reach } = this;
    reach.at = Math.min(n - 1, reach.total);
  }

  /** Carries on along other places; what is left here stays unworked. */
  carryOn(strip: Strip): void {
    const { reach } = this;
    reach.left += countPlaces(slice(reach.strip, reach.at, reach.total));
    reach.strip = strip;
    reach.total = countPlaces(strip);
    reach.at = 0;
  }

  /** A joined round that begins at the `n`-th matching place from here. */
  startAt(n: number, match: Match, from: number): number {
    const { strip } = this.reach;
    const found = findPlace(strip, countBefore(strip, from, match) + n - 1, match);
    return found >= 0 ? found + 1 : from;
  }

  turnRoundTo(at: number): void {
    this.reach.strip = rotate(this.reach.strip, at);
  }

  /** Works both kinds of places side by side: passes over neither, ends at the end. */
  endTogether(): void {
    this.reach.passedStitches = this.reach.passedSpaces = 0;
    this.reach.at = this.reach.total;
  }

  leave(n: number): void {
    this.reach.left += n;
  }

  /** More places are wanted than a side chain has. */
  overreach(n: number): void {
    this.reach.over += n;
    this.reach.used += n;
  }

  phase(): Phase | undefined {
    return this.ended ? undefined : phaseAt(this.reach.strip, this.reach.at);
  }

  phaseAt(at: number): Phase | undefined {
    return phaseAt(this.reach.strip, at);
  }

  /** Adds what `again` more passes do that are like the one since `before`. */
  jump(before: Reach, again: number): void {
    const { reach } = this;
    for (const sum of ["at", "used", "over", "left", "passedStitches", "passedSpaces"] as const)
      reach[sum] += (reach[sum] - before[sum]) * again;
  }
}

/** What a row finds: the places the row below left, or the chains of a starting chain. */
export function placesOf({ chain, strip }: Below): Strip {
  return chain === null ? strip : plainStrip("ch", chain, "chain");
}

function spaceKey({ chains, unit }: Run): string {
  return `${chains ?? 1} ${unit ?? "-"}`;
}

function hasSpaces(strip: Strip): boolean {
  return countPlaces(strip, (run) => run.sort === "space") > 0;
}

/** Chains of the longest space: the corners of a square. */
function longestSpace(strip: Strip): number {
  return Math.max(
    0,
    ...strip.map((node) =>
      isLoop(node) ? longestSpace(node.body) : node.sort === "space" ? (node.chains ?? 1) : 0,
    ),
  );
}

export type { Reach };
