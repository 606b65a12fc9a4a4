import type { Sized } from "../notation/words";
import type { Span } from "../text/span";
import { forSize, type Instruction, type StitchUse, type Take, type Target, type Times, type Until } from "./instructions";
import { countBefore, countPlaces, everyPlace, findPlace, isLoop, type Match, phaseAt, plainStrip, runAt, slice, type Strip, type StripNode, tidy } from "./strip";

/** What a row is worked on. */
export interface Below {
  readonly strip: Strip;
  /** A starting chain not yet worked into: how many chains. */
  readonly chain: number | null;
  /** A ring: any number of stitches go into it. */
  readonly ring: boolean;
  /** Position of a marked stitch. */
  readonly marked: number | null;
}

/** Row-wide ways to see the places below; the row's own words or its fit decide. */
export interface View {
  /** Chain spaces looked at as spaces, or chain by chain. */
  readonly stMeans: "stitch" | "any";
  /** Whether an oval goes on into its first chain again. */
  readonly returns: boolean;
  readonly slipCounts: boolean;
  /** Slip stitches that open the row move its start and use no place: joined rounds. */
  readonly rotates: boolean;
}

/** One thing done: the steps of a row are these, nested by loops, run-length encoded. */
export interface Step {
  readonly kind: string;
  readonly sort: "stitch" | "space" | "none";
  /** How many alike. */
  readonly n: number;
  /** Position of the first place used, places used by each, and stitches made in each place. */
  readonly at: number;
  readonly uses: number;
  readonly perPlace: number;
  readonly chains?: number;
  readonly unit?: string;
  readonly span: Span;
  /** Counted as one more unit of this name, whatever it holds. */
  readonly begins?: string;
}

export interface StepLoop {
  readonly steps: readonly Steps[];
  readonly times: number;
  /** How far the places move on with each pass. */
  readonly shift: number;
}

export type Steps = Step | StepLoop;

export interface Walk {
  readonly needs: number | null;
  readonly has: number | null;
  readonly steps: readonly Steps[];
  readonly marked: number | null;
  /** Why the places could not be followed. */
  readonly outOfReach: string | null;
  /** Places left at the end. */
  readonly left: number;
  /** A repeat that goes to the end and does not come out even. */
  readonly uneven: boolean;
  readonly fromHook: number | null;
}

/** How many places the walker has looked at since the program began: tests compare, users never see it. */
export const work = { placesVisited: 0 };

const stitchOnly: Match = (run) => run.sort === "stitch";

/** Works one row, for one size and one reading, on the places below. */
export function walk(instructions: readonly Instruction[], below: Below, reading: readonly number[], size: number, view: View): Walk {
  const walker = new Walker(below, reading, size, view);
  walker.all(instructions);
  return walker.result();
}

class Walker {
  private strip: Strip;
  private total: number;
  private at = 0;
  private used = 0;
  private over = 0;
  private left = 0;
  private passedStitches = 0;
  private passedSpaces = 0;
  private worksStitches = false;
  private worksSpaces = false;
  private worksGaps = false;
  private takenAny = false;
  private inPlace: string | null = null;
  private steps: Steps[] = [];
  private side: { left: number } | null = null;
  private marked: number | null = null;
  private outOfReach: string | null = null;
  private uneven = false;
  private fromHook: number | null = null;
  private lastChain: number | null = null;
  private chainLength: number | null;
  private limit: number | null = null;
  private outside = false;
  private placed = false;

  constructor(
    private readonly below: Below,
    private readonly reading: readonly number[],
    private readonly size: number,
    private readonly view: View,
  ) {
    this.strip = below.strip;
    this.chainLength = below.chain;
    if (below.chain !== null) this.strip = plainStrip("ch", below.chain, "chain");
    this.total = countPlaces(this.strip);
  }

  result(): Walk {
    const none = this.below.ring || (this.total === 0 && this.chainLength === null && !this.outside);
    const remaining = this.leftover();
    const left = this.left + remaining + (this.worksStitches ? this.passedStitches : 0) + (this.worksSpaces ? this.passedSpaces : 0);
    const free = none && this.used === 0;
    return {
      needs: free ? null : this.used,
      has: free ? null : this.used - this.over + left,
      steps: this.steps,
      marked: this.marked,
      outOfReach: this.outOfReach,
      left,
      uneven: this.uneven,
      fromHook: this.fromHook,
    };
  }

