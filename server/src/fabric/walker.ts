import type { Sized } from "../notation/words";
import type { Span } from "../text/span";
import type { Cursor, Reach } from "./cursor";
import type { Going, Goings } from "./goings";
import { heldTogether } from "./held-loops";
import {
  forSize,
  type Instruction,
  type StartOption,
  type StitchUse,
  type Take,
  type Target,
  type Times,
  takesIn,
  targetsOf,
  type Until,
} from "./instructions";
import { nameOpening } from "./opening-group";
import { Sources } from "./sources";
import { countStitches, type Step, type StepLoop, type Steps } from "./steps";
import { everyPlace, type Match, plainStrip, type Run, type Strip } from "./strip";

/** What a row is worked on. */
export interface Below {
  readonly strip: Strip;
  /** A starting chain not yet worked into: how many chains. */
  readonly chain: number | null;
  /** A ring: any number of stitches go into it. */
  readonly ring: boolean;
  /** Position of a marked stitch. */
  readonly marked: number | null;
  /** Other places that the row names: the ends of other pieces, the free side of the starting chain. */
  readonly elsewhere?: ReadonlyMap<string, Strip>;
  /**
   * Only a count tells what is there: where its spaces are, nobody knows; those that the count has
   * are supposed to lie evenly spread.
   */
  readonly told?: "stitches" | "spaces";
}

/** Row-wide ways to see the places below; the row's own words or its fit decide. */
export interface View {
  /** Whether "st" means stitches, or any place. */
  readonly stMeans: "stitch" | "any";
  /** Whether an oval goes on into its first chain again, or into the one under the chains that opened it. */
  readonly returns: "no" | "first" | "opening";
  readonly slipCounts: boolean;
  /** Slip stitches that open the row move its start and use no place: joined rounds. */
  readonly rotates: boolean;
  /** Behind a chain, the next stitch lies beyond the group whose space was worked into. */
  readonly leavesGroups: boolean;
  /** Only stitches of these kinds are places, as the row names no others; null: all are. */
  readonly kinds: ReadonlySet<string> | null;
}

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

/** A repeat worked for more passes than are written. */
export interface More {
  readonly of: Instruction;
  readonly passes: number;
}

type Op<K extends Instruction["op"]> = Extract<Instruction, { op: K }>;

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

/** Where a pass of a repeat began. */
interface PassStart {
  readonly pass: number;
  readonly steps: number;
  readonly goings: number;
  readonly reach: Reach;
}

class Walker {
  /** Goes along the places that are worked on now. */
  private cursor: Cursor;
  private readonly sources: Sources;
  private steps: Steps[] = [];
  private goings: Goings[] = [];
  private movedTo = 0;
  /** Repeats that are being worked, one in the other. */
  private depth = 0;
  /** Inside a group worked into one place: its name. */
  private inPlace: string | null = null;
  /** Chains left of a side chain that is being worked back along. */
  private side: number | null = null;
  /** Chains left of one that adds to the edge and is worked back along. */
  private edge: number | null = null;
  private marked: number | null = null;
  private outOfReach: string | null = null;
  private uneven = false;
  private supposed: string | null = null;
  private fromHook: number | null = null;
  /** Chains of the chain made last, while nothing came after it. */
  private lastChain: number | null = null;
  /** How many places chains of a length were led over in this row. */
  private readonly skippedUnder = new Map<number, number>();
  private beyondChain = false;
  /** Places skipped last, which may be worked after those behind them. */
  private lastSkipped = 1;
  /** The chain made last, which may lie between two pieces. */
  private bridge: Steps | null = null;
  private placed = false;
  /** Slip stitches open the row. */
  slipsToStart = false;
  /** Where the steps of a counted opening chain begin, while nothing came after it. */
  private opening: number | null = null;
  /** The group that the opening chain begins. */
  private openingGroup: StepLoop | null = null;

