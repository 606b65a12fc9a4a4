import type { Sized } from "../notation/words";
import { stitchOf, type Terms } from "../trade/stitches";
import type { BindContext } from "./bind";
import {
  type Choice,
  type EachRun,
  type Instruction,
  piecesIn,
  type RowPlan,
  type StartOption,
  type Take,
  takesIn,
  targetsOf,
} from "./instructions";
import { inOnePlace } from "./one-place";

export interface Declared {
  readonly from: number;
  readonly counts: "yes" | "no";
  readonly space: number;
  readonly kind: string | null;
}

type WorkRun = Extract<Instruction, { op: "work" }>;
type Rest = Pick<RowPlan, "instructions" | "choices" | "carried" | "carriedDeclared" | "foundation">;

/**
 * What only a whole row can tell: the chain that opens it, the chain at its end that opens the next
 * one, and a line without marks that is worked over and over.
 */
export function rowChoices(
  bound: readonly Instruction[],
  choices: Choice[],
  declared: Declared | null,
  context: BindContext,
): Rest {
  const whole = leavingRest(shapedAtEnds(withoutRing(inOnePlace(bound, choices))), choices);
  const all = withRoundEnd(reserveLast(withEnding(sideBySide(whole), choices)), choices);
  const { kept: withStart, carried } = splitCarried(all);
  const { kept, foundation } = splitFoundation(withStart);
  const late = declared !== null && carried.length > 0 && declared.from > (carried[0]?.span.start ?? 0);
  const onChain = skippedChains(kept, foundation, choices, late ? null : declared, context);
  const opened =
    onChain ?? (joinsPieces(kept) ? kept : openRow(kept, choices, late ? null : declared, context));
  return {
    instructions: piecesIn(opened).length > 0 ? opened : withLoneLine(opened, choices),
    choices,
    carried,
    foundation,
    carriedDeclared: late ? declared.counts : null,
  };
}

/** `Ch 4, join into a ring, ch 3, 11 dc into ring`: the ring is no part of the round. */
function withoutRing(all: readonly Instruction[]): readonly Instruction[] {
  const at = all.findIndex(({ op }) => op === "ring");
  const isMade =
    at > 0 && at < all.length - 1 && all.slice(0, at).every(({ op }) => op === "chain" || op === "mark");
  return isMade ? all.slice(at + 1) : all.filter(({ op }) => op !== "ring");
}

/** Stitches before the end that a row may stop short of although it does not say that it leaves them. */
const leastLeft = 3;

/** `sc in each st to last 4 sts, turn`, `until 4 sts remain`: nothing follows, so they are left. */
function leavingRest(all: readonly Instruction[], choices: Choice[]): readonly Instruction[] {
  const at = all.findLastIndex((one) => takesIn([one]).length > 0);
  const run = all[at];
  const take = run?.op === "work" ? run.takes.at(-1) : undefined;
  if (!run || take?.how !== "each" || take.until === null || take.until === "marked" || !("n" in take.until))
    return all;
  const rest: Take = { how: "each", of: [{ sort: "stitch" }], until: null };
  const leave: Instruction = { op: "skip", takes: [rest], span: run.span };
  if (take.until.remain) return all.toSpliced(at + 1, 0, leave);
  const turns = all.slice(at).some(({ op }) => op === "turn");
  if (!turns || take.until.n.some((n) => (n ?? leastLeft) < leastLeft)) return all;
  const left = take.until.n.join("/");
  const choice =
    choices.push({
      options: [
        `the row goes on over the last ${left} stitches`,
        `the last ${left} stitches are left unworked`,
      ],
      costs: [0, 0.5],
    }) - 1;
  return all.toSpliced(at + 1, 0, { op: "either", choice, options: [[], [leave]], span: run.span });
}

/** `ch 2, join to first leg, … 2 sc on chain`: the chain that opens the row lies between two pieces. */
function joinsPieces(all: readonly Instruction[]): boolean {
  const onChain = takesIn(all).some((take) => targetsOf(take).some(({ sort }) => sort === "chain"));
  return onChain && piecesIn(all).length > 0;
}

