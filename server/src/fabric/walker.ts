import { say } from "../text/say";
import type { Span } from "../text/span";
import type { Below, More, View } from "./below";
import type { Goings } from "./goings";
import { heldTogether } from "./held-loops";
import { type Instruction, isPlainNext, type StitchUse, type Take, type Target } from "./instructions";
import { nameOpening } from "./opening-group";
import { unknownPlace } from "./place-taker";
import { mostStretches, type PassStart, RepeatWalker } from "./repeat-walker";
import type { Op } from "./step-maker";
import { countStitches, type Step, type Steps } from "./steps";
import { everyPlace, type Run } from "./strip";

/** What it comes to when a row is worked, for one size and one reading. */
export interface Walk {
  readonly needs: number | null;
  readonly has: number | null;
  readonly steps: readonly Steps[];
  readonly marked: number | null;
  /** Why the places could not be followed. */
  readonly outOfReach: string | null;
  /** A run to the end that does not come out even. */
  readonly uneven: boolean;
  /** What was taken to be so and stands only where the row then comes out right: said where it does not. */
  readonly supposed: string | null;
  /** The repeats and the runs over free places; their places are told from the one the round was moved to. */
  readonly goings: readonly Goings[];
  readonly movedTo: number;
}

/** Works one row, for one size and one reading, on the places below. */
export function walk(
  instructions: readonly Instruction[],
  below: Below,
  reading: readonly number[],
  size: number,
  view: View,
  more: More | null = null,
): Walk {
  const walker = new Walker(below, reading, size, view, more);
  walker.slipsToStart = slipsToStart(instructions);
  walker.all(instructions);
  return walker.result();
}

/** Slip stitches that open a row lead to where its work begins; a row of nothing else is fabric. */
function slipsToStart(instructions: readonly Instruction[]): boolean {
  const opening = instructions.find(({ op }) => !["turn", "mark", "unknown"].includes(op));
  return opening?.op === "slip" && instructions.some(makesMore);
}

/** More than slip stitches with chains between them. */
function makesMore(instruction: Instruction): boolean {
  if (instruction.op === "repeat") return instruction.body.some(makesMore);
  return !["turn", "mark", "unknown", "slip", "chain"].includes(instruction.op);
}

/** Slip stitches over stitches that the row works use them. */
function usingPlaces(step: Steps): Steps {
  return "kind" in step && step.kind === "sl st" && step.uses === 0 ? { ...step, uses: 1 } : step;
}

class Walker extends RepeatWalker {
  private movedTo = 0;
  /** How many places chains of a length were led over in this row. */
  private readonly skippedUnder = new Map<number, number>();
  /** Slip stitches open the row. */
  slipsToStart = false;

  result(): Walk {
    this.bridgeEnd();
    const { needs, has } = this.sources.sums();
    const none =
      this.below.ring || (this.sources.total === 0 && this.below.chain === null && !this.beyondChain);
    if (this.sources.chainIsUsedUp) this.steps = this.steps.filter((step) => step !== this.bridge);
    if (this.sources.own.usesTravelled) this.steps = this.steps.map(usingPlaces);
    const free = none && needs === 0;
    return {
      needs: free ? null : needs,
      has: free ? null : has,
      steps: heldTogether(this.openingGroup ? nameOpening(this.steps, this.openingGroup) : this.steps),
      marked: this.marked,
      outOfReach: this.outOfReach,
      uneven: this.uneven,
      supposed: this.supposed,
      goings: this.goings,
      movedTo: this.movedTo,
    };
  }

  /** `…, ch 3, join` closes a round over as many places as each of its ch 3 skips. */
  private bridgeEnd(): void {
    if (!this.view.rotates || this.lastChain === null) return;
    this.cursor.close();
    const { left } = this.cursor.sums();
    if (left !== this.skippedUnder.get(this.lastChain)) return;
    const span = this.steps.findLast((step) => "span" in step)?.span ?? { start: 0, end: 0 };
    const sort = this.cursor.worksOnlySpaces ? "space" : "stitch";
    this.skip({ op: "skip", takes: [{ how: "next", n: [left], of: { sort } }], span });
  }

  all(instructions: readonly Instruction[]): void {
    for (const instruction of instructions) this.step(instruction);
  }

