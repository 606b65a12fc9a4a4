import type { Sized } from "../notation/words";
import { say } from "../text/say";
import { stitchOf, type Terms } from "../trade/stitches";
import type { BindContext } from "./bind";
import {
  type Choice,
  type Instruction,
  type RowPlan,
  type StartOption,
  takesIn,
  targetsOf,
} from "./instructions";

export interface Declared {
  readonly from: number;
  readonly counts: "yes" | "no";
  readonly space: number;
  readonly kind: string | null;
}

/** The chain that opens the row, with what it may be; brackets round the opening are looked into. */
export function openRow(
  all: readonly Instruction[],
  choices: Choice[],
  declared: Declared | null,
  context: BindContext,
): Instruction[] {
  const at = all.findIndex(
    (instruction) =>
      !["turn", "mark", "slip", "unknown", "other-side", "onto", "begins"].includes(instruction.op),
  );
  const first = all[at];
  if (!first) return [...all];
  if (first.op === "chain") {
    if (fromHookNext(all.slice(at + 1))) return [...all];
    const start = startOf(first, all.slice(0, at), all.slice(at + 1), choices, declared, context);
    return start ? missedUnder(all.with(at, start), at, choices) : [...all];
  }
  if (first.op === "group" && opensWhereItSlipped(first, all.slice(0, at)))
    return openRow(
      all.with(at, { ...first, takes: [{ how: "same", inSpace: true }] }),
      choices,
      declared,
      context,
    );
  const beginsThere =
    first.op === "group" && first.takes.some(({ how }) => how === "same" || how === "nowhere");
  if (first.op === "group" && (beginsThere || slipsIn(first))) {
    // In the place that the row begins in, the chain is a leg of the group; else it is as in any row.
    const isLeg = first.takes.some(({ how }) => how === "same");
    const asLeg: Declared | null = isLeg ? { from: 0, counts: "yes", space: 0, kind: null } : null;
    const body = openRow(first.body, choices, declared ?? asLeg, context);
    return all.map((instruction, i) => (i === at ? { ...first, body } : instruction));
  }
  return [...all];
}

/** `3 ch, miss 1 tr, 1 tr into next tr`: the one that is missed may be that under the chain. */
function missedUnder(all: readonly Instruction[], start: number, choices: Choice[]): Instruction[] {
  const at = all.findIndex(({ op }, i) => i > start && op !== "turn");
  const skip = all[at];
  const [take] = skip?.op === "skip" ? skip.takes : [];
  const isOne = take?.how === "next" && take.unplaced && take.of.sort === "stitch" && `${take.n}` === "1";
  if (skip?.op !== "skip" || !isOne) return [...all];
  const options = [
    say`the stitch that is missed is the next one`,
    say`the stitch that is missed is under the chain`,
  ];
  const choice = choices.push({ options, costs: [0, 0.3] }) - 1;
  const under: Instruction = { ...skip, takes: [{ ...take, first: true }] };
  return all.with(at, { op: "either", choice, options: [[skip], [under]], span: skip.span });
}

/** `ss to first corner sp, (3ch, 2tr, 2ch, 3tr) into corner sp`: the space that the slip stitches led to. */
function opensWhereItSlipped(
  group: Extract<Instruction, { op: "group" }>,
  before: readonly Instruction[],
): boolean {
  const [take] = group.takes;
  const slip = before.findLast(({ op }) => op === "slip");
  return (
    group.body[0]?.op === "chain" &&
    take?.how === "next" &&
    take.bare === true &&
    slip !== undefined &&
    takesIn([slip]).some((one) => targetsOf(one).some(({ sort }) => sort === "space"))
  );
}

/** `(sl st, ch 3, 2 dc, ch 2, 3 dc) in next sp`: the slip stitch leads the chain there. A petal goes up and down again. */
function slipsIn({ body, takes }: Extract<Instruction, { op: "group" }>): boolean {
  const isOne = takes.every((take) => take.how === "next" && `${take.n}` === "1");
  return isOne && body[0]?.op === "slip" && body[1]?.op === "chain" && body.at(-1)?.op !== "slip";
}

export function fromHookNext(rest: readonly Instruction[]): boolean {
  const next = rest.find((instruction) => instruction.op !== "turn");
  if (!next) return true;
  if (next.op === "begin-at") return true;
  if (next.op === "group" || next.op === "work" || next.op === "slip" || next.op === "skip")
    return next.takes.some((take) => take.how === "from-hook");
  return next.op === "repeat" ? fromHookNext(next.body) : false;
}

export function firstKind(all: readonly Instruction[]): string | null {
  for (const instruction of all) {
    if (instruction.op === "either") return firstKind(instruction.options[0] ?? []);
    if (instruction.op === "work")
      return instruction.stitch.body ? firstKind(instruction.stitch.body) : instruction.stitch.kind;
    if (instruction.op === "repeat" || instruction.op === "group") {
      const kind = firstKind(instruction.body);
      if (kind) return kind;
    }
  }
  return null;
}