  constructor(
    private readonly below: Below,
    private readonly reading: readonly number[],
    private readonly size: number,
    private readonly view: View,
    private readonly more: More | null,
  ) {
    this.sources = new Sources(below, view);
    this.cursor = this.sources.own;
  }

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
    this.skip({ op: "skip", takes: [{ how: "next", n: [left], of: { sort: "stitch" } }], span });
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
        return this.beginAt(this.n(instruction.n));
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

  private n(sized: Sized): number {
    return forSize(sized, this.size) ?? 0;
  }

  // Making

  private emit(step: Pick<Step, "kind" | "sort" | "n" | "span"> & Partial<Step>): void {
    if (step.n <= 0) return;
    const unit = this.inPlace === null ? {} : { unit: this.inPlace };
    this.steps.push({ at: this.cursor.at, uses: 0, perPlace: 1, ...step, ...unit });
    this.lastChain = null;
    this.opening = null;
  }

  /** Makes `per` stitches in each of `places` places, of which each newly uses `uses`. */
  private make(
    stitch: StitchUse,
    places: number,
    per: number,
    made: { at: number; uses: number; span: Span; unit?: string },
  ): void {
    const begins = groupName(stitch, this.inPlace === null ? per : 1);
    if (stitch.body) return this.makeGroups(stitch, places * per, made);
    const n = places * per * Math.max(stitch.makes, 1);
    const sort = stitch.makes === 0 ? "none" : "stitch";
    const perPlace = per * Math.max(stitch.makes, 1);
    const unit = perPlace >= smallestGroup ? { unit: "" } : {};
    this.emit({ kind: stitch.kind, sort, n, perPlace, ...unit, ...made, ...begins });
  }

  private makeGroups(stitch: StitchUse, times: number, made: { at: number; uses: number; span: Span }): void {
    const name = stitch.unit ?? stitch.kind;
    const body = this.collect(stitch.body ?? [], name);
    const perPlace = countStitches(body);
    const begins: Step = { kind: name, sort: "none", n: 1, perPlace, begins: name, ...made };
    this.steps.push({ steps: [begins, ...body], times, shift: made.uses, group: name });
    this.lastChain = this.opening = null;
  }

  private begins({ name, span }: Op<"begins">): void {
    const at = this.cursor.at;
    this.steps.push({ kind: name, sort: "none", n: 1, at, uses: 0, perPlace: 1, span, begins: name });
  }

  /** What instructions make when all of them go into one place. */
  private collect(body: readonly Instruction[], unit: string): Steps[] {
    const [steps, inPlace] = [this.steps, this.inPlace];
    this.steps = [];
    this.inPlace = unit;
    this.all(body);
    const made = this.steps;
    this.steps = steps;
    this.inPlace = inPlace;
    return made;
  }

  private chain(n: number, span: Span): void {
    this.emit({ kind: "ch", sort: "space", n: 1, chains: n, span });
    this.lastChain = n;
    this.bridge = this.steps.at(-1) ?? null;
    this.sources.bridge = n;
  }

  private start(instruction: Op<"start">): void {
    const option = instruction.options[this.reading[instruction.choice] ?? 0];
    if (!option) return;
    if (!option.counted) return this.startUncounted(option, instruction.span);
    const { at, used } = this.cursor;
    if (option.takesPlace && !this.below.ring && this.cursor.total > 0 && !this.placed)
      this.cursor.take(1, everyPlace, "start");
    const uses = this.cursor.used - used;
    const opening = this.steps.length;
    this.emit({ kind: option.kind, sort: "stitch", n: 1, uses, at, span: instruction.span });
    if (option.space > 0) this.chain(option.space, instruction.span);
    this.opening = this.inPlace === null ? opening : null;
  }

  /** The chain is a space, or a part of the stitch behind it. */
  private startUncounted({ space, takesPlace }: StartOption, span: Span): void {
    if (space > 0) this.chain(space, span);
    if (takesPlace && this.cursor.total > 0) this.passOver(1, "next", span);
  }

  /** `inc 4 sts evenly`: more or fewer stitches, nobody says where. */
  private change(by: number): void {
    const at = this.steps.findIndex((step) => "kind" in step && step.sort === "stitch");
    const step = this.steps[at];
    if (step && "kind" in step) this.steps[at] = { ...step, n: step.n + by };
  }