  private leftover(): number {
    const rest = slice(this.strip, this.at, this.total);
    if (this.worksGaps) return countPlaces(rest, stitchOnly);
    const anything = !this.worksStitches && !this.worksSpaces && this.used === 0;
    return countPlaces(rest, (run) => anything || (run.sort === "space" ? this.worksSpaces : this.worksStitches));
  }

  all(instructions: readonly Instruction[]): void {
    for (let i = 0; i < instructions.length; i++) {
      const each = this.joint(instructions, i);
      if (each > 0) i += each - 1;
      else this.step(instructions[i] as Instruction);
    }
  }

  /** `2 dc in each sp and dc in each dc around`: instructions that go over the places together. */
  private joint(instructions: readonly Instruction[], i: number): number {
    const [a, b] = [instructions[i], instructions[i + 1]];
    if (a?.op !== "work" || b?.op !== "work") return 0;
    const [first, second] = [a.takes[0], b.takes[0]];
    if (first?.how !== "each" || second?.how !== "each" || a.takes.length > 1 || b.takes.length > 1) return 0;
    const kinds = new Set([...first.of, ...second.of].map((target) => target.sort));
    if (kinds.size < 2 || first.until !== null) return 0;
    const start = this.at;
    this.step(a);
    this.at = start;
    this.step(b);
    this.passedStitches = this.passedSpaces = 0;
    this.at = this.total;
    return 2;
  }

  private n(sized: Sized): number {
    return forSize(sized, this.size) ?? 0;
  }

  private step(instruction: Instruction): void {
    work.placesVisited++;
    switch (instruction.op) {
      case "work":
        return this.work(instruction);
      case "group":
        return this.group(instruction);
      case "repeat":
        return this.repeat(instruction);
      case "either":
        return this.all(instruction.options[this.reading[instruction.choice] ?? 0] ?? []);
      case "chain":
        return this.chain(this.n(instruction.n), instruction.span);
      case "start":
        return this.start(instruction);
      case "skip":
        return this.skip(instruction.takes);
      case "slip":
        return this.slip(instruction);
      case "other-side":
        return this.otherSide();
      case "begin-at":
        return this.beginAt(this.n(instruction.n));
      case "mark":
        this.marked = this.made();
        return;
      case "change":
        return this.change(this.n(instruction.by));
      default:
        return;
    }
  }

  private made(): number {
    return countSteps(this.steps);
  }

  // Making

  private emit(step: Omit<Step, "at" | "uses" | "perPlace"> & Partial<Step>): void {
    if (step.n <= 0) return;
    const unit = this.inPlace === null ? {} : { unit: this.inPlace };
    this.steps.push({ at: this.at, uses: 1, perPlace: 1, ...unit, ...step });
    this.lastChain = null;
  }

  private makeIn(stitch: StitchUse, places: number, per: number, at: number, span: Span): void {
    if (stitch.body) {
      for (const piece of this.bodySteps(stitch, span)) this.steps.push(repeated([piece], 1, 0));
      if (places * per > 1) {
        const body = this.steps.splice(this.steps.length - 1);
        this.steps.push({ steps: body, times: places * per, shift: 1 });
      }
      this.lastChain = null;
      return;
    }
    const begins = stitch.begins ? { begins: stitch.begins } : per > 1 || stitch.special ? { begins: stitch.special ? stitch.kind : "group" } : {};
    const kind = stitch.kind;
    if (stitch.makes === 0) this.emit({ kind, sort: "none", n: places * per, at, uses: 0, span, ...begins });
    else this.emit({ kind, sort: "stitch", n: places * per * stitch.makes, at, uses: stitch.uses, perPlace: per * stitch.makes, span, ...begins });
  }

  private bodySteps(stitch: StitchUse, span: Span): Steps[] {
    const [steps, inPlace] = [this.steps, this.inPlace];
    this.steps = [];
    this.inPlace = stitch.unit ?? "";
    this.all(stitch.body ?? []);
    const made = this.steps;
    this.steps = steps;
    this.inPlace = inPlace;
    return [{ steps: [{ kind: stitch.unit ?? "", sort: "none", n: 1, at: this.at, uses: 0, perPlace: 1, span, begins: stitch.unit ?? "group" }, ...made], times: 1, shift: 0 }];
  }

