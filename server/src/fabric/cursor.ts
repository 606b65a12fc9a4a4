import type { Target, Until } from "./instructions";
import { PlaceFinder, type Reach } from "./place-finder";
import {
  countBefore,
  countBetween,
  countPlaces,
  everyPlace,
  findPlace,
  type Match,
  placeAt,
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

/**
 * Goes along the places of the row below: takes them, passes over them, and keeps the sums from
 * which needs and has are told.
 */
export class Cursor extends PlaceFinder {
  private bridging = false;
  private travelling = false;
  private closing = false;
  /** Sorts of spaces that were worked into: a chain that closes the round leads over others. */
  private readonly workedInto = new Set<string>();

  /** Nothing is left of the sorts of places that the row works. */
  get isDone(): boolean {
    return this.leftover() === 0;
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

  /** The round comes to the stitches again that it passed where it began. */
  get comesRound(): boolean {
    return this.reach.passedFirst.missed > 0;
  }

  get worksOnlySpaces(): boolean {
    return this.reach.worksSpaces && !this.reach.worksStitches;
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

  /** The place before this one is a space. */
  get isBehindSpace(): boolean {
    return placeAt(this.reach.strip, this.reach.at - 1)?.sort === "space";
  }

  /** A chain closes the round. */
  close(): void {
    this.closing = true;
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

  /** Behind the middle of the last group of a run, the rest of it is passed. */
  passGroup(): void {
    this.reach.inPart = true;
    this.reach.at = this.from;
    this.reach.inPart = false;
  }

  /** The place taken last was a part of a group: what follows it there may be passed over. */
  tookPart({ part }: Target): void {
    this.reach.inPart = true;
    if (part !== undefined) this.reach.worksParts = true;
  }

  private pass(from: number, to: number, match: Match): void {
    const between = (one: Match): number => countBetween(this.reach.strip, from, to, one);
    if (between(match) >= to - from) return;
    const ofGroups = this.isWorkingThrough(from, to);
    const passed: Match = (run) =>
      !match(run) && run.sort !== "space" && (ofGroups || run.unit === undefined) && this.isNamed(run);
    // `sc in first dc, ch 5, sc in 4th dc of next fan`: the chain leads to the fan, whatever lies before it.
    const leadsToPart = this.bridging && from === 1 && (placeAt(this.reach.strip, to - 1)?.offset ?? 0) > 0;
    const stitchesPassed = leadsToPart ? 0 : between(passed);
    this.reach.passedStitches += stitchesPassed;
    if (!this.reach.takenAny) this.reach.passedFirst = { all: between(stitches), missed: stitchesPassed };
    const { worksEdges, worksStitches, worksSpaces } = this.reach;
    // Between the edge stitch and the first space that is worked: the half loop that ends the row below.
    const isHalfLoop = worksEdges && !worksStitches && !worksSpaces;
    if (!this.bridging && !isHalfLoop)
      this.reach.passedSpaces += countBetween(
        this.reach.strip,
        this.behindEdge(from, to),
        to,
        (run) => !match(run) && run.sort === "space",
      );
  }

  /** `sc in first dc, shell in next sc`: the V-st that the row begins on is left behind with its space. */
  private behindEdge(from: number, to: number): number {
    const first = from === 1 ? placeAt(this.reach.strip, 0) : undefined;
    const end = first?.sort === "stitch" ? (first.size ?? 0) - (first.offset ?? 0) : 0;
    return end > from && end < to ? end : from;
  }

  /** Stitch by stitch into a group: what is left of it before its space is missed like any other. */
  private isWorkingThrough(from: number, to: number): boolean {
    const { strip, takenAny, inPart } = this.reach;
    if (!takenAny || inPart || this.bridging || placeAt(strip, to - 1)?.size === undefined) return false;
    const [here, before] = [placeAt(strip, from), placeAt(strip, from - 1)];
    const within = here?.size !== undefined && (here.offset ?? 0) > 0 && before?.sort === "stitch";
    return within && placeAt(strip, to - 1)?.sort === "space";
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

  /** Whether any place was worked into yet. */
  get hasTaken(): boolean {
    return this.reach.takenAny;
  }

  /** The place worked into last; before any, the first one, or the loop whose end closed the round. */
  same(inSpace: boolean): void {
    const { reach } = this;
    if (this.below.ring || reach.total === 0) return;
    const closed = placeAt(reach.strip, reach.total - 1)?.sort === "space";
    const inClosing = inSpace && closed && this.view.rotates;
    // `ch 4, 4 tr in same loop`: the chain stands in that loop too.
    const underStart = reach.underStart && reach.at === 1 && placeAt(reach.strip, 0)?.sort !== "space";
    if (inClosing && underStart) {
      this.turnRoundTo(reach.total - 1);
      this.note(0, 1, everyPlace, "next");
    }
    if (reach.takenAny) return;
    if (inClosing) this.turnRoundTo(reach.total - 1);
    const first = runAt(reach.strip, reach.at);
    this.take(1, everyPlace, "start");
    if (first?.sort === "space") reach.worksSpaces = true;
    reach.underStart = false;
  }

  /** `in last 2 sts`: at the end, whatever lies between is left unworked. */
  last(places: number, of: Target, before: number): void {
    const { reach } = this;
    const match = this.matchLast(of);
    // `ch 5, sc in 4th dc of last fan, ch 5, sc in last st`: the rest of that fan, and what one chain leads over.
    const overOne = reach.inPart && this.bridging ? 1 : 0;
    reach.at = this.from;
    const rank = countBefore(reach.strip, reach.at, match);
    const gap = countPlaces(reach.strip, match) - rank - places - before;
    if (gap > 0) {
      const to = findPlace(reach.strip, rank + gap, match);
      const unnamed = countBetween(reach.strip, reach.at, to, (run) => match(run) && !this.isNamed(run));
      const ofGroups = reach.worksSpaces ? this.grouped(match, to) : Math.min(gap, this.intoGroup(to));
      const left = Math.max(gap - unnamed - ofGroups - overOne, 0);
      // Among spaces only, stitches are passed here as they are anywhere in the row.
      if (this.worksOnlySpaces && match(plainStitch)) reach.passedStitches += left;
      else reach.left += left;
      if (!this.bridging) this.passSpaces(reach.at, this.beforeEdge(to), match);
      reach.at = to;
    }
    if (reach.worksParts && !this.bridging) reach.left += this.groupsBefore(match);
    this.take(places, match, of.sort === "stitch" ? "start" : "next");
    reach.underStart = false;
  }

  /** `ch 2, sk 2 ch, dc in next ch` at the end: as many chains as the last space has, or it does not fit. */
  behindChains(n: number): void {
    const { strip, total } = this.reach;
    const space = placeAt(strip, total - 2);
    const more = space?.sort === "space" ? n - (space.chains ?? 1) : 0;
    // Where spaces are places too, this one is left: one that is missing would make up for it.
    if (more > 0 && this.view.stMeans !== "any") this.overreach(more);
    else this.leave(Math.abs(more));
  }

  /** `sc in 3rd ch of beg ch-4` behind a V-st at the edge: its space is left with it. */
  private beforeEdge(to: number): number {
    const last = to === this.reach.total - 1 ? placeAt(this.reach.strip, to) : undefined;
    return last?.size !== undefined && last.offset === last.size - 1 ? to - last.offset : to;
  }

  /** Whole groups on the way to the next matching place, in a row that works into each of their like. */
  private groupsBefore(match: Match): number {
    const { strip, at } = this.reach;
    const to = findPlace(strip, countBefore(strip, at, match), match);
    return countBetween(strip, at, to - (placeAt(strip, to)?.offset ?? 0), (run) => run.nth === 1);
  }

  /** `5 dc in last sc, sk 2 dc` in a round: the last of its kind, which other stitches follow. */
  private matchLast(of: Target): Match {
    const { strip, at, total } = this.reach;
    const alone: Match = (run) => run.sort === "stitch" && run.kind === of.kind;
    const others = this.view.rotates && of.kind !== undefined && of.part === undefined;
    const isLast = !others || placeAt(strip, total - 1)?.kind === of.kind;
    return isLast || countBetween(strip, at, total, alone) === 0 ? this.match(of) : alone;
  }

  /** Stitches of groups whose spaces were worked are passed over, not left. */
  private grouped(match: Match, to: number): number {
    const { strip, at } = this.reach;
    const group = ({ unit, size }: Run): string => `${unit} ${size}`;
    const spaced = new Set(runsOf(strip).flatMap((run) => (run.sort === "space" ? [group(run)] : [])));
    return countPlaces(
      slice(strip, at, to),
      (run) => match(run) && run.unit !== undefined && spaced.has(group(run)),
    );
  }

  /** How many places of its group lie before this one. */
  private intoGroup(at: number): number {
    return placeAt(this.reach.strip, at)?.offset ?? 0;
  }

  /** Spaces that the row leaves on its way to its last stitches; not one of another sort than it works, at the end: a half loop, or of the turning chain. */
  private passSpaces(from: number, to: number, match: Match): void {
    const open: Match = (run) => run.sort === "space" && !match(run);
    const rest = slice(this.reach.strip, from, to);
    const passed = countPlaces(rest, open);
    const alike = countPlaces(rest, (run) => open(run) && this.workedInto.has(spaceKey(run)));
    if (passed > 1 || alike > 0) this.reach.passedSpaces += passed;
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

  /** Adds what `again` more passes do that are like the one since `before`. */
  jump(before: Reach, again: number): void {
    const { reach } = this;
    for (const sum of ["at", "used", "over", "left", "passedStitches", "passedSpaces"] as const)
      reach[sum] += (reach[sum] - before[sum]) * again;
  }
}

function spaceKey({ chains, unit }: Run): string {
  return `${chains ?? 1} ${unit ?? "-"}`;
}