/** `inc 1 st at each end, sc across`: the run over the row, with its first and last stitches shaped. */
function shapedAtEnds(all: readonly Instruction[]): readonly Instruction[] {
  const ends = all.find((one) => one.op === "ends");
  const run = all.find((one): one is WorkRun => one.op === "work" && one.takes[0]?.how === "each");
  if (ends?.op !== "ends" || !run) return all;
  const { more, n, span } = ends;
  const { stitch } = run;
  const shaped = more > 0 ? stitch : { ...stitch, uses: 1 - more };
  const atEnd = (how: "next" | "last"): Instruction => ({
    op: "work",
    stitch: shaped,
    per: [more > 0 ? 1 + more : 1],
    takes: [{ how, n, of: { sort: "stitch" } }],
    span,
  });
  const until = { n: n.map((times) => (times ?? 0) * shaped.uses), of: { sort: "stitch" as const } };
  const takes = run.takes.map((take) => (take.how === "each" ? { ...take, until } : take));
  const whole = [atEnd("next"), { ...run, takes }, atEnd("last")];
  return all.flatMap((one) => (one === ends ? [] : one === run ? whole : [one]));
}

/** `sc in each dc and 3 sc in each corner sp around`: runs over the same stretch, for different places. */
function sideBySide(all: readonly Instruction[]): readonly Instruction[] {
  const out: Instruction[] = [];
  for (let i = 0; i < all.length; i++) {
    const runs = runsFrom(all, i);
    const [first] = runs;
    if (!first || runs.length < 2) {
      out.push(all[i] as Instruction);
      continue;
    }
    const last = runs.at(-1)?.takes[0];
    out.push({ op: "whichever", runs, until: last?.how === "each" ? last.until : null, span: first.span });
    i += runs.length - 1;
  }
  return out;
}

/** `sc in each dc, 3 sc in ch-2 sp`: the space lies somewhere among the stitches. */
function wherever(run: EachRun, before: number): Take | undefined {
  const [take] = run.takes;
  const among = before > 0 && take?.how === "next" && take.bare === true && take.of.sort === "space";
  return among ? { how: "each", of: [take.of], until: null } : take;
}

function runsFrom(all: readonly Instruction[], from: number): EachRun[] {
  const runs: EachRun[] = [];
  const sorts = new Set<string>();
  for (const instruction of all.slice(from)) {
    if (instruction.op !== "work" && instruction.op !== "group") break;
    const take = wherever(instruction, runs.length);
    if (instruction.takes.length !== 1 || take?.how !== "each") break;
    const own = take.of.map(
      (target) => `${target.sort}${target.chains ?? ""}${target.corner ? "c" : ""}${target.part ?? ""}`,
    );
    if (own.every((sort) => sorts.has(sort)) || (take.until !== null && runs.length === 0)) break;
    for (const sort of own) sorts.add(sort);
    runs.push({ ...instruction, takes: [take] });
  }
  return runs;
}

/** `…; rep from * around, ending with sc in last st`: what ends the last pass belongs to the repeat. */
function withEnding(all: readonly Instruction[], choices: Choice[]): readonly Instruction[] {
  const at = all.findIndex((instruction) => instruction.op === "ending");
  const repeat = all[at - 1];
  if (at < 0) return all;
  if (repeat?.op !== "repeat") return all.filter((instruction) => instruction.op !== "ending");
  const behind = all.slice(at + 1).filter((instruction) => instruction.op !== "ending");
  const { omits } = all[at] as Extract<Instruction, { op: "ending" }>;
  if (omits) {
    const choice =
      choices.push({ options: ["the last part is left out of the last repeat"], costs: [0] }) - 1;
    const ending = { with: [], choice, keeps: [repeat.body.length - 1] };
    return [...all.slice(0, at - 1), { ...repeat, ending }, ...behind];
  }
  const keeps = repeat.body.map((_, i) => i);
  const options = keeps.map((n) =>
    n === 0
      ? "the ending follows the last whole repeat"
      : `the ending takes the place of all but the first ${n} parts of the last repeat`,
  );
  const usual = likeness(repeat.body, behind);
  const choice = choices.push({ options, costs: keeps.map((n) => (n === usual ? 0 : 0.1)) }) - 1;
  return [...all.slice(0, at - 1), { ...repeat, ending: { with: reserveLast(behind), choice, keeps } }];
}

/** `sc in first sp, *ch 5, sc in next sp; rep from * around, join`: the last ch 5 may lead to the sc that began the round. */
function withRoundEnd(all: readonly Instruction[], choices: Choice[]): readonly Instruction[] {
  return all.map((repeat, i) => {
    if (repeat.op !== "repeat" || repeat.ending || repeat.cut !== undefined) return repeat;
    if (repeat.times.how !== "to-end" || repeat.times.until !== null || repeat.body.length < 2) return repeat;
    const last = repeat.body.at(-1);
    const began = firstKind(all.slice(0, i));
    if (!last || began === null || firstKind([last]) !== began || all.slice(i + 1).some(isWork))
      return repeat;
    const options = ["the last repeat is worked whole", "the last repeat ends where the round began"];
    const choice = choices.push({ options, costs: [0, 0.5] }) - 1;
    return { ...repeat, ending: { with: [], choice, keeps: [0, repeat.body.length - 1], inRounds: true } };
  });
}