  private chain(n: number, span: Span): void {
    this.emit({ kind: "ch", sort: "space", n: 1, chains: n, uses: 0, span });
    this.lastChain = n;
  }

  private start(instruction: Extract<Instruction, { op: "start" }>): void {
    const option = instruction.options[this.reading[instruction.choice] ?? 0];
    if (!option?.counted) return;
    if (option.takesPlace && !this.below.ring && this.total > 0 && !this.placed) this.take(1, everyPlace, "start");
    this.emit({ kind: option.kind, sort: "stitch", n: 1, uses: option.takesPlace ? 1 : 0, span: instruction.span, at: 0 });
    if (option.space > 0) this.chain(option.space, instruction.span);
  }

  private change(by: number): void {
    const at = this.steps.findIndex((step) => "kind" in step && step.sort === "stitch");
    const step = this.steps[at];
    if (step && "kind" in step) this.steps[at] = { ...step, n: step.n + by };
  }

  // Instructions

  private work(instruction: Extract<Instruction, { op: "work" }>): void {
    const { stitch, span } = instruction;
    if (stitch.undefinedGroup) this.outOfReach ??= `nothing says how many stitches a ${stitch.kind} has`;
    let per = this.n(instruction.per);
    let takes = instruction.takes;
    if (this.inPlace !== null) {
      const [first] = takes;
      const many = first?.how === "next" ? this.n(first.n) : 1;
      return this.makeIn({ ...stitch, uses: 0 }, 1, per * many, this.at, span);
    }
    if (instruction.glued !== undefined && this.reading[instruction.glued] === 1) {
      per = takes[0]?.how === "next" ? this.n(takes[0].n) : per;
      takes = [{ how: "next", n: [1], of: { sort: "stitch" } }];
    }
    for (const take of takes) this.workTake(stitch, per, take, span);
  }

  private workTake(stitch: StitchUse, per: number, take: Take, span: Span): void {
    if (this.side !== null && this.workSide(stitch, per, take)) return;
    if (take.how === "from-hook" && this.chainLength === null) return this.openSide(stitch, this.n(take.n));
    const at = this.at;
    const places = this.takeFor(take, Math.max(stitch.uses, 1), stitch.uses === 0);
    if (places === null) return;
    this.makeIn(stitch, places, per, at, span);
  }

  /** Takes what an instruction says; the number of times the stitch is worked, or null out of reach. */
  private takeFor(take: Take, uses: number, standsOnNothing: boolean): number | null {
    switch (take.how) {
      case "nowhere":
        return 1;
      case "unknown":
        if (take.why !== "every other") this.outOfReach ??= take.why;
        return null;
      case "same":
        if (take.asFirst && this.outside) this.take(1, everyPlace, "next");
        return this.same();
      case "marked":
        return this.marks();
      case "from-hook":
        this.beginAt(this.n(take.n));
        this.take(1, everyPlace, "next");
        return 1;
      case "next": {
        const n = this.n(take.n);
        if (standsOnNothing) return n;
        if (take.first && this.closes()) return null;
        if (take.spike !== undefined && this.reading[take.spike] === 1) return n;
        this.take(n * uses, this.match(take.of), "next");
        return n;
      }
      case "last":
        return this.last(this.n(take.n), take.of, uses);
      case "each":
        return this.each(take, uses);
    }
  }

  /** `ch 2, dc in first sc` at the end of a round: the stitch closes the last loop and is none of its own. */
  private closes(): boolean {
    return this.used > 1 && this.at >= this.total && this.total > 0 && this.view.rotates;
  }

  private group(instruction: Extract<Instruction, { op: "group" }>): void {
    for (const take of instruction.takes) {
      if (this.inPlace === null) {
        const at = this.at;
        const places = this.takeFor(take, 1, false);
        if (places === null || places === 0) continue;
        this.placed = true;
        const body = this.collect(instruction.body, instruction.unit ?? "");
        this.placed = false;
        const begins: Step = { kind: "group", sort: "none", n: 1, at, uses: 1, perPlace: 1, span: instruction.span, begins: instruction.unit ?? "group" };
        this.steps.push({ steps: [begins, ...body], times: places, shift: 1 });
      } else this.all(instruction.body);
    }
  }

  private collect(body: readonly Instruction[], unit: string): Steps[] {
    const outer = this.steps;
    this.steps = [];
    this.inPlace = unit;
    this.all(body);
    const made = this.steps;
    this.inPlace = null;
    this.steps = outer;
    return made;
  }

