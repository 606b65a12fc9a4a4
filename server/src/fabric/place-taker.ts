import { say, sayings } from "../text/say";
import type { Going } from "./goings";
import type { Take, Target, Until } from "./instructions";
import { isUntilNext, targetsOf } from "./instructions";
import { StepMaker } from "./step-maker";
import { countStitches } from "./steps";
import { countPlaces, everyPlace, stitches } from "./strip";

/** Takes the places that an instruction says. */
export abstract class PlaceTaker extends StepMaker {
  /** Repeats that are being worked, one in the other. */
  protected depth = 0;
  protected marked: number | null = null;
  protected uneven = false;
  protected supposed: string | null = null;
  protected fromHook: number | null = null;
  protected beyondChain = false;
  /** Places skipped last, which may be worked after those behind them. */
  protected lastSkipped = 1;
  /** Where the last run stopped at a place that it names; 0 for none. */
  protected stoppedAt = 0;

  /** Takes what an instruction says; how many times it is worked, or null out of reach. */
  protected takeFor(take: Take, stitchUses: number): number | null {
    const uses = Math.max(stitchUses, 1);
    if (this.isOnlyTold(targetsOf(take))) return null;
    switch (take.how) {
      case "nowhere":
        return take.n === "skipped" ? this.lastSkipped : take.n ? this.n(take.n) : 1;
      case "unknown":
        this.outOfReach ??= take.why;
        return null;
      case "made":
        this.outOfReach ??= say`it is worked into what the same row made`;
        return null;
      case "same":
        if (take.asFirst && this.beyondChain) this.cursor.take(1, everyPlace, "next");
        this.cursor.same(take.inSpace === true);
        return 1;
      case "marked":
        return this.takeMarked();
      case "from-hook":
        this.beginAt(this.n(take.n));
        this.cursor.take(1, everyPlace, "next");
        return 1;
      case "next":
        return this.takeNext(take, stitchUses);
      case "last":
        if (!this.findsPart(take.of)) return null;
        this.cursor.bridge(this.lastChain !== null || this.overChain);
        if (take.over) this.cursor.behindChains(this.n(take.over));
        if (!this.below.ring || this.cursor.total > 0)
          this.cursor.last(this.n(take.n) * uses, take.of, this.n(take.before ?? [0]));
        this.cursor.bridge(false);
        if (isOfGroup(take.of)) this.cursor.tookPart(take.of);
        return this.n(take.n);
      case "each":
        return this.takeEach(take, uses);
    }
  }

  /** Whether spaces are asked for of which a count says nothing. */
  protected isOnlyTold(targets: readonly Target[]): boolean {
    const { told, strip } = this.below;
    // A count of nothing but spaces: what stands between them, nobody knows.
    const ofStitches = targets.some(({ sort }) => sort === "stitch");
    if (ofStitches && told === "spaces" && strip.length > 0 && countPlaces(strip, stitches) === 0) {
      this.outOfReach ??= say`only a count tells of the row below, and that counts its spaces`;
      return true;
    }
    if (!told || !targets.some(({ sort }) => sort === "space")) return false;
    const why = say`only a count tells of the row below, not where its spaces are`;
    if (told === "spaces") this.supposed ??= why;
    else this.outOfReach ??= why;
    return told === "stitches";
  }

  protected takeNext(take: Extract<Take, { how: "next" }>, uses: number): number | null {
    const n = this.n(take.n);
    const inRing = this.below.ring && this.cursor.total === 0;
    if (uses === 0 || inRing) return n;
    if (!this.findsPart(take.of) && !take.of.corner) return null;
    if (take.first && this.closes()) return take.of.sort === "stitch" && this.endsInChain ? null : n;
    if (take.first && n === 1 && take.of.sort !== "space" && this.cursor.underStart) return 1;
    if (take.spike !== undefined && this.reading[take.spike] === 1) return n;
    this.cursor.bridge(this.lastChain !== null || this.overChain);
    this.cursor.take(n * uses, this.cursor.match(take.of), "next");
    this.cursor.bridge(false);
    if (isOfGroup(take.of)) this.cursor.tookPart(take.of);
    return n;
  }

