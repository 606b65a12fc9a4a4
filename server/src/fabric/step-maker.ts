import type { Sized } from "../notation/words";
import type { Span } from "../text/span";
import type { Below, More, View } from "./below";
import type { Cursor } from "./cursor";
import type { Goings } from "./goings";
import { forSize, type Instruction, type StartOption, type StitchUse, type Take } from "./instructions";
import { Sources } from "./sources";
import { countStitches, type Step, type StepLoop, type Steps } from "./steps";
import { everyPlace } from "./strip";

/** The instructions of one sort. */
export type Op<K extends Instruction["op"]> = Extract<Instruction, { op: K }>;

/** Makes the stitches, chains and groups of one row: its steps. */
export abstract class StepMaker {
  /** Goes along the places that are worked on now. */
  protected cursor: Cursor;
  protected readonly sources: Sources;
  protected steps: Steps[] = [];
  protected goings: Goings[] = [];
  /** Inside a group worked into one place: its name. */
  protected inPlace: string | null = null;
  protected outOfReach: string | null = null;
  /** Chains of the chain made last, while nothing came after it. */
  protected lastChain: number | null = null;
  /** A chain was made, and nothing but places passed under it since. */
  protected overChain = false;
  /** The chain made last, which may lie between two pieces. */
  protected bridge: Steps | null = null;
  protected placed = false;
  /** Where the steps of a counted opening chain begin, while nothing came after it. */
  protected opening: number | null = null;
  /** The group that the opening chain begins. */
  protected openingGroup: StepLoop | null = null;

  constructor(
    protected readonly below: Below,
    protected readonly reading: readonly number[],
    protected readonly size: number,
    protected readonly view: View,
    protected readonly more: More | null,
  ) {
    this.sources = new Sources(below, view);
    this.cursor = this.sources.own;
  }

  protected n(sized: Sized): number {
    return forSize(sized, this.size) ?? 0;
  }

  protected emit(step: Pick<Step, "kind" | "sort" | "n" | "span"> & Partial<Step>): void {
    if (step.n <= 0) return;
    // Field by field: all steps are objects of one shape.
    this.steps.push({
      kind: step.kind,
      sort: step.sort,
      n: step.n,
      at: step.at ?? this.cursor.at,
      uses: step.uses ?? 0,
      perPlace: step.perPlace ?? 1,
      chains: step.chains,
      halves: step.halves,
      unit: this.inPlace ?? step.unit,
      begins: step.begins,
      aside: step.aside,
      span: step.span,
    });
    this.lastChain = null;
    this.overChain = false;
    this.opening = null;
  }

  /** Makes `per` stitches in each of `places` places, of which each newly uses `uses`. */
  protected make(
    stitch: StitchUse,
    places: number,
    per: number,
    made: { at: number; uses: number; span: Span; unit?: string | undefined },
  ): void {
    const begins = groupName(stitch, this.inPlace === null ? per : 1);
    if (stitch.body) return this.makeGroups(stitch, places * per, made);
    const n = places * per * Math.max(stitch.makes, 1);
    const sort = stitch.makes === 0 ? "none" : "stitch";
    const perPlace = per * Math.max(stitch.makes, 1);
    const unit = made.unit ?? (perPlace >= smallestGroup ? "" : undefined);
    const { at, uses, span } = made;
    this.emit({ kind: stitch.kind, sort, n, at, uses, perPlace, unit, begins, span });
  }

  protected makeGroups(
    stitch: StitchUse,
    times: number,
    made: { at: number; uses: number; span: Span },
  ): void {
    const name = stitch.unit ?? stitch.kind;
    const body = this.collect(stitch.body ?? [], name);
    const perPlace = countStitches(body);
    const begins: Step = { kind: name, sort: "none", n: 1, perPlace, begins: name, ...made };
    this.steps.push({ steps: [begins, ...body], times, shift: made.uses, group: name });
    this.lastChain = this.opening = null;
    this.overChain = false;
  }

  protected begins({ name, span }: Op<"begins">): void {
    const at = this.cursor.at;
    this.steps.push({ kind: name, sort: "none", n: 1, at, uses: 0, perPlace: 1, span, begins: name });
  }

  /** What instructions make when all of them go into one place. */
  protected collect(body: readonly Instruction[], unit: string): Steps[] {
    const [steps, inPlace] = [this.steps, this.inPlace];
    this.steps = [];
    this.inPlace = unit;
    this.all(body);
    const made = this.steps;
    this.steps = steps;
    this.inPlace = inPlace;
    return made;
  }

