import { say } from "../text/say";
import type { Span } from "../text/span";
import { ChainWalker } from "./chain-walker";
import type { Going } from "./goings";
import { type Instruction, type Times, takesIn, targetsOf, type Until } from "./instructions";
import type { Reach } from "./place-finder";
import type { Op } from "./step-maker";
import { everyPlace, type Match } from "./strip";

/** Where a pass of a repeat began. */
export interface PassStart {
  readonly pass: number;
  readonly steps: number;
  readonly goings: number;
  readonly reach: Reach;
}

/** Works repeats: passes over places that are alike are told by arithmetic. */
export abstract class RepeatWalker extends ChainWalker {
  protected repeat(instruction: Op<"repeat">): void {
    const times = this.timesOf(instruction.times);
    const isFree = typeof times !== "number";
    const going = this.goingFrom(instruction, isFree);
    this.goings.push(going);
    this.depth++;
    if (isFree) this.toEnd(instruction, times.until, going);
    else this.written(instruction, times, going);
    this.depth--;
  }

  protected written(instruction: Op<"repeat">, times: number, going: Going): void {
    const all = times + (this.more?.of === instruction ? this.more.passes : 0);
    const { keeps, last } = this.lastPass(instruction);
    this.fixed(instruction.body, keeps > 0 ? all - 1 : all, going);
    this.all(last);
  }

  protected timesOf(times: Times): number | { until: Until | null } {
    switch (times.how) {
      case "fixed":
        return this.n(times.n);
      case "doubtful":
        return this.n(times.n) + (this.reading[times.choice] ?? 0);
      case "to-end":
        return { until: times.until };
      case "lone":
        return this.reading[times.choice] === 1 ? { until: null } : 1;
    }
  }

  /**
   * Works the body until it comes back to a place like one where a pass began; from there on every
   * pass is alike, and the rest is arithmetic.
   */
  protected fixed(body: readonly Instruction[], times: number, going: Going): void {
    if (times > 1 && this.takesFirst(body)) {
      this.all(body);
      this.passed(going);
      return this.fixed(body, times - 1, going);
    }
    if (times === 1) return this.last(body, going);
    const starts = new Map<string, PassStart>();
    for (let pass = 0; pass < times; pass++) {
      const phase = this.cursor.phase();
      const key = phase ? `${phase.start}/${phase.offset}` : "end";
      const earlier = starts.get(key);
      if (earlier) {
        const moved = this.cursor.at - earlier.reach.at;
        const room =
          moved === 0 || !phase
            ? Number.MAX_SAFE_INTEGER
            : Math.floor((phase.end - this.cursor.at) / moved) - 1;
        const again = Math.min(Math.floor((times - pass) / (pass - earlier.pass)), room);
        if (again > 0) {
          this.jump(earlier, again, moved);
          const jumped = again * (pass - earlier.pass);
          going.passes += jumped;
          return this.fixed(body, times - pass - jumped, going);
        }
      }
      starts.set(key, this.passStart(pass));
      this.all(body);
      this.passed(going);
    }
    going.afterLast = this.cursor.used;
  }

  /** A pass that no other follows. */
  private last(body: readonly Instruction[], going: Going): void {
    this.all(body);
    this.passed(going);
    going.afterLast = this.cursor.used;
  }

  /** `(sc in same st, sc in next st) x6`: the first pass takes the place that the row begins in, the others none for it. */
  private takesFirst(body: readonly Instruction[]): boolean {
    return !this.cursor.hasTaken && takesIn(body).some(({ how }) => how === "same");
  }

  protected passed(going: Going): void {
    if (going.passes++ > 0) return;
    going.first = this.cursor.at;
    going.afterFirst = this.cursor.used;
  }

  protected passStart(pass: number): PassStart {
    return { pass, steps: this.steps.length, goings: this.goings.length, reach: this.cursor.save() };
  }

  /** Adds passes that are all alike, as one loop of steps. */
  protected jump(earlier: PassStart, again: number, moved: number): void {
    this.cursor.jump(earlier.reach, again);
    const [times, shift] = [again + 1, moved];
    const steps = this.steps.splice(earlier.steps);
    this.steps.push({ steps, times, shift });
    const goings = this.goings.splice(earlier.goings);
    if (goings.length > 0) this.goings.push({ goings, times, shift });
  }

  protected toEnd(instruction: Op<"repeat">, until: Until | null, going: Going): void {
    const { body } = instruction;
    const { last } = this.lastPass(instruction);
    const room = last.length > 0 ? this.roomFor(last) : null;
    const end = this.endOf(
      body,
      room === null ? this.sizedUntil(until) : { n: [room], of: { sort: "stitch" } },
    );
    const before = this.cursor.used;
    let trial = this.passTo(body, end);
    if (!trial.usesPlaces) {
      this.outOfReach ??= say`the repeat uses no places, so nothing says how often it is worked`;
      return;
    }
    for (let stretches = 0; trial.passes > 0; trial = this.passTo(body, end)) {
      if (stretches++ >= mostStretches) return this.tooUneven();
      this.fixed(body, trial.passes, going);
      // Where no place is left, no pass fits.
      if (this.cursor.at >= end) break;
    }
    if (this.cursor.used === before)
      this.cursor.noteTargets([{ sort: takesSpaces(body) ? "space" : "stitch" }]);
    if (this.cursor.at < end && !this.cursor.ended) this.uneven = true;
    if (instruction.cut !== undefined) this.all(body.slice(0, instruction.cut));
    this.all(last);
    if (last.length > 0 && this.lastChain !== null && this.view.rotates)
      this.spanRest(body, instruction.span);
  }