  private skip(takes: readonly Take[]): void {
    for (const take of takes) {
      if (take.how === "same") continue;
      const under = this.isFirstTaken(take) ? 1 : 0;
      this.takeFor(under && take.how === "next" ? { ...take, n: take.n.map((n) => (n === null ? null : n - 1)) } : take, 1, false);
    }
    this.lastChain = null;
  }

  /** `ch 3 (counts as dc), sk first dc`: the place under the chain is skipped once. */
  private isFirstTaken(take: Take): boolean {
    return take.how === "next" && take.first === true && this.used === 1 && this.startTaken && take.of.sort !== "space" && this.skipsFirst();
  }

  private startTaken = false;

  private skipsFirst(): boolean {
    const fresh = this.startTaken;
    this.startTaken = false;
    return fresh;
  }

  private slip(instruction: Extract<Instruction, { op: "slip" }>): void {
    const [only] = instruction.takes;
    if (only?.how === "from-hook" && this.lastChain !== null) return this.picot(instruction.span);
    if (this.inPlace !== null) return;
    if (this.steps.length === 0 && this.used === 0 && !this.view.slipCounts && this.view.rotates) return this.travel(instruction.takes);
    for (const take of instruction.takes) {
      const at = this.at;
      const places = this.takeFor(take, 1, false) ?? 0;
      if (this.view.slipCounts) this.emit({ kind: "sl st", sort: "stitch", n: places, at, uses: 1, span: instruction.span });
      else if (this.steps.length > 0) this.lastChain = null;
    }
  }

  /** Slip stitches to another place before the round begins: it becomes the first. */
  private travel(takes: readonly Take[]): void {
    let at = 0;
    for (const take of takes) {
      if (take.how !== "next") continue;
      const match = this.match(take.of);
      const rank = countBefore(this.strip, at, match);
      const found = findPlace(this.strip, rank + this.n(take.n) - 1, match);
      if (found >= 0) at = found + 1;
    }
    const start = Math.max(at - 1, 0);
    this.strip = start === 0 ? this.strip : [...slice(this.strip, start, this.total), ...slice(this.strip, 0, start)];
  }

  private picot(span: Span): void {
    this.steps.pop();
    this.emit({ kind: "picot", sort: "none", n: 1, uses: 0, span, begins: "picot" });
  }

  // Chains worked back along

  private beginAt(n: number): void {
    if (this.chainLength === null) return;
    this.fromHook = n;
    this.at = Math.min(n - 1, this.total);
    if (n - 1 > this.total) this.over += n - 1 - this.total;
  }

  private openSide(stitch: StitchUse, n: number): void {
    if (this.lastChain === null) {
      this.outOfReach ??= "there is no chain to work back along";
      return;
    }
    this.steps.pop();
    this.side = { left: this.lastChain - n + 1 };
    this.lastChain = null;
    this.workSide(stitch, 1, { how: "next", n: [1], of: { sort: "chain" } });
  }

  /** A side chain's own stitches are no places of the round and not in its count. */
  private workSide(_stitch: StitchUse, _per: number, take: Take): boolean {
    if (this.side === null) return false;
    const isChain = (take.how === "next" || take.how === "last") && take.of.sort === "chain";
    const each = take.how === "each" && take.of.some((target) => target.sort === "chain");
    if (!isChain && !each) {
      if (this.side.left > 0) this.left += this.side.left;
      this.side = null;
      return false;
    }
    const n = each ? this.side.left : this.n((take as { n: Sized }).n);
    if (n > this.side.left) {
      this.over += n - this.side.left;
      this.used += n - this.side.left;
    }
    this.side = { left: Math.max(this.side.left - n, 0) };
    return true;
  }

  private otherSide(): void {
    if (this.outside) return;
    if (this.below.chain === null && this.chainLength === null) return;
    this.left += countPlaces(slice(this.strip, this.at, this.total));
    const out = this.total - ((this.fromHook ?? 1) - 1);
    this.strip = plainStrip("ch", Math.max(out - (this.view.returns ? 1 : 2), 0), "chain");
    this.total = countPlaces(this.strip);
    this.at = 0;
    this.outside = true;
  }

  // Taking places