  protected chain(n: number, span: Span): void {
    this.emit({ kind: "ch", sort: "space", n: 1, chains: n, span });
    this.lastChain = n;
    this.bridge = this.steps.at(-1) ?? null;
    this.sources.bridge = n;
  }

  protected start(instruction: Op<"start">): void {
    const option = instruction.options[this.reading[instruction.choice] ?? 0];
    if (!option) return;
    if (!option.counted) return this.startUncounted(option, instruction.span);
    const { at, used } = this.cursor;
    const isPlaced = this.placed || this.slippedIntoSpace;
    if (option.takesPlace && !this.below.ring && this.cursor.total > 0 && !isPlaced)
      this.cursor.take(1, everyPlace, "start");
    const uses = this.cursor.used - used;
    const opening = this.steps.length;
    this.emit({ kind: option.kind, sort: "stitch", n: 1, uses, at, span: instruction.span });
    if (option.space > 0) this.chain(option.space, instruction.span);
    this.opening = this.inPlace === null ? opening : null;
  }

  /** `sl st in next ch-1 sp, ch 3`: the chain stands in that space. */
  private get slippedIntoSpace(): boolean {
    const last = this.steps.at(-1);
    return last !== undefined && "kind" in last && last.kind === "sl st" && this.cursor.isBehindSpace;
  }

  /** The chain is a space, or a part of the stitch behind it. */
  protected startUncounted({ space, takesPlace }: StartOption, span: Span): void {
    if (space > 0) this.chain(space, span);
    if (takesPlace && this.cursor.total > 0) this.passOver(1, "next", span);
  }

  /** `inc 4 sts evenly`: more or fewer stitches, nobody says where. */
  protected change(by: number): void {
    const at = this.steps.findIndex((step) => "kind" in step && step.sort === "stitch");
    const step = this.steps[at];
    if (step && "kind" in step) this.steps.splice(at, 1, ...changed(step, by));
  }

  protected passOver(n: number, manner: "next" | "start", span: Span): void {
    const { at } = this.cursor;
    this.cursor.take(n, everyPlace, manner);
    this.emit({ kind: "skip", sort: "none", n, uses: 1, at, span });
  }

  /** `ch 3, 2 dc in same st`: the opening chain is the first stitch of that group. */
  protected joinsOpening(take: Take): boolean {
    if (this.opening === null || this.inPlace !== null) return false;
    if (take.how === "same") return true;
    // `ch 5 (dc and ch 2), sc in first lp`: the loop behind the stitch that the chain stands for.
    const isBeyond = take.how === "next" && take.of.sort === "space" && this.endsInChain;
    return take.how === "next" && take.first === true && this.cursor.underStart && !isBeyond;
  }

  protected groupFrom(opening: number, span: Span): void {
    const body = this.steps.splice(opening).flatMap(unnamed);
    const at = this.cursor.at;
    const group: Step = {
      kind: "group",
      sort: "none",
      n: 1,
      at,
      uses: 0,
      perPlace: countStitches(body),
      span,
      begins: "group",
    };
    const begins = body.some(hasName) ? [] : [group];
    this.openingGroup = { steps: [...begins, ...body], times: 1, shift: 0, group: "" };
    this.steps.push(this.openingGroup);
  }

  /** `…, 2 dc in first loop, join`: the place that the round began in gets the rest of its group. */
  protected makeInOpening(
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
      "begins" in step && step.begins !== undefined && step.sort === "none"
        ? { ...step, perPlace: step.perPlace + per }
        : step,
    );
    this.openingGroup = { ...this.openingGroup, steps };
    this.steps[at] = this.openingGroup;
  }

  protected get endsInChain(): boolean {
    const last = this.steps.findLast((step) => "steps" in step || step.sort !== "none");
    return last !== undefined && "sort" in last && last.sort === "space";
  }

  abstract all(instructions: readonly Instruction[]): void;
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

function groupName(stitch: StitchUse, per: number): string | undefined {
  if (stitch.begins) return stitch.begins;
  if (stitch.special) return stitch.kind;
  return per > 1 ? "group" : undefined;
}

/** So many stitches more, in places that have one; or fewer, each over two places. */
function changed(step: Step, by: number): Step[] {
  if (by >= 0) return [step, { ...step, n: by, uses: 0 }];
  const single = step.n + 2 * by;
  if (single < 0) return [{ ...step, n: step.n + by }];
  return [
    { ...step, n: single },
    { ...step, n: -by, at: step.at + single, uses: 2 * step.uses },
  ];
}