function isWork({ op }: Instruction): boolean {
  return op === "work" || op === "group" || op === "repeat" || op === "either";
}

/** How many parts of a repeat come before the one that its ending begins like; 0 where it begins like none or several. */
function likeness(body: readonly Instruction[], ending: readonly Instruction[]): number {
  const [first] = ending;
  const like = body.flatMap((part, i) => (first && saysOf(part) === saysOf(first) ? [i] : []));
  return like.length === 1 ? (like[0] ?? 0) : 0;
}

/** What an instruction makes, wherever it is worked. */
function saysOf(instruction: Instruction): string {
  switch (instruction.op) {
    case "work":
      return `${instruction.per} ${instruction.stitch.kind}`;
    case "chain":
      return `ch ${instruction.n}`;
    case "group":
    case "repeat":
      return `(${instruction.body.map(saysOf)})`;
    default:
      return instruction.op;
  }
}

/** `dc in each dc across, dc in top of turning ch`: the run stops where the last stitch has its own place. */
function reserveLast(all: readonly Instruction[]): readonly Instruction[] {
  return all.map((instruction, i) => {
    if (instruction.op !== "work") return instruction;
    const last = lastsIn(all.slice(i + 1));
    if (last === null) return instruction;
    return {
      ...instruction,
      takes: instruction.takes.map((take) => reserving(take, last)),
    };
  });
}

function reserving(take: Take, last: Sized): Take {
  if (take.how === "last") return { ...take, before: last };
  return take.how === "each" && take.until === null
    ? { ...take, until: { n: last, of: { sort: "stitch" } } }
    : take;
}

function lastsIn(rest: readonly Instruction[]): Sized | null {
  for (const instruction of rest) {
    if (instruction.op === "other-side") return null;
    if (instruction.op !== "work" && instruction.op !== "group" && instruction.op !== "skip") continue;
    const [take] = instruction.takes;
    return take?.how === "last" && take.of.sort === "stitch" && instruction.takes.length === 1
      ? take.n
      : null;
  }
  return null;
}

/** `…, ch 1, turn.` at the end: the chain belongs to the next row. */
function splitCarried(all: readonly Instruction[]): {
  kept: readonly Instruction[];
  carried: readonly Instruction[];
} {
  const [turn, chain] = [all.at(-1), all.at(-2)];
  if (all.length > 2 && turn?.op === "turn" && chain?.op === "chain")
    return { kept: all.slice(0, -2), carried: [chain] };
  return { kept: all, carried: [] };
}

/** `Ch 13, sc in 2nd ch from hook…`: the row makes its own starting chain. */
function splitFoundation(all: readonly Instruction[]): {
  kept: readonly Instruction[];
  foundation: Sized | null;
} {
  const at = all.findIndex((instruction) => !["mark", "unknown", "begins", "turn"].includes(instruction.op));
  const first = all[at];
  if (first?.op !== "chain" || all.length === at + 1 || !fromHookNext(all.slice(at + 1)))
    return { kept: all, foundation: null };
  return { kept: all.filter((_, i) => i !== at), foundation: first.n };
}

/** `dc in 4th ch from hook`: the chains before it may be a stitch, and a space in a mesh. */
function skippedChains(
  all: readonly Instruction[],
  foundation: Sized | null,
  choices: Choice[],
  declared: Declared | null,
  context: BindContext,
): Instruction[] | null {
  const n = firstFromHook(all);
  if (n === null) return null;
  const kind = declared?.kind ?? firstKind(all) ?? "sc";
  const usual = skippedWays(n - 1, kind, firstChain(all), declared, context);
  const isBlock = foundation !== null && (foundation[0] ?? 0) <= longestBlock && n > 2;
  const block = asSpace(n - 1, kind);
  const ways =
    isBlock && declared === null
      ? explainsBlocks(context) || all.some(slipsIntoSpace)
        ? [{ ...block, cost: 0 }]
        : [...usual, block]
      : usual;
  choices.push({ options: ways.map((way) => way.says), costs: ways.map((way) => way.cost) });
  return [
    {
      op: "start",
      n: [n - 1],
      choice: choices.length - 1,
      options: ways.map((way) => way.option),
      span: all[0]?.span ?? { start: 0, end: 0 },
    },
    ...all,
  ];
}

/** Whether the pattern explains a block as joined by a slip stitch to the next one. */
function explainsBlocks({ definitions }: BindContext): boolean {
  return [...definitions.values()].some(({ sequence }) => sequence?.some(slipsIntoSpace) ?? false);
}