  // Instructions

  private work(instruction: Op<"work">): void {
    const { stitch, span } = instruction;
    if (stitch.undefinedGroup) this.outOfReach ??= `nothing says how many stitches a ${stitch.kind} has`;
    const per = this.n(instruction.per);
    const [first] = instruction.takes;
    const run = first?.how === "next" ? this.n(first.n) : 1;
    if (this.inPlace !== null) return this.make(stitch, 1, per * run, { at: this.cursor.at, uses: 0, span });
    const inOne = instruction.glued !== undefined && this.reading[instruction.glued] === 1;
    if (inOne) return this.workTake(stitch, run, { how: "next", n: [1], of: { sort: "stitch" } }, span);
    for (const take of instruction.takes) this.workTake(stitch, per, take, span);
  }

  private workTake(stitch: StitchUse, per: number, named: Take, span: Span): void {
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
    if (this.side !== null && this.workSide(take)) return;
    if (take.how === "from-hook" && this.below.chain === null) return this.openSide(this.n(take.n));
    this.cursor = this.sources.of(take, this.cursor);
    const { uneven } = this;
    const { at, used } = this.cursor;
    const opening = this.joinsOpening(take) ? this.opening : null;
    const closing = take.how === "next" && take.first === true && this.closes();
    const places = this.takeFor(take, stitch.uses);
    if (places === null) return;
    if (closing) return this.makeInOpening(stitch, per, { at, uses: 0, span });
    const uses = places > 0 ? (this.cursor.used - used) / places : 0;
    // Two in one stitch are an increase, two in a space a group.
    const apart = take.how === "last" || (take.how === "next" && take.of.sort !== "stitch");
    const together = per > 1 && apart ? { unit: "" } : {};
    this.make(stitch, places, per, { at, uses, span, ...together });
    // An odd round has one place on the fold, which lies in both layers.
    if (stitch.family === "folded" && this.cursor.total - this.cursor.at === 1) {
      this.passOver(1, "next", span);
      this.uneven = uneven;
    }
    if (opening !== null) this.groupFrom(opening, span);
  }

  /** `…, 2 dc in first loop, join`: the place that the round began in gets the rest of its group. */
  private makeInOpening(
    stitch: StitchUse,
    per: number,
    made: { at: number; uses: number; span: Span },
  ): void {
    this.inPlace = "";
    this.make(stitch, 1, per, made);
    this.inPlace = null;
    const at = this.openingGroup ? this.steps.indexOf(this.openingGroup) : -1;
    if (!this.openingGroup || at < 0) return;
    const steps = this.openingGroup.steps.map((step) =>
      "begins" in step && step.sort === "none" ? { ...step, perPlace: step.perPlace + per } : step,
    );
    this.openingGroup = { ...this.openingGroup, steps };
    this.steps[at] = this.openingGroup;
  }

  /** `ch 3, 2 dc in same st`: the opening chain is the first stitch of that group. */
  private joinsOpening(take: Take): boolean {
    if (this.opening === null || this.inPlace !== null) return false;
    return take.how === "same" || (take.how === "next" && take.first === true && this.cursor.underStart);
  }

  private groupFrom(opening: number, span: Span): void {
    const body = this.steps.splice(opening).flatMap(unnamed);
    const at = this.cursor.at;
    const group: Step = {
      kind: "group",
      sort: "none",
      n: 1,
      at,
      uses: 0,
      perPlace: 1,
      span,
      begins: "group",
    };
    const begins = body.some(hasName) ? [] : [group];
    this.openingGroup = { steps: [...begins, ...body], times: 1, shift: 0, group: "" };
    this.steps.push(this.openingGroup);
  }