  protected takeEach(take: Extract<Take, { how: "each" }>, uses: number): number {
    if (take.until === "marked" && this.below.marked === null) this.outOfReach ??= unknownPlace("marked");
    if (!take.of.every((target) => this.findsPart(target))) {
      this.outOfReach ??= unknownPlace("corners");
      return 0;
    }
    const going = this.goingFrom(take, true);
    const until = this.beyondStop(this.sizedUntil(take.until));
    const { times, even, first } = this.cursor.each(take.of, until, uses);
    this.stoppedAt = isUntilNext(until) ? this.cursor.at : 0;
    if (!even) this.uneven = true;
    if (times > 0 && take.of.some(({ part, corner }) => part !== undefined && !corner))
      this.cursor.passGroup();
    const [afterFirst, afterLast] = [going.before + uses, this.cursor.used];
    this.goings.push({ ...going, first, passes: times, afterFirst, afterLast });
    return times;
  }

  /** Whether the row below has such a part of a group. */
  protected findsPart(target: Target): boolean {
    if (target.part === undefined) return true;
    const found = this.cursor.finds(target);
    const why = target.corner
      ? unknownPlace("corners")
      : say`nothing says where that part of a ${target.unit || "group"} is`;
    if (found && target.corner && !surelyCorners.has(this.cursor.corners)) this.supposed ??= why;
    if (!found && !target.corner) this.outOfReach ??= why;
    return found;
  }

  protected sizedUntil(until: Until | null): Until | null {
    if (until === null || until === "marked") return until;
    if ("n" in until) return { ...until, n: [this.n(until.n)] };
    const { next, short = [0], nth } = until;
    if (next.corner && next.sort === "stitch" && !this.findsPart(next))
      this.outOfReach ??= unknownPlace("corners");
    this.isOnlyTold([next]);
    return { next, short: [this.n(short)], ...(nth === undefined ? {} : { nth }) };
  }

  /** `sc in each st to first ch-1 sp, ch 4, skip all sts to next ch-1 sp`: the second one. */
  private beyondStop(until: Until | null): Until | null {
    const again =
      isUntilNext(until) &&
      until.nth === undefined &&
      this.stoppedAt > 0 &&
      this.stoppedAt === this.cursor.at;
    return again ? { ...until, beyond: true } : until;
  }

  protected takeMarked(): number {
    if (this.below.marked === null) {
      this.outOfReach ??= unknownPlace("marked");
      return 0;
    }
    this.cursor.take(1, everyPlace, "next");
    this.marked = countStitches(this.steps);
    return 1;
  }

  /** `ch 2, dc in first sc` at the end of a round: the stitch closes the last loop and is none of its own. */
  protected closes(): boolean {
    return this.cursor.used > 1 && this.cursor.isDone && this.cursor.total > 0 && this.view.rotates;
  }

  protected goingFrom(of: Going["of"], isFree: boolean): Going {
    const { at, used } = this.cursor;
    const isElsewhere = this.cursor !== this.sources.own;
    const none = { passes: 0, first: at, before: used, afterFirst: used, afterLast: used };
    return { of, isFree, depth: this.depth, from: at, isElsewhere, ...none };
  }

  protected beginAt(n: number): void {
    if (this.below.chain === null) return;
    this.fromHook = n;
    this.cursor.beginAt(n);
  }
}

/** So many groups round a motif are its corners. */
const surelyCorners = new Set([4, 6]);
/** Why a place cannot be found. */
export const unknownPlace = sayings({
  corners: "nothing says where the corners are",
  marked: "nothing says where the marked stitch is",
});

/** A place that is told by the group it is in: what follows of the group may be passed over. */
function isOfGroup({ part, corner, unit, sort }: Target): boolean {
  return (part !== undefined && !corner) || (unit !== undefined && sort === "space");
}