  /** `…, ending with ch 5` in a round: the chain reaches over what is left to the first stitch. */
  protected spanRest(body: readonly Instruction[], span: Span): void {
    const { used, total, at } = this.cursor;
    const pass = this.tried(body, total, () => this.cursor.used) - used;
    if (at >= total || total - at >= pass || this.cursor.isDone) return;
    this.passOver(total - at, "start", span);
    this.uneven = false;
  }

  /** The parts of a last pass that ends in its own way. */
  protected lastPass({ body, ending }: Op<"repeat">): { keeps: number; last: readonly Instruction[] } {
    const applies = !ending?.inRounds || this.view.rotates;
    const keeps = applies ? ending?.keeps[this.reading[ending.choice] ?? 0] : 0;
    if (keeps === undefined || keeps === "as ever") return { keeps: 0, last: [] };
    return { keeps, last: ending ? [...body.slice(0, keeps), ...ending.with] : [] };
  }

  protected roomFor(last: readonly Instruction[]): number {
    const before = this.cursor.used;
    // `ending with ch 2, sk 2, dc in first sc`: the first is taken already.
    const ahead = this.view.rotates ? last.filter((one) => !isInFirst(one)) : last;
    return this.tried(ahead, this.cursor.total, () => this.cursor.used) - before;
  }

  protected endOf(body: readonly Instruction[], until: Until | null): number {
    const spaced = this.view.stMeans === "any" || takesSpaces(body);
    const match: Match = spaced ? everyPlace : (run) => run.sort !== "space";
    const stop = this.bySpaces(body, until);
    const last = stop !== null && typeof stop !== "string" && "n" in stop ? stop.of : null;
    const known = last === null || this.cursor.finds(last) || this.cursor.hasGroups(last.unit ?? "");
    if (last?.part !== undefined && !known && this.cursor.lastGroup(last.unit ?? "", 1) < 0)
      this.outOfReach ??= say`nothing says where the last ${last.unit || "group"} is`;
    return this.cursor.limitOf(stop, match);
  }

  /** `to last block` in a row that works only into spaces: blocks are told by their spaces. */
  protected bySpaces(body: readonly Instruction[], until: Until | null): Until | null {
    if (until === null || typeof until === "string" || !("n" in until) || until.of.unit === undefined)
      return until;
    const own = takesIn(body).flatMap(targetsOf);
    const onlySpaces = own.length > 0 && own.every(({ sort }) => sort === "space");
    return onlySpaces && !this.cursor.hasGroups(until.of.unit)
      ? { n: until.n, of: { sort: "space" } }
      : until;
  }

  /** What a pass would lead to, without working it. */
  protected tried<T>(body: readonly Instruction[], end: number, read: () => T): T {
    const { steps, goings, marked, side, lastChain, overChain, stoppedAt, uneven, outOfReach } = this;
    const reach = this.cursor.save();
    this.steps = [];
    this.goings = [];
    const limit = this.cursor.setLimit(end);
    this.all(body);
    this.cursor.setLimit(limit);
    const value = read();
    this.cursor.restore(reach);
    this.steps = steps;
    this.goings = goings;
    this.marked = marked;
    this.side = side;
    this.lastChain = lastChain;
    this.overChain = overChain;
    this.stoppedAt = stoppedAt;
    this.uneven = uneven;
    this.outOfReach = outOfReach ?? this.outOfReach;
    return value;
  }

  /** Whether a pass takes places, and how many whole ones surely fit before `end`: all of them over places that are alike. */
  protected passTo(body: readonly Instruction[], end: number): { usesPlaces: boolean; passes: number } {
    const { at, over, used } = this.cursor;
    const isFirst = this.takesFirst(body);
    const after = this.tried(body, end, () => {
      const { at, over, used } = this.cursor;
      return { at, over, used };
    });
    const usesPlaces = after.used > used;
    if (after.over !== over || after.at > end || after.at <= at) return { usesPlaces, passes: 0 };
    const [here, there] = [this.cursor.phase(), this.cursor.phaseAt(after.at)];
    const alike = here !== undefined && here.start === there?.start && here.offset === there.offset;
    const passes =
      alike && !isFirst ? Math.max(1, Math.floor((Math.min(here.end, end) - at) / (after.at - at)) - 1) : 1;
    return { usesPlaces, passes };
  }

  /** Rather unchecked than told wrong. */
  protected tooUneven(): void {
    this.outOfReach ??= say`the row below changes too often along its way for this repeat to be followed`;
  }
}

/** Stretches of unlike places a repeat to the end may cross: more than rows have. */
export const mostStretches = 1024;

function takesSpaces(body: readonly Instruction[]): boolean {
  return body.some((instruction) => {
    if (instruction.op === "repeat") return takesSpaces(instruction.body);
    if (!("takes" in instruction)) return false;
    return instruction.takes.some((take) =>
      take.how === "next"
        ? take.of.sort === "space"
        : take.how === "each" && take.of.some((target) => target.sort === "space"),
    );
  });
}

function isInFirst(one: Instruction): boolean {
  return one.op === "work" && one.takes.every((take) => take.how === "next" && take.first === true);
}