  /** Takes what an instruction says; how many times it is worked, or null out of reach. */
  private takeFor(take: Take, stitchUses: number): number | null {
    const uses = Math.max(stitchUses, 1);
    if (this.isOnlyTold(targetsOf(take))) return null;
    switch (take.how) {
      case "nowhere":
        return take.n === "skipped" ? this.lastSkipped : take.n ? this.n(take.n) : 1;
      case "unknown":
        this.outOfReach ??= take.why;
        return null;
      case "made":
        this.outOfReach ??= "it is worked into what the same row made";
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
        this.cursor.bridge(this.lastChain !== null);
        if (!this.below.ring || this.cursor.total > 0)
          this.cursor.last(this.n(take.n) * uses, take.of, this.n(take.before ?? [0]));
        this.cursor.bridge(false);
        if (take.of.part !== undefined && !take.of.corner) this.cursor.tookPart();
        return this.n(take.n);
      case "each":
        return this.takeEach(take, uses);
    }
  }

  /** Whether spaces are asked for of which a count says nothing. */
  private isOnlyTold(targets: readonly Target[]): boolean {
    const { told } = this.below;
    if (!told || !targets.some(({ sort }) => sort === "space")) return false;
    const why = "only a count tells of the row below, not where its spaces are";
    if (told === "spaces") this.supposed ??= why;
    else this.outOfReach ??= why;
    return told === "stitches";
  }

  private takeNext(take: Extract<Take, { how: "next" }>, uses: number): number | null {
    const n = this.n(take.n);
    const inRing = this.below.ring && this.cursor.total === 0;
    if (uses === 0 || inRing) return n;
    if (!this.findsPart(take.of) && !take.of.corner) return null;
    if (take.first && this.closes()) return take.of.sort === "stitch" && this.endsInChain ? null : n;
    if (take.first && n === 1 && take.of.sort !== "space" && this.cursor.underStart) return 1;
    if (take.spike !== undefined && this.reading[take.spike] === 1) return n;
    this.cursor.bridge(this.lastChain !== null);
    this.cursor.take(n * uses, this.cursor.match(take.of), "next");
    this.cursor.bridge(false);
    if (take.of.part !== undefined && !take.of.corner) this.cursor.tookPart();
    return n;
  }

  private takeEach(take: Extract<Take, { how: "each" }>, uses: number): number {
    if (take.until === "marked" && this.below.marked === null) this.outOfReach ??= noMarker;
    if (!take.of.every((target) => this.findsPart(target))) {
      this.outOfReach ??= noCorners;
      return 0;
    }
    const going = this.goingFrom(take, true);
    const { times, even, first } = this.cursor.each(take.of, this.sizedUntil(take.until), uses);
    if (!even) this.uneven = true;
    const [afterFirst, afterLast] = [going.before + uses, this.cursor.used];
    this.goings.push({ ...going, first, passes: times, afterFirst, afterLast });
    return times;
  }

  /** Whether the row below has such a part of a group. */
  private findsPart(target: Target): boolean {
    if (target.part === undefined) return true;
    const found = this.cursor.finds(target);
    const why = target.corner ? noCorners : `nothing says where that part of a ${target.unit || "group"} is`;
    if (found && target.corner && !surelyCorners.has(this.cursor.corners)) this.supposed ??= why;
    if (!found && !target.corner) this.outOfReach ??= why;
    return found;
  }

  private sizedUntil(until: Until | null): Until | null {
    if (until === null || until === "marked") return until;
    if ("n" in until) return { ...until, n: [this.n(until.n)] };
    const { next, short = [0] } = until;
    if (next.corner && next.sort === "stitch" && !this.findsPart(next)) this.outOfReach ??= noCorners;
    this.isOnlyTold([next]);
    return { next, short: [this.n(short)] };
  }

  private takeMarked(): number {
    if (this.below.marked === null) {
      this.outOfReach ??= noMarker;
      return 0;
    }
    this.cursor.take(1, everyPlace, "next");
    this.marked = countStitches(this.steps);
    return 1;
  }

  private get endsInChain(): boolean {
    const last = this.steps.findLast((step) => "steps" in step || step.sort !== "none");
    return last !== undefined && "sort" in last && last.sort === "space";
  }