  private step(instruction: Instruction): void {
    switch (instruction.op) {
      case "work":
        return this.work(instruction);
      case "group":
        return this.group(instruction);
      case "repeat":
        return this.repeat(instruction);
      case "whichever":
        return this.whichever(instruction);
      case "either":
        return this.all(instruction.options[this.reading[instruction.choice] ?? 0] ?? []);
      case "chain":
        return this.chain(this.n(instruction.n), instruction.span);
      case "start":
        return this.start(instruction);
      case "skip":
        return this.skip(instruction);
      case "slip":
        return this.slip(instruction);
      case "other-side":
        return this.otherSide();
      case "onto":
        return this.sources.goOn(instruction.piece);
      case "begin-at":
        return this.lastChain !== null && this.below.chain === null
          ? this.beginSide(this.n(instruction.n), instruction.span)
          : this.beginAt(this.n(instruction.n));
      case "tie":
        return this.tie(instruction.span);
      case "extend":
        this.edge = this.n(instruction.n);
        return;
      case "begins":
        return this.begins(instruction);
      case "mark":
        this.marked = countStitches(this.steps);
        return;
      case "change":
        return this.change(this.n(instruction.by));
      default:
        return;
    }
  }

  private work(instruction: Op<"work">): void {
    const { stitch, span } = instruction;
    if (stitch.undefinedGroup) this.outOfReach ??= say`nothing says how many stitches a ${stitch.kind} has`;
    const per = this.n(instruction.per);
    const [first] = instruction.takes;
    const run = first?.how === "next" ? this.n(first.n) : 1;
    if (this.inPlace !== null) return this.make(stitch, 1, per * run, { at: this.cursor.at, uses: 0, span });
    const inOne = instruction.glued !== undefined && this.reading[instruction.glued] === 1;
    if (inOne) return this.workTake(stitch, run, { how: "next", n: [1], of: { sort: "stitch" } }, span);
    for (const take of instruction.takes) this.workTake(stitch, per, take, span);
  }

  private workTake(stitch: StitchUse, per: number, named: Take, span: Span): void {
    const isPicot = this.lastChain !== null && !this.cursor.chainsAhead;
    if (isPicot && this.alongPicot(stitch.kind, per, named, span)) return;
    const { take, chains } = this.inTurningChain(named);
    this.workPlaces(stitch, per * chains, take, span);
  }

  /** `next 2 ch` where no chain lies ahead chain by chain: a turning chain, of which some are a space and the last a stitch. */
  private inTurningChain(take: Take): { take: Take; chains: number } {
    if (take.how === "next" && take.chains) return { take, chains: this.n(take.chains) };
    const aside = this.edge !== null || this.side !== null || this.below.elsewhere !== undefined;
    if (take.how !== "next" || take.of.sort !== "chain" || aside || this.cursor.chainsAhead)
      return { take, chains: 1 };
    const n = this.n(take.n);
    const space = this.cursor.next?.sort === "space" && (this.cursor.next.chains ?? 1) >= n;
    const of: Target = space ? { sort: "space" } : { sort: "stitch" };
    return { take: { ...take, n: space ? [1] : take.n, of }, chains: space ? n : 1 };
  }

  private workPlaces(stitch: StitchUse, per: number, take: Take, span: Span): void {
    if (this.edge !== null && this.workEdge(stitch, per, take, span)) return;
    if (this.side !== null && this.workSide(stitch.kind, per, take, span)) return;
    if (take.how === "from-hook" && this.below.chain === null)
      return this.openSide(this.n(take.n), stitch.kind, span);
    this.cursor = this.sources.of(take, this.cursor);
    const { uneven } = this;
    const { at, used } = this.cursor;
    const opening = this.joinsOpening(take) ? this.opening : null;
    const inFirst = take.how === "next" ? take.first : take.how === "same" && take.asFirst;
    if ((inFirst || this.endsLoop(take)) && this.closesLoop(take)) return;
    const closing = inFirst === true && this.closes();
    const places = this.takeFor(take, stitch.uses);
    if (places === null) return;
    if (closing) return this.makeInOpening(stitch, per, { at, uses: 0, span });
    const uses = places > 0 ? (this.cursor.used - used) / places : 0;
    // Two in one stitch are an increase, two in a space a group.
    const apart = take.how === "last" || (take.how === "next" && take.of.sort !== "stitch");
    this.make(stitch, places, per, { at, uses, span, unit: per > 1 && apart ? "" : undefined });
    // An odd round has one place on the fold, which lies in both layers.
    if (stitch.family === "folded" && this.cursor.total - this.cursor.at === 1) {
      this.passOver(1, "next", span);
      this.uneven = uneven;
    }
    if (opening !== null) this.groupFrom(opening, span);
  }

  /** In the chain that opened the round, or in the last place, where that reading is taken. */
  private endsLoop(take: Take): boolean {
    if (take.how !== "last") return false;
    return take.closes === undefined ? take.onChain === true : this.reading[take.closes] === 1;
  }

