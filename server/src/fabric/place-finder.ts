import type { Below, View } from "./below";
import type { Target, Until } from "./instructions";
import {
  countBefore,
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
  runAt,
  runsOf,
  type Strip,
  stitches,
} from "./strip";

/** What of a cursor changes with the work, as one value to copy and compare. */
export interface Reach {
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
  /** The row works into named parts of groups. */
  worksParts: boolean;
  /** Places from here on belong to what follows a repeat. */
  limit: number | null;
}

/** Finds places of the row below from where the work is now: those that a target means, where a run stops, what comes next. */
export abstract class PlaceFinder {
  protected reach: Reach;

  constructor(
    protected readonly below: Below,
    protected readonly view: View,
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
      worksParts: false,
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

  /** Where the places not yet reached begin. */
  protected get from(): number {
    const { at, strip, inPart } = this.reach;
    const last = inPart ? placeAt(strip, at - 1) : undefined;
    return last?.size === undefined ? at : at + last.size - 1 - (last.offset ?? 0);
  }

  get ended(): boolean {
    return this.from >= this.reach.total;
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
  protected matchNamed(kind: string | undefined): Match {
    const { strip, at } = this.reach;
    const alike: Match = (one) => one.sort === "stitch" && one.kind === kind;
    // Where none of them is left, the row has come to its end.
    if (this.view.kinds !== null && countPlaces(strip, alike) > 0) return alike;
    const next = findPlace(strip, countBefore(strip, at, stitches), stitches);
    const run = next < 0 ? undefined : runAt(strip, next);
    if (kind === undefined || run?.size === undefined || run.kind === kind) return stitches;
    const alone: Match = (one) => alike(one) && one.size === undefined;
    if (countPlaces(strip, alone) > countBefore(strip, at, alone)) return alone;
    return countPlaces(strip, alike) > 0 ? alike : stitches;
  }

  /** A stitch of a kind that the row works into. */
  protected isNamed(run: Run): boolean {
    return this.view.kinds === null || this.view.kinds.has(run.kind);
  }

  /** The middle of a group, or one of its stitches. */
  protected matchPart(target: Target): Match {
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
  protected matchCorner(group: { readonly size: number } | null): Match {
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
  protected groupNamed(name = ""): { unit: string; size: number; odd: boolean; spaces: number } | null {
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
  protected matchSpace(target: Target): Match {
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

  /** `to last sc`, behind which there may be stitches of other kinds; null where there is none of it. */
  private ofKind(kind: string | undefined): Match | null {
    const alike: Match = (run) => run.sort === "stitch" && run.kind === kind;
    return kind !== undefined && countPlaces(this.reach.strip, alike) > 0 ? alike : null;
  }

  /** Where the `n`-th last group of a name begins; -1 for groups known by their spaces. */
  lastGroup(name: string, n: number): number {
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
      const rank = until.nth === undefined ? countBefore(strip, at, next) : until.nth - 1;
      const found = findPlace(strip, until.beyond ? rank + 1 : rank, next);
      const short = until.short?.[0] ?? 0;
      if (found < 0 || short === 0) return found < 0 ? end : found;
      return Math.max(findPlace(strip, countBefore(strip, found, match) - short, match), at);
    }
    const group = until.of.unit === undefined ? -1 : this.lastGroup(until.of.unit, until.n[0] ?? 1);
    if (group >= 0) return group;
    const own = until.of.sort === "stitch" && match({ sort: "stitch", kind: "sc", n: 1 });
    const of = this.ofKind(until.of.kind) ?? (own ? match : this.match(until.of));
    const wanted = countBefore(strip, end, of) - (until.n[0] ?? 0);
    const found = findPlace(strip, wanted, of);
    return wanted < 0 ? at : found < 0 ? end : found;
  }

  /** A joined round that begins at the `n`-th matching place from here. */
  startAt(n: number, match: Match, from: number): number {
    const { strip } = this.reach;
    const found = findPlace(strip, countBefore(strip, from, match) + n - 1, match);
    return found >= 0 ? found + 1 : from;
  }

  phase(): Phase | undefined {
    return this.ended ? undefined : phaseAt(this.reach.strip, this.reach.at);
  }

  phaseAt(at: number): Phase | undefined {
    return phaseAt(this.reach.strip, at);
  }
}

/** What a row finds: the places the row below left, or the chains of a starting chain. */
export function placesOf({ chain, strip }: Below): Strip {
  return chain === null ? strip : plainStrip("ch", chain, "chain");
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