  /** `ch 2, dc in first sc` at the end of a round: the stitch closes the last loop and is none of its own. */
  private closes(): boolean {
    return this.cursor.used > 1 && this.cursor.isDone && this.cursor.total > 0 && this.view.rotates;
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
    if (!runs.every(({ of }) => of.every((target) => this.findsPart(target)))) this.outOfReach ??= noCorners;
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

  /** Rather unchecked than told wrong. */
  private tooUneven(): void {
    this.outOfReach ??= "the row below changes too often along its way for this repeat to be followed";
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
    this.skipAll(instruction);
    this.lastSkipped = this.cursor.used - before;
    if (over !== null) this.skippedUnder.set(over, this.cursor.used - before);
  }

  private skipAll(instruction: Op<"skip">): void {
    for (const take of instruction.takes) {
      if (take.how === "same") continue;
      this.cursor = this.sources.of(take, this.cursor);
      const { at, used } = this.cursor;
      const isOpening = this.steps.every((step) => "kind" in step && step.kind === "skip");
      this.takeFor(this.withoutUnderStart(this.inTurningChain(take).take), 1);
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

  /** `ch 3 (counts as dc), sk first dc`: the place under the chain is skipped once. */
  private withoutUnderStart(take: Take): Take {
    const under =
      take.how === "next" && take.first === true && take.of.sort !== "space" && this.cursor.underStart;
    return under ? { ...take, first: false, n: take.n.map((n) => (n === null ? null : n - 1)) } : take;
  }

  private slip(instruction: Op<"slip">): void {
    const { takes, span } = instruction;
    const [first] = takes;
    if (first?.how === "from-hook" && this.lastChain !== null) return this.picot(this.n(first.n), span);
    if (first?.how === "made") return this.picot(this.lastChain ?? 0, span);
    if (this.inPlace !== null) return;
    if (this.steps.length > 0 && this.cursor.ended && this.view.rotates && !this.view.slipCounts) return;
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

  private closeEdge(): void {
    this.cursor.leave(this.edge ?? 0);
    this.edge = null;
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

  /** The last `n` chains are closed to a picot; what is left of the chain leads up to it. */
  private picot(n: number, span: Span): void {
    const left = (this.lastChain ?? n) - n;
    if (this.lastChain !== null) this.steps.pop();
    if (left > 0) this.chain(left, span);
    this.emit({ kind: "picot", sort: "none", n: 1, span, begins: "picot" });
    this.lastChain = left > 0 ? left : null;
  }

  private tie(span: Span): void {
    const { lastChain } = this;
    this.emit({ kind: "tie", sort: "none", n: 1, span });
    this.lastChain = lastChain;
  }

  // Chains worked back along

  private beginAt(n: number): void {
    if (this.below.chain === null) return;
    this.fromHook = n;
    this.cursor.beginAt(n);
  }

  private openSide(n: number): void {
    if (this.lastChain === null) {
      this.outOfReach ??= "there is no chain to work back along";
      return;
    }
    this.steps.pop();
    this.side = this.lastChain - n;
    this.lastChain = null;
  }

  /** Stitches on a chain at the edge are stitches of the row; what they stand on is none of the row below. */
  private workEdge(stitch: StitchUse, per: number, take: Take, span: Span): boolean {
    const left = this.edge ?? 0;
    const n = this.onChain(take, left);
    if (n === null) {
      this.closeEdge();
      return false;
    }
    const before = take.how === "from-hook" ? this.n(take.n) - 1 : 0;
    this.edge = Math.max(left - before - n, 0);
    if (n + before > left) this.cursor.overreach(n + before - left);
    this.make(stitch, n, per, { at: this.cursor.at, uses: 0, span });
    return true;
  }

  /** How many chains a take means of those that are left; null where it means other places. */
  private onChain(take: Take, left: number): number | null {
    if (take.how === "from-hook") return 1;
    if (take.how === "each") return take.of.some((target) => target.sort === "chain") ? left : null;
    const chain = (take.how === "next" || take.how === "last") && take.of.sort === "chain";
    return chain ? this.n(take.n) : null;
  }

  /** A side chain's own stitches are no places of the round and not in its count. */
  private workSide(take: Take): boolean {
    const left = this.side ?? 0;
    const n = take.how === "from-hook" ? null : this.onChain(take, left);
    if (n === null) {
      this.cursor.leave(left);
      this.side = null;
      return false;
    }
    if (n > left) this.cursor.overreach(n - left);
    this.side = Math.max(left - n, 0);
    return true;
  }

  private otherSide(): void {
    if (this.beyondChain) return;
    if (this.below.chain === null) {
      const free = this.sources.alongChain();
      if (free) this.cursor = free;
      else this.outOfReach ??= "it is worked along a chain that other rows stand on";
      return;
    }
    const out = this.cursor.total - ((this.fromHook ?? 1) - 1);
    const short = { no: 2, first: 1, opening: 0 }[this.view.returns];
    this.cursor.carryOn(plainStrip("ch", Math.max(out - short, 0), "chain"));
    this.beyondChain = true;
  }

  // Repeats

  private repeat(instruction: Op<"repeat">): void {
    const times = this.timesOf(instruction.times);
    const isFree = typeof times !== "number";
    const going = this.goingFrom(instruction, isFree);
    this.goings.push(going);
    this.depth++;
    if (isFree) this.toEnd(instruction, times.until, going);
    else this.written(instruction, times, going);
    this.depth--;
  }

  private written(instruction: Op<"repeat">, times: number, going: Going): void {
    const all = times + (this.more?.of === instruction ? this.more.passes : 0);
    const { keeps, last } = this.lastPass(instruction);
    this.fixed(instruction.body, keeps > 0 ? all - 1 : all, going);
    this.all(last);
  }

  private goingFrom(of: Going["of"], isFree: boolean): Going {
    const { at, used } = this.cursor;
    const isElsewhere = this.cursor !== this.sources.own;
    const none = { passes: 0, first: at, before: used, afterFirst: used, afterLast: used };
    return { of, isFree, depth: this.depth, from: at, isElsewhere, ...none };
  }

  private timesOf(times: Times): number | { until: Until | null } {
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
  private fixed(body: readonly Instruction[], times: number, going: Going): void {
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

  private passed(going: Going): void {
    if (going.passes++ > 0) return;
    going.first = this.cursor.at;
    going.afterFirst = this.cursor.used;
  }

  private passStart(pass: number): PassStart {
    return { pass, steps: this.steps.length, goings: this.goings.length, reach: this.cursor.save() };
  }

  /** Adds passes that are all alike, as one loop of steps. */
  private jump(earlier: PassStart, again: number, moved: number): void {
    this.cursor.jump(earlier.reach, again);
    const [times, shift] = [again + 1, moved];
    const steps = this.steps.splice(earlier.steps);
    this.steps.push({ steps, times, shift });
    const goings = this.goings.splice(earlier.goings);
    if (goings.length > 0) this.goings.push({ goings, times, shift });
  }

  private toEnd(instruction: Op<"repeat">, until: Until | null, going: Going): void {
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
      this.outOfReach ??= "the repeat uses no places, so nothing says how often it is worked";
      return;
    }
    for (let stretches = 0; trial.passes > 0; trial = this.passTo(body, end)) {
      if (stretches++ >= mostStretches) return this.tooUneven();
      this.fixed(body, trial.passes, going);
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
  private spanRest(body: readonly Instruction[], span: Span): void {
    const { used, total, at } = this.cursor;
    const pass = this.tried(body, total, () => this.cursor.used) - used;
    if (at >= total || total - at >= pass || this.cursor.isDone) return;
    this.passOver(total - at, "start", span);
    this.uneven = false;
  }

  private passOver(n: number, manner: "next" | "start", span: Span): void {
    const { at } = this.cursor;
    this.cursor.take(n, everyPlace, manner);
    this.emit({ kind: "skip", sort: "none", n, uses: 1, at, span });
  }

  /** The parts of a last pass that ends in its own way. */
  private lastPass({ body, ending }: Op<"repeat">): { keeps: number; last: readonly Instruction[] } {
    const applies = !ending?.inRounds || this.view.rotates;
    const keeps = (applies ? ending?.keeps[this.reading[ending.choice] ?? 0] : 0) ?? 0;
    return { keeps, last: ending ? [...body.slice(0, keeps), ...ending.with] : [] };
  }

  private roomFor(last: readonly Instruction[]): number {
    const before = this.cursor.used;
    return this.tried(last, this.cursor.total, () => this.cursor.used) - before;
  }

  private endOf(body: readonly Instruction[], until: Until | null): number {
    const spaced = this.view.stMeans === "any" || takesSpaces(body);
    const match: Match = spaced ? everyPlace : (run) => run.sort !== "space";
    const stop = this.bySpaces(body, until);
    const last = stop !== null && typeof stop !== "string" && "n" in stop ? stop.of : null;
    if (last?.part !== undefined && !this.cursor.finds(last) && !this.cursor.hasGroups(last.unit ?? ""))
      this.outOfReach ??= `nothing says where the last ${last.unit || "group"} is`;
    return this.cursor.limitOf(stop, match);
  }

  /** `to last block` in a row that works only into spaces: blocks are told by their spaces. */
  private bySpaces(body: readonly Instruction[], until: Until | null): Until | null {
    if (until === null || typeof until === "string" || !("n" in until) || until.of.unit === undefined)
      return until;
    const own = takesIn(body).flatMap(targetsOf);
    const onlySpaces = own.length > 0 && own.every(({ sort }) => sort === "space");
    return onlySpaces && !this.cursor.hasGroups(until.of.unit)
      ? { n: until.n, of: { sort: "space" } }
      : until;
  }

  /** What a pass would lead to, without working it. */
  private tried<T>(body: readonly Instruction[], end: number, read: () => T): T {
    const { steps, goings, marked, side, lastChain, uneven, outOfReach } = this;
    const reach = this.cursor.save();
    this.steps = [];
    this.goings = [];
    const limit = this.cursor.setLimit(end);
    this.all(body);
    this.cursor.setLimit(limit);
    const value = read();
    this.cursor.restore(reach);
    Object.assign(this, {
      steps,
      goings,
      marked,
      side,
      lastChain,
      uneven,
      outOfReach: outOfReach ?? this.outOfReach,
    });
    return value;
  }

  /** Whether a pass takes places, and how many whole ones surely fit before `end`: all of them over places that are alike. */
  private passTo(body: readonly Instruction[], end: number): { usesPlaces: boolean; passes: number } {
    const { at, over, used } = this.cursor;
    const after = this.tried(body, end, () => {
      const { at, over, used } = this.cursor;
      return { at, over, used };
    });
    const usesPlaces = after.used > used;
    if (after.over !== over || after.at > end || after.at <= at) return { usesPlaces, passes: 0 };
    const [here, there] = [this.cursor.phase(), this.cursor.phaseAt(after.at)];
    const alike = here !== undefined && here.start === there?.start && here.offset === there.offset;
    const passes = alike ? Math.max(1, Math.floor((Math.min(here.end, end) - at) / (after.at - at)) - 1) : 1;
    return { usesPlaces, passes };
  }
}

/** Fewer stitches in one stitch are an increase and no group. */
const smallestGroup = 3;

/** Inside a larger group, one of its parts is no group of its own. */
function unnamed(step: Steps): Steps[] {
  if ("steps" in step) return [{ ...step, steps: step.steps.flatMap(unnamed) }];
  if (step.begins !== "group") return [step];
  const { begins: _, ...rest } = step;
  return step.sort === "none" ? [] : [rest];
}

function hasName(step: Steps): boolean {
  return "steps" in step ? step.steps.some(hasName) : step.begins !== undefined;
}

/** So many groups round a motif are its corners. */
const surelyCorners = new Set([4, 6]);
const noCorners = "nothing says where the corners are";
const noMarker = "nothing says where the marked stitch is";

/** Stretches of unlike places a repeat to the end may cross: more than rows have. */
const mostStretches = 128;

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

function groupName(stitch: StitchUse, per: number): { begins: string } | Record<never, never> {
  if (stitch.begins) return { begins: stitch.begins };
  if (stitch.special) return { begins: stitch.kind };
  return per > 1 ? { begins: "group" } : {};
}

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