  /** `…, ch 2, dc in first sc`: the stitch stands for the rest of the last loop, which is as long as the others. */
  private closesLoop({ how }: Take): boolean {
    const last = this.steps.at(-1);
    if (!this.view.rotates || !last || !("sort" in last) || last.sort !== "space") return false;
    const [length, ...others] = new Set(loopsIn(this.steps.slice(0, -1)));
    if (length === undefined || others.length > 0 || length <= (last.chains ?? 1)) return false;
    const { left } = this.cursor.sums();
    const isEnd = this.below.ring
      ? this.cursor.total === 0
      : left === 0 || left === this.skippedUnder.get(length);
    if (!isEnd && how === "last") return false;
    if (isEnd && left > 0) this.passOver(left, "next", last.span);
    this.steps[this.steps.indexOf(last)] = { ...last, chains: length };
    return true;
  }

  private group(instruction: Op<"group">): void {
    if (this.inPlace !== null) return this.all(instruction.body);
    const name = instruction.unit ?? "group";
    for (const take of instruction.takes) {
      this.cursor = this.sources.of(take, this.cursor);
      const { at, used } = this.cursor;
      const opening = this.joinsOpening(take) ? this.opening : null;
      const places = this.takeFor(take, 1);
      if (places === null || places === 0) continue;
      const uses = (this.cursor.used - used) / places;
      this.placed = true;
      const body = this.collect(instruction.body, instruction.unit ?? "");
      this.placed = false;
      const begins: Step = {
        kind: name,
        sort: "none",
        n: 1,
        at,
        uses,
        perPlace: countStitches(body),
        span: instruction.span,
        begins: name,
      };
      const group = instruction.unit ?? "";
      this.steps.push({ steps: [begins, ...body], times: places, shift: uses, group });
      if (opening !== null) this.groupFrom(opening, instruction.span);
    }
    this.lastChain = this.opening = null;
    this.overChain = false;
  }

  /** Stretch by stretch of like places, the run that is for them; a stretch that is for none is passed. */
  private whichever(instruction: Op<"whichever">): void {
    const runs = instruction.runs.map((run) => ({
      run,
      of: run.takes.flatMap((take) => (take.how === "each" ? take.of : [])),
    }));
    // Corners before other spaces, spaces of a length before any.
    const ranked = [...runs].sort((a, b) => narrowness(b.of) - narrowness(a.of));
    if (runs.some(({ of }) => this.isOnlyTold(of))) return;
    for (const { of } of runs) this.cursor.noteTargets(of);
    this.goings.push(this.goingFrom(instruction, true));
    if (!runs.every(({ of }) => of.every((target) => this.findsPart(target))))
      this.outOfReach ??= unknownPlace("corners");
    const end = this.cursor.limitOf(this.sizedUntil(instruction.until), everyPlace);
    const passes = new Map<string, PassStart>();
    for (let pass = 0; pass < mostStretches; pass++) {
      const here = this.cursor.stretch(end);
      if (!here) return;
      if (this.skipAlike(passes, pass, end)) continue;
      const found = ranked.find(({ of }) => of.some((target) => this.cursor.match(target)(here.run)));
      const take: Take = { how: "next", n: [here.n], of: placeOf(here.run) };
      if (!found) this.cursor.moveTo(this.cursor.at + here.n);
      else if (found.run.op === "work")
        this.workTake(found.run.stitch, this.n(found.run.per), take, instruction.span);
      else this.group({ ...found.run, takes: [take] });
    }
    this.tooUneven();
  }

  /** Stretches that come round again are worked by arithmetic, as passes of a repeat are. */
  private skipAlike(passes: Map<string, PassStart>, pass: number, end: number): boolean {
    const phase = this.cursor.phase();
    const key = `${phase?.start}/${phase?.offset}`;
    const earlier = passes.get(key);
    passes.set(key, this.passStart(pass));
    if (!earlier || !phase) return false;
    const moved = this.cursor.at - earlier.reach.at;
    const again = moved > 0 ? Math.floor((Math.min(phase.end, end) - this.cursor.at) / moved) - 1 : 0;
    if (again <= 0) return false;
    this.jump(earlier, again, moved);
    passes.clear();
    return true;
  }

  private skip(instruction: Op<"skip">): void {
    const before = this.cursor.used;
    const over = this.lastChain;
    const overChain = over !== null || this.overChain;
    this.skipAll(instruction);
    this.overChain = overChain;
    this.lastSkipped = this.cursor.used - before;
    if (over !== null) this.skippedUnder.set(over, this.cursor.used - before);
  }