  private match(target: Target): Match {
    if (target.sort === "gap") {
      this.worksGaps = true;
      return stitchOnly;
    }
    if (target.sort === "space") return (run) => run.sort === "space" && (target.chains === undefined || run.chains === target.chains || run.chains === undefined || !this.hasChains(target.chains)) && (target.unit === undefined || run.unit === target.unit || !this.hasUnit(target.unit));
    if (target.sort === "chain") return (run) => run.sort === "chain" || (this.view.stMeans === "any" && run.sort === "stitch" && false);
    if (target.named) return (run) => run.sort === "stitch";
    if (this.view.stMeans === "any") return everyPlace;
    return (run) => run.sort === "stitch" || run.sort === "chain";
  }

  private hasChains(n: number): boolean {
    return countPlaces(this.strip, (run) => run.sort === "space" && run.chains === n) > 0;
  }

  private hasUnit(name: string): boolean {
    return countPlaces(this.strip, (run) => run.unit === name) > 0;
  }

  /** Takes `n` matching places from here on; those passed on the way are kept in mind. */
  private take(n: number, match: Match, how: "next" | "each" | "start"): void {
    if (n <= 0) return;
    work.placesVisited++;
    const rank = countBefore(this.strip, this.at, match);
    const there = Math.max(Math.min(n, countPlaces(this.strip, match) - rank), 0);
    const end = there === 0 ? this.at : findPlace(this.strip, rank + there - 1, match) + 1;
    if (how === "next") this.pass(this.at, end, match);
    this.note(this.at, end, match, how);
    this.at = end;
    this.used += n;
    this.over += n - there;
    if (n > there && there === 0 && how === "next") this.notePhantom(match);
    this.startTaken = how === "start" || (this.startTaken && false);
    this.takenAny = true;
    this.lastChain = null;
  }

  private pass(from: number, to: number, match: Match): void {
    if (countPlaces(slice(this.strip, from, to), match) === to - from) return;
    const between = slice(this.strip, from, to);
    this.passedStitches += countPlaces(between, (run) => !match(run) && run.sort !== "space" && run.unit === undefined);
    this.passedSpaces += countPlaces(between, (run) => !match(run) && run.sort === "space");
  }

  private note(from: number, to: number, match: Match, how: "next" | "each" | "start"): void {
    if (how === "start") return;
    const taken = slice(this.strip, from, to);
    if (countPlaces(taken, (run) => match(run) && run.sort === "space") > 0) this.worksSpaces = true;
    if (countPlaces(taken, (run) => match(run) && run.sort !== "space") > 0) this.worksStitches = true;
  }

  private notePhantom(match: Match): void {
    if (match({ sort: "space", kind: "ch", n: 1 })) this.worksSpaces ||= !match({ sort: "stitch", kind: "sc", n: 1 });
    else this.worksStitches = true;
  }

  private same(): number {
    if (!this.takenAny && !this.below.ring && this.total > 0) {
      const first = runAt(this.strip, 0);
      this.take(1, everyPlace, "start");
      if (first?.sort === "space") this.worksSpaces = true;
      this.startTaken = false;
    }
    return 1;
  }

  private marks(): number {
    if (this.below.marked === null) {
      this.outOfReach ??= "nothing says where the marked stitch is";
      return 0;
    }
    this.take(1, everyPlace, "next");
    this.marked = this.made();
    return 1;
  }

  /** `in last 2 sts`: at the end, whatever lies between is left unworked. */
  private last(n: number, of: Target, uses: number): number {
    if (this.below.ring && this.total === 0) return n;
    const match = this.match(of);
    const rank = countBefore(this.strip, this.at, match);
    const there = countPlaces(this.strip, match) - rank;
    const gap = there - n * uses;
    if (gap > 0) {
      this.left += gap - (this.worksSpaces ? this.groupedBefore(match, rank, gap) : 0);
      this.at = findPlace(this.strip, rank + gap, match);
    }
    this.take(n * uses, match, of.sort === "stitch" ? "start" : "next");
    this.startTaken = false;
    return n;
  }

  /** Stitches of groups whose spaces were worked are passed over, not left. */
  private groupedBefore(match: Match, rank: number, gap: number): number {
    const to = findPlace(this.strip, rank + gap, match);
    return countPlaces(slice(this.strip, this.at, to), (run) => match(run) && run.unit !== undefined);
  }