function startOf(
  chain: Extract<Instruction, { op: "chain" }>,
  before: readonly Instruction[],
  rest: readonly Instruction[],
  choices: Choice[],
  declared: Declared | null,
  context: BindContext,
): Instruction | null {
  const n = chain.n[0] ?? 0;
  // Among slip stitches alone a chain is a loop.
  if (firstKind(rest) === null && rest.some(isSlipping) && (n > 1 || !rest.some(slipsAlong))) return null;
  const kind = declared?.kind ?? tallKind(firstKind(rest) ?? "", n, context);
  const usual = startWays(n, kind, declared, context);
  if (usual === null) return null;
  const all = withTall(n, asMesh(usual, rest), declared, context);
  // "hdc in first st" gives the first place its own stitch.
  const inFirst =
    n <= 2 &&
    all.length > 1 &&
    declared === null &&
    !context.conventions.startCounts.get(n) &&
    startsInFirst(rest);
  const unsaid = declared === null && !context.conventions.startCounts.has(n);
  const ways = opensBlock(rest)
    ? [{ ...asSpace(n, kind), cost: 0 }]
    : inFirst
      ? all.filter((way) => !way.option.counted)
      : unsaid && opensCluster(rest)
        ? [inCluster(n, kind), ...all.map((way) => ({ ...way, cost: way.cost + 1 }))]
        : [...all, ...onLastSlip(all, before)];
  choices.push({
    options: ways.map((way) => way.says),
    costs: ways.map((way) => way.cost),
    about: { chains: n },
    habit: startHabit(
      n,
      ways.map((way) => way.option),
    ),
  });
  return {
    op: "start",
    n: chain.n,
    choice: choices.length - 1,
    options: ways.map((way) => way.option),
    span: chain.span,
  };
}

/** A pattern lets chains of one length count as a stitch, or not, throughout. */
export function startHabit(n: number, options: readonly StartOption[]): NonNullable<Choice["habit"]> {
  return { topic: `ch ${n} at the start`, means: options.map(({ counted }) => `${counted}`) };
}

/** `ch 2, dc4tog over next 4 dc, *…, dc5tog over next 5 dc`: the chain is the fifth leg of the first cluster. */
function opensCluster(rest: readonly Instruction[]): boolean {
  const [first, ...others] = worksIn(rest).map(({ stitch }) => stitch.uses);
  const together = others.filter((uses) => uses > 1);
  return (
    first !== undefined && first > 1 && together.length > 0 && together.every((uses) => uses === first + 1)
  );
}

function worksIn(list: readonly Instruction[]): Extract<Instruction, { op: "work" }>[] {
  return list.flatMap((one) => {
    if (one.op === "repeat" || one.op === "group") return worksIn(one.body);
    return one.op === "work" ? [one] : [];
  });
}

function inCluster(n: number, kind: string): Way {
  const option = { counted: false, takesPlace: true, kind, space: 0 };
  return { option, says: say`the ch ${n} at the start is part of the first cluster`, cost: 0 };
}

/** `sl st in next ch-3 sp, ch 3, 3 dc in same sp`, over and over: what opens the row is a block like those behind it. */
function opensBlock(rest: readonly Instruction[]): boolean {
  const [first] = rest.filter(({ op }) => op !== "turn");
  const inSame = first?.op === "work" && first.takes.some((take) => take.how === "same");
  return inSame && rest.some(slipsIntoSpace);
}

export function slipsIntoSpace(instruction: Instruction): boolean {
  if (instruction.op === "repeat") return instruction.body.some(slipsIntoSpace);
  const slips = instruction.op === "group" && instruction.body.some(({ op }) => op === "slip");
  if (instruction.op !== "slip" && !slips) return false;
  return instruction.takes.flatMap(targetsOf).some(({ sort }) => sort === "space");
}

/** `ss over first 5 sts, 3ch`: the chain may stand on the last of the five. */
function onLastSlip(ways: readonly Way[], before: readonly Instruction[]): Way[] {
  if (!before.some(({ op }) => op === "slip")) return [];
  return ways
    .filter(({ option }) => option.counted && option.takesPlace)
    .map(({ option, says, cost }) => ({
      option: { ...option, takesPlace: false },
      says: say`${says} and stands on the last slip stitch`,
      cost: cost + 0.3,
    }));
}

/** `ch 4 (counts as dc and ch 1)`, said in another row. */
function withTall(n: number, usual: Way[], declared: Declared | null, { conventions }: BindContext): Way[] {
  const tall = declared === null ? conventions.tallStarts.get(n) : undefined;
  if (!tall) return usual;
  const says = say`the ch ${n} at the start counts as a ${tall.kind} and a ch-${tall.space} space`;
  const option = { counted: true, takesPlace: true, ...tall };
  return [{ option, says, cost: 0 }, ...usual.map((way) => ({ ...way, cost: way.cost + 0.2 }))];
}