  private skipAll(instruction: Op<"skip">): void {
    for (const take of instruction.takes) {
      if (take.how === "same") continue;
      this.cursor = this.sources.of(take, this.cursor);
      const { at, used } = this.cursor;
      const isOpening = this.steps.every((step) => "kind" in step && step.kind === "skip");
      this.takeFor(this.withoutUnderStart(this.overSpace(this.inTurningChain(take).take)), 1);
      if (isOpening) this.cursor.forgetTaken();
      this.emit({
        kind: "skip",
        sort: "none",
        n: this.cursor.used - used,
        uses: 1,
        at,
        span: instruction.span,
      });
    }
    this.lastChain = null;
  }

  /** `sk 2 sts` over an open mesh. */
  private overSpace(take: Take): Take {
    const { next } = this.cursor;
    const asMany = next?.sort === "space" && isPlainNext(take) && this.n(take.n) === (next.chains ?? 1);
    return this.view.skipsChains && asMany ? { ...take, n: [1], of: { sort: "space" } } : take;
  }

  /** `ch 3 (counts as dc), sk first dc`: the place under the chain is skipped once. */
  private withoutUnderStart(take: Take): Take {
    const under =
      take.how === "next" && take.first === true && take.of.sort !== "space" && this.cursor.underStart;
    return under ? { ...take, first: false, n: take.n.map((n) => (n === null ? null : n - 1)) } : take;
  }

  private slip(instruction: Op<"slip">): void {
    const { takes, span } = instruction;
    const [first] = takes;
    if (first?.how === "from-hook" && this.lastChain !== null)
      return this.closeChain(first, takes.slice(1), span);
    if (first?.how === "made") return this.picot(this.lastChain ?? 0, span);
    if (this.inPlace !== null) return;
    const closes = this.cursor.ended && !this.cursor.comesRound;
    if (this.steps.length > 0 && closes && this.view.rotates && !this.view.slipCounts) return;
    const opens =
      this.slipsToStart && this.steps.length === 0 && this.cursor.used === 0 && !this.view.slipCounts;
    if (opens && this.view.rotates && takes.every((take) => take.how === "next")) return this.travel(takes);
    if (this.edge !== null) this.closeEdge();
    this.cursor.travels(opens);
    for (const take of opens ? takes.map((one) => this.intoLoop(one)) : takes) {
      const { at, used } = this.cursor;
      const n = this.takeFor(take, 1) ?? 0;
      const sort = this.view.slipCounts ? "stitch" : "none";
      this.emit({ kind: "sl st", sort, n, at, uses: n > 0 ? (this.cursor.used - used) / n : 0, span });
    }
    this.cursor.travels(false);
  }

  /** A picot, or the first stitch back along a chain: `sl st in 2nd ch from hook and in next 4 ch`. */
  private closeChain(first: Take & { how: "from-hook" }, more: readonly Take[], span: Span): void {
    const n = this.n(first.n);
    if (!more.some((take) => this.onChain(take, this.lastChain ?? 0) !== null)) return this.picot(n, span);
    this.openSide(n, "sl st", span);
    for (const take of more) this.workSide("sl st", 1, take, span);
  }

  /** `sl st in next 2 ch` at the start, where only a loop has as many: up along its chains. */
  private intoLoop(take: Take): Take {
    if (take.how !== "next" || take.of.sort !== "chain" || this.cursor.chainsAhead) return take;
    const n = this.n(take.n);
    return this.cursor.hasLoop(n) ? { ...take, n: [1], of: { sort: "space" } } : take;
  }

  /** Slip stitches to another place before the round begins: it becomes the first. */
  private travel(takes: readonly Take[]): void {
    const [first] = takes;
    // The stitch that closed the round is behind the hook: the next one is its second.
    const behind = first?.how === "next" && first.of.sort === "stitch" && !first.first && takes.length === 1;
    let at = behind ? 1 : 0;
    for (const take of takes.map((one) => this.intoLoop(one)))
      if (take.how === "next") at = this.cursor.startAt(this.n(take.n), this.cursor.match(take.of), at);
    this.movedTo = Math.max(at - 1, 0);
    this.cursor.turnRoundTo(this.movedTo);
  }
}

function narrowness(of: readonly Target[]): number {
  return Math.max(
    ...of.map((target) =>
      target.corner || target.part !== undefined
        ? 3
        : target.chains !== undefined
          ? 2
          : target.sort === "space"
            ? 1
            : 0,
    ),
  );
}

function placeOf(run: Run): Target {
  if (run.sort === "space")
    return { sort: "space", ...(run.chains === undefined ? {} : { chains: run.chains }) };
  return { sort: run.sort };
}

/** How many chains each loop has. */
function loopsIn(steps: readonly Steps[]): number[] {
  return steps.flatMap((step) =>
    "steps" in step ? loopsIn(step.steps) : step.sort === "space" ? [step.chains ?? 1] : [],
  );
}