  private each(take: Extract<Take, { how: "each" }>, uses: number): number {
    const matches = take.of.map((target) => this.match(target));
    const match: Match = (run) => matches.some((one) => one(run));
    const end = this.limitOf(take.until, match);
    const rank = countBefore(this.strip, this.at, match);
    const there = Math.max(countBefore(this.strip, end, match) - rank, 0);
    const n = Math.floor(there / uses);
    if (n * uses < there) this.uneven = true;
    this.noteEach(take.of);
    this.take(n * uses, match, "each");
    return n;
  }

  private noteEach(of: readonly Target[]): void {
    for (const target of of) {
      if (target.sort === "space") this.worksSpaces = true;
      else if (target.sort !== "gap") this.worksStitches = true;
    }
  }

  /** The position where "to last 3 sts", "to marked st" or the end of the row stops. */
  private limitOf(until: Until | null, match: Match): number {
    const end = this.limit ?? this.total;
    if (until === null) return end;
    if (until === "marked") {
      if (this.below.marked === null) this.outOfReach ??= "nothing says where the marked stitch is";
      return this.below.marked ?? end;
    }
    if (until === "space") {
      const rank = countBefore(this.strip, this.at, (run) => run.sort === "space");
      const found = findPlace(this.strip, rank, (run) => run.sort === "space");
      return found < 0 ? end : found;
    }
    const own = until.of.sort === "stitch" && match({ sort: "stitch", kind: "sc", n: 1 });
    const of = own ? match : this.match(until.of);
    const wanted = countBefore(this.strip, end, of) - this.n(until.n);
    const found = findPlace(this.strip, wanted, of);
    return wanted < 0 ? this.at : found < 0 ? end : found;
  }

  // Repeats

  private repeat(instruction: Extract<Instruction, { op: "repeat" }>): void {
    const times = this.timesOf(instruction.times);
    if (times.toEnd) return this.toEnd(instruction, times.until);
    this.fixed(instruction.body, times.n);
  }

  private timesOf(times: Times): { toEnd: boolean; n: number; until: Until | null } {
    switch (times.how) {
      case "fixed":
        return { toEnd: false, n: this.n(times.n), until: null };
      case "doubtful":
        return { toEnd: false, n: this.n(times.n) + (this.reading[times.choice] ?? 0), until: null };
      case "to-end":
        return { toEnd: true, n: 0, until: times.until };
      case "lone":
        return { toEnd: this.reading[times.choice] === 1, n: 1, until: null };
    }
  }

  /**
   * Works the body until it comes back to a place like one where a pass began; from there on every
   * pass is alike, and the rest is arithmetic.
   */
  private fixed(body: readonly Instruction[], times: number): void {
    const starts = new Map<string, { pass: number; at: number; from: number; counters: Counters }>();
    for (let pass = 0; pass < times; pass++) {
      const phase = this.at >= this.total ? undefined : phaseAt(this.strip, this.at);
      const key = phase ? `${phase.start}/${phase.offset}` : "end";
      const earlier = starts.get(key);
      if (earlier) {
        const cycle = pass - earlier.pass;
        const moved = this.at - earlier.at;
        const room = moved === 0 || !phase ? Number.MAX_SAFE_INTEGER : Math.floor((phase.end - this.at) / moved) - 1;
        const again = Math.min(Math.floor((times - pass) / cycle), room);
        if (again > 0) {
          this.jump(earlier, again, moved);
          return this.fixed(body, times - pass - again * cycle);
        }
      }
      starts.set(key, { pass, at: this.at, from: this.steps.length, counters: this.counters() });
      this.all(body);
    }
  }

  private counters(): Counters {
    return { used: this.used, over: this.over, left: this.left, stitches: this.passedStitches, spaces: this.passedSpaces };
  }

  /** Adds passes that are all alike, as one loop of steps. */
  private jump(earlier: { from: number; counters: Counters }, again: number, moved: number): void {
    const { from } = earlier;
    const now = this.counters();
    const body = this.steps.slice(from);
    this.at += moved * again;
    this.used += (now.used - earlier.counters.used) * again;
    this.over += (now.over - earlier.counters.over) * again;
    this.left += (now.left - earlier.counters.left) * again;
    this.passedStitches += (now.stitches - earlier.counters.stitches) * again;
    this.passedSpaces += (now.spaces - earlier.counters.spaces) * again;
    this.steps.splice(from, body.length, { steps: body, times: again + 1, shift: moved });
  }