/** `Ch 5, dc in next dc, *ch 2, dc in next dc`: the chains beyond a dc are a space like those behind it, and the dc is one. */
function asMesh(usual: Way[], rest: readonly Instruction[]): Way[] {
  const space = usual[0]?.option.space ?? 0;
  return space > 0 && usual[0]?.option.counted && hasChain(rest, space)
    ? usual.filter(({ option }) => option.counted)
    : usual;
}

export function hasChain(list: readonly Instruction[], n: number): boolean {
  return list.some((one) =>
    one.op === "repeat" ? hasChain(one.body, n) : one.op === "chain" && one.n[0] === n,
  );
}

function isSlipping(instruction: Instruction): boolean {
  return instruction.op === "repeat" ? instruction.body.some(isSlipping) : instruction.op === "slip";
}

/** `ch 1, sl st across`: a run of slip stitches is turned into like any other. */
function slipsAlong(instruction: Instruction): boolean {
  return instruction.op === "slip" && instruction.takes.some(({ how }) => how === "each");
}

export interface Way {
  readonly option: StartOption;
  readonly says: string;
  readonly cost: number;
}

/** A tall chain that is said to count stands for no low stitch, whichever comes behind it. */
function tallKind(first: string, n: number, { terms, conventions }: BindContext): string {
  const kind = plainKind(first, n, terms);
  const isLow = (stitchOf(kind, terms)?.turningChain ?? 0) <= 1;
  return n > 2 && isLow && conventions.startCounts.get(n) ? kindOfHeight(3, terms) : kind;
}

/** The opening chain stands for a plain stitch: a post stitch's, a puff's, by its height. */
function plainKind(kind: string, n: number, terms: Terms): string {
  return stitchOf(kind, terms)?.family === "plain" ? kind : kindOfHeight(n, terms);
}

function startWays(n: number, kind: string, declared: Declared | null, context: BindContext): Way[] | null {
  const height = stitchOf(kind, context.terms)?.turningChain || (n <= 2 ? 1 : 3);
  const space = declared?.space || (declared === null && n > height && height > 1 ? n - height : 0);
  const way = (counted: boolean, takesPlace: boolean, cost: number): Way => ({
    option: { counted, takesPlace, kind, space },
    says: say`the ch ${n} at the start ${counted ? say`counts as a ${kind}` : say`does not count as a stitch`}`,
    cost,
  });
  if (declared && declared.from < 0) return [way(true, false, 0)];
  const said = declared ? declared.counts === "yes" : (context.conventions.startCounts.get(n) ?? null);
  if (said === true) return [way(true, true, 0)];
  if (said === false) return [way(false, false, 0)];
  const habit = context.conventions.habits.get(n);
  if (habit === true && (n > 1 || height > 1)) return [way(true, true, 0), way(false, false, 1)];
  if (habit === false) return [way(false, false, 0)];
  if (n === 1) return [way(false, false, 0)];
  if (height <= 1 && n > 2) return null;
  if (height <= 1) return [way(false, false, 0)];
  if (n < height) return [way(false, false, 0), way(true, true, 1)];
  if (n === 2) return [way(true, true, 0), way(false, false, 0)];
  return [way(true, true, 0), way(false, false, 1)];
}

function kindOfHeight(n: number, terms: Terms): string {
  const us = ["sc", "sc", "hdc", "dc", "tr", "dtr"][Math.min(n, 5)] as string;
  return terms === "US" ? us : (stitchOf(us, "US")?.uk ?? us);
}

/** `sc in first st` is worked once. */
export function isInFirst(instruction: Instruction): boolean {
  return (
    "takes" in instruction && instruction.takes.some((take) => take.how === "next" && take.first === true)
  );
}

/** The chain at the end of the row before, as the start of this one. */
export interface CarriedChain {
  readonly options: readonly StartOption[];
  readonly says: readonly string[];
  readonly costs: readonly number[];
}

export function carriedChain(
  n: Sized,
  rest: readonly Instruction[],
  declared: RowPlan["carriedDeclared"],
  context: BindContext,
): CarriedChain | null {
  const kind = plainKind(firstKind(rest) ?? "", n[0] ?? 1, context.terms);
  const ways = startWays(
    n[0] ?? 0,
    kind,
    declared && { from: 0, counts: declared.counts, space: declared.space, kind: null },
    context,
  );
  return (
    ways && {
      options: ways.map((way) => way.option),
      says: ways.map((way) => way.says),
      costs: ways.map((way) => way.cost),
    }
  );
}

function startsInFirst(rest: readonly Instruction[]): boolean {
  const first = rest.find((instruction) => instruction.op === "work");
  const [take] = first?.op === "work" ? first.takes : [];
  return take?.how === "next" && take.first === true;
}

/** Corner to corner, the chains that a block begins with are what the next row is worked into. */
export function asSpace(n: number, kind: string): Way {
  return {
    option: { counted: false, takesPlace: false, kind, space: n },
    says: say`the ${n} chains before it are a ch-${n} space`,
    cost: 1,
  };
}