/** Chains of a block that a row begins with: `ch 6, dc in 4th ch from hook and in next 2 ch`. */
const longestBlock = 8;

/** Corner to corner, the chains that a block begins with are what the next row is worked into. */
function asSpace(n: number, kind: string): Way {
  return {
    option: { counted: false, takesPlace: false, kind, space: n },
    says: `the ${n} chains before it are a ch-${n} space`,
    cost: 1,
  };
}

function skippedWays(
  n: number,
  kind: string,
  chain: number,
  declared: Declared | null,
  context: BindContext,
): Way[] {
  const height = stitchOf(kind, context.terms)?.turningChain || 1;
  const way = (counted: boolean, space: number, cost: number): Way => ({
    option: { counted, takesPlace: false, kind, space },
    says: counted
      ? `the ${n} skipped chains count as a ${kind}${space ? ` and a ch-${space} space` : ""}`
      : "the skipped chains do not count as a stitch",
    cost,
  });
  if (declared) return [way(declared.counts === "yes", declared.counts === "yes" ? declared.space : 0, 0)];
  if (n < height || n <= 1) return [way(false, 0, 0)];
  if (n > height + 1 || (n > height && chain > 0))
    return [way(true, chain > 0 ? chain : n - height, 0), way(true, 0, 1), way(false, 0, 1)];
  if (height <= 1) return [way(false, 0, 0), way(true, 0, 1)];
  if (height === 2) {
    const noted = context.conventions.startCounts.get(n);
    return [way(true, 0, noted === false ? 1 : 0), way(false, 0, noted === true ? 1 : 0)];
  }
  return [way(true, 0, 0), way(false, 0, 1)];
}

function firstFromHook(all: readonly Instruction[]): number | null {
  for (const instruction of all) {
    if (instruction.op === "chain" || instruction.op === "other-side") return null;
    if (instruction.op === "begin-at") return null;
    if ("body" in instruction) {
      const n = firstFromHook(instruction.body);
      if (n !== null) return n;
    }
    if (!("takes" in instruction)) continue;
    const take = instruction.takes.find((one) => one.how === "from-hook");
    if (take?.how === "from-hook") return take.n[0] ?? null;
    if (instruction.op === "work" || instruction.op === "group") return null;
  }
  return null;
}

function firstChain(all: readonly Instruction[]): number {
  for (const instruction of all) {
    if (instruction.op === "chain") return instruction.n[0] ?? 0;
    if (instruction.op === "repeat") {
      const n = firstChain(instruction.body);
      if (n > 0) return n;
    }
  }
  return 0;
}

/** The chain that opens the row, with what it may be; brackets round the opening are looked into. */
function openRow(
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
    return start ? all.map((instruction, i) => (i === at ? start : instruction)) : [...all];
  }
  if (first.op === "group" && first.takes.some(({ how }) => how === "same" || how === "nowhere")) {
    // In the place that the row begins in, the chain is a leg of the group; in a ring it is as in any round.
    const isLeg = first.takes.some(({ how }) => how === "same");
    const asLeg: Declared | null = isLeg ? { from: 0, counts: "yes", space: 0, kind: null } : null;
    const body = openRow(first.body, choices, declared ?? asLeg, context);
    return all.map((instruction, i) => (i === at ? { ...first, body } : instruction));
  }
  return [...all];
}

function fromHookNext(rest: readonly Instruction[]): boolean {
  const next = rest.find((instruction) => instruction.op !== "turn");
  if (!next) return true;
  if (next.op === "begin-at") return true;
  if (next.op === "group" || next.op === "work" || next.op === "slip" || next.op === "skip")
    return next.takes.some((take) => take.how === "from-hook");
  return next.op === "repeat" ? fromHookNext(next.body) : false;
}

function firstKind(all: readonly Instruction[]): string | null {
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
  if (firstKind(rest) === null && rest.some(isSlipping)) return null;
  const kind = declared?.kind ?? plainKind(firstKind(rest) ?? "", n, context.terms);
  const all = startWays(n, kind, declared, context);
  if (all === null) return null;
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
  return { option, says: `the ch ${n} at the start is part of the first cluster`, cost: 0 };
}

/** `sl st in next ch-3 sp, ch 3, 3 dc in same sp`, over and over: what opens the row is a block like those behind it. */
function opensBlock(rest: readonly Instruction[]): boolean {
  const [first] = rest.filter(({ op }) => op !== "turn");
  const inSame = first?.op === "work" && first.takes.some((take) => take.how === "same");
  return inSame && rest.some(slipsIntoSpace);
}