  private toEnd(instruction: Extract<Instruction, { op: "repeat" }>, until: Until | null): void {
    const outer = this.limit;
    const end = this.limitOf(until, this.view.stMeans === "any" ? everyPlace : (run) => run.sort !== "space" || this.worksSpaces || hasSpaceTake(instruction.body));
    this.limit = end;
    const [used, whole] = this.passLength(instruction.body);
    this.limit = outer;
    if (this.outOfReach) return;
    if (used <= 0) {
      this.outOfReach ??= "the repeat uses no places, so nothing says how often it is worked";
      return;
    }
    let guard = 0;
    const before = this.used;
    while (guard++ < 4096) {
      const passes = this.passesTo(instruction.body, end, whole);
      if (passes <= 0) break;
      this.fixed(instruction.body, passes);
    }
    if (this.used === before) this.noteUnworked(instruction.body);
    if (instruction.cut !== undefined) this.all(instruction.body.slice(0, instruction.cut));
  }

  /** Not one pass fits: the places it would have taken are left over. */
  private noteUnworked(body: readonly Instruction[]): void {
    if (hasSpaceTake(body)) this.worksSpaces = true;
    else this.worksStitches = true;
  }

  /** Places that one pass from here moves on by, and uses. */
  private passLength(body: readonly Instruction[]): [number, number] {
    const saved = this.save();
    const before = { at: this.at, used: this.used };
    this.all(body);
    const moved = this.at - before.at;
    const used = this.used - before.used;
    this.restore(saved);
    return [used, moved];
  }

  /** How many whole passes surely fit before `end`: all of them over places that are alike. */
  private passesTo(body: readonly Instruction[], end: number, _moved: number): number {
    const saved = this.save();
    const before = { at: this.at, over: this.over };
    this.all(body);
    const fits = this.over === before.over && this.at <= end && this.at > before.at;
    const moved = this.at - before.at;
    this.restore(saved);
    if (!fits) return 0;
    const phase = phaseAt(this.strip, before.at);
    const uniform = phase !== undefined && phaseAt(this.strip, before.at + moved)?.start === phase.start && phase.offset === phaseAt(this.strip, before.at + moved)?.offset;
    return uniform && phase ? Math.max(1, Math.floor((Math.min(phase.end, end) - before.at) / moved) - 1) : 1;
  }

  private save(): object {
    const { strip, below, reading, size, view, ...state } = this as unknown as Record<string, unknown>;
    return { ...state, steps: [...this.steps] };
  }

  private restore(state: object): void {
    Object.assign(this, state);
  }
}

interface Counters {
  readonly used: number;
  readonly over: number;
  readonly left: number;
  readonly stitches: number;
  readonly spaces: number;
}

function hasSpaceTake(body: readonly Instruction[]): boolean {
  return body.some((instruction) => {
    if (instruction.op === "repeat") return hasSpaceTake(instruction.body);
    const takes = instruction.op === "work" || instruction.op === "group" || instruction.op === "skip" ? instruction.takes : [];
    return takes.some((take) => (take.how === "next" && take.of.sort === "space") || (take.how === "each" && take.of.some((target) => target.sort === "space")));
  });
}

function repeated(steps: readonly Steps[], times: number, shift: number): Steps {
  const [only] = steps;
  return times === 1 && steps.length === 1 && only ? only : { steps, times, shift };
}

/** Stitches made by steps, chains and spaces apart. */
export function countSteps(steps: readonly Steps[]): number {
  let sum = 0;
  for (const step of steps) sum += "steps" in step ? countSteps(step.steps) * step.times : step.sort === "stitch" ? step.n : 0;
  return sum;
}

/** The places that the steps leave for the next row. */
export function stripOf(steps: readonly Steps[]): Strip {
  return tidy(nodesOf(steps));
}

function nodesOf(steps: readonly Steps[]): StripNode[] {
  const out: StripNode[] = [];
  for (const step of steps) {
    if ("steps" in step) out.push({ body: nodesOf(step.steps), times: step.times });
    else if (step.sort === "stitch") out.push({ sort: "stitch", kind: step.kind, n: step.n, ...(step.unit === undefined ? {} : { unit: step.unit }) });
    else if (step.sort === "space") out.push({ sort: "space", kind: "ch", n: step.n, chains: step.chains ?? 1, ...(step.unit === undefined ? {} : { unit: step.unit }) });
  }
  return out;
}
void isLoop;