function slipsIntoSpace(instruction: Instruction): boolean {
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
      says: `${says} and stands on the last slip stitch`,
      cost: cost + 0.3,
    }));
}

function isSlipping(instruction: Instruction): boolean {
  return instruction.op === "repeat" ? instruction.body.some(isSlipping) : instruction.op === "slip";
}

interface Way {
  readonly option: StartOption;
  readonly says: string;
  readonly cost: number;
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
    says: `the ch ${n} at the start ${counted ? `counts as a ${kind}` : "does not count as a stitch"}`,
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
function isInFirst(instruction: Instruction): boolean {
  return (
    "takes" in instruction && instruction.takes.some((take) => take.how === "next" && take.first === true)
  );
}

/** A line with no mark and no word on how often is worked once, or over and over to the end. */
function withLoneLine(all: readonly Instruction[], choices: Choice[]): Instruction[] {
  const from = all.findIndex(
    (instruction) => !["turn", "start", "mark", "unknown", "begin-at", "begins"].includes(instruction.op),
  );
  if (from < 0) return [...all];
  const body = all.slice(from).filter((instruction) => instruction.op !== "turn");
  const reach = body.map((instruction) => reaches(instruction));
  const last = body.at(-1);
  const againAt = body.findIndex(
    (instruction) => instruction.op === "repeat" && instruction.body.length === 0,
  );
  if (againAt > 0) {
    const again = body[againAt] as Extract<Instruction, { op: "repeat" }>;
    return [...all.slice(0, from), { ...again, body: body.slice(0, againAt) }, ...body.slice(againAt + 1)];
  }
  if (
    body.some((instruction) => ["slip", "other-side", "unknown", "change"].includes(instruction.op)) ||
    body.slice(0, -1).some(isInFirst) ||
    body.some(startsOnChain)
  )
    return [...all];
  const span = { start: body[0]?.span.start ?? 0, end: last?.span.end ?? 0 };
  if (reach.slice(0, -1).some((r) => r !== "some")) return [...all];
  if (
    reach.at(-1) === "all" &&
    body.length > 1 &&
    last?.op === "work" &&
    body.slice(0, -1).some((instruction) => instruction.op === "work")
  ) {
    const choice =
      choices.push({
        options: ["only the last part is repeated", "the whole line is repeated"],
        costs: [0, 1],
      }) - 1;
    const unit: Instruction = {
      op: "repeat",
      body: [...body.slice(0, -1), onceOnly(last)],
      times: { how: "to-end", until: null },
      span,
    };
    return [...all.slice(0, from), { op: "either", choice, options: [body, [unit]], span }];
  }
  if (reach.at(-1) !== "some" || !body.some((instruction) => instruction.op === "work")) return [...all];
  const choice =
    choices.push({ options: ["the line is worked once", "the line is repeated to the end"], costs: [0, 1] }) -
    1;
  const unit: Instruction = { op: "repeat", body, times: { how: "to-end", until: null }, span };
  return [...all.slice(0, from), { op: "either", choice, options: [body, [unit]], span }];
}

function startsOnChain(instruction: Instruction): boolean {
  return (
    instruction.op === "work" &&
    instruction.takes.some((take) => take.how === "from-hook" || take.how === "nowhere")
  );
}

function onceOnly(instruction: Extract<Instruction, { op: "work" }>): Instruction {
  return {
    ...instruction,
    takes: [
      {
        how: "next",
        n: [1],
        of:
          instruction.takes[0]?.how === "each"
            ? (instruction.takes[0].of[0] ?? { sort: "stitch" })
            : { sort: "stitch" },
      },
    ],
  };
}

/** How far an instruction goes: over places it counts, to the end, or over places that only it names. */
function reaches(instruction: Instruction): "some" | "all" | "fixed" {
  if (instruction.op === "repeat") return "fixed";
  if (instruction.op !== "work" && instruction.op !== "group" && instruction.op !== "skip") return "some";
  if (instruction.takes.some((take) => take.how === "each"))
    return instruction.takes.length === 1 ? "all" : "fixed";
  return instruction.takes.some(
    (take) => take.how === "last" || take.how === "from-hook" || take.how === "marked",
  )
    ? "fixed"
    : "some";
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
  declared: "yes" | "no" | null,
  context: BindContext,
): CarriedChain | null {
  const kind = plainKind(firstKind(rest) ?? "", n[0] ?? 1, context.terms);
  const ways = startWays(
    n[0] ?? 0,
    kind,
    declared === null ? null : { from: 0, counts: declared, space: 0, kind: null },
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
