import { forSize, type Instruction, type RowPlan } from "../fabric/instructions";
import type { RowsAlike } from "../fabric/outcome";
import { isStepLoop, type Step, type Steps } from "../fabric/steps";
import type { WorkedRow } from "../fabric/worked";
import { type YarnMention, yarnsIn } from "../notation/mentions/yarns";
import { keptBy } from "../text/kept-by";
import type { Span } from "../text/span";

/** How many stitches, by what the yarn does in them: `sc`, `sc*2` for two worked together, `cluster<3 dc`. */
export type StitchCounts = ReadonlyMap<string, number>;

/**
 * The stitches of a line, for one size, by the yarn that its text takes up: "" is the yarn in hand when
 * the row begins. Rows that the line asks for in turn are apart, since each begins with its own yarn.
 */
export type TurnCounts = readonly ReadonlyMap<string, StitchCounts>[];

type Sums = Map<string, Map<string, number>>;

/**
 * The stitches of a worked line for each size; null where nothing tells them. Of rows that are worked until
 * a length is reached, those of one pass. Worked out once for each row.
 */
export const stitchesOf: (row: WorkedRow) => readonly (TurnCounts | null)[] = keptBy((row) =>
  row.line.kind === "foundation" ? foundation(row) : lineCounts(row),
);

/** A starting chain, also one that is joined into a ring. */
function foundation({ line, makes }: WorkedRow): TurnCounts[] {
  const chain = line.plan?.instructions.find((one) => one.op === "chain" || one.op === "start");
  const told = chain?.op === "chain" || chain?.op === "start" ? chain.n : [];
  return (makes ?? told).map((n) => [new Map([["", new Map(n ? [["ch", n]] : [])]])]);
}

function lineCounts(row: WorkedRow): readonly (TurnCounts | null)[] {
  const { outcome, result, times, line } = row;
  const { sizes } = line;
  if (!outcome || result === "unchecked") return isTold(row) ? toldCounts(row) : [];
  const counts =
    outcome.worked.length > 0
      ? countsOfWork(outcome.worked)
      : outcome.makes.map((makes, size) =>
          makes === null ? null : plainRows(outcome, size, times?.[size] ?? times?.[0] ?? 1),
        );
  return sizes === null ? counts : counts.map((turns, size) => (sizes.includes(size) ? turns : []));
}

/** A row that is not checked, but worked once and states its count: that much of it is known. */
export function isTold({ outcome, result, times, line, handsOn }: WorkedRow): boolean {
  if (line.kind === "foundation" || (outcome && result !== "unchecked")) return false;
  return (
    line.plan?.stated != null &&
    (times ?? []).every((n) => n === 1) &&
    (handsOn ?? []).some((n) => n !== null)
  );
}

/** By the count that the row states; stitches that it does not name are those it works first. */
function toldCounts({ line: { plan, sizes }, handsOn }: WorkedRow): readonly TurnCounts[] {
  const main = plan && firstKind(plan.instructions);
  return (handsOn ?? []).map((_, size) => {
    if (sizes && !sizes.includes(size)) return [];
    const counts = new Map<string, number>();
    const add = (kind: string, n: number) => counts.set(kind, (counts.get(kind) ?? 0) + n);
    for (const { n, sort, word, chains } of plan?.stated ?? []) {
      const many = forSize(n, size) ?? 0;
      if (sort === "stitch") add(word, many);
      if (sort === "any") add(main ?? "sc", many);
      if (sort === "space" || sort === "chain") add("ch", many * (chains ?? 1));
    }
    return [new Map([["", counts]])];
  });
}

function firstKind(list: readonly Instruction[]): string | null {
  for (const one of list) {
    const found =
      one.op === "work"
        ? one.stitch.kind
        : one.op === "group" || one.op === "repeat"
          ? firstKind(one.body)
          : null;
    if (found !== null) return found;
  }
  return null;
}

/** For each size; a row that is worked again as it was before is not counted again. */
const countsOfWork = keptBy((worked: readonly RowsAlike[]): readonly TurnCounts[] => {
  const sizes = worked[0]?.steps.length ?? 0;
  return [...Array(sizes).keys()].map((size) => countTurns(worked, size));
});

/** Lines such as "dec 1 st each end of next 4 rows" tell only the first and the last count. */
function plainRows(
  { needs, makes, counted }: NonNullable<WorkedRow["outcome"]>,
  size: number,
  rows: number,
): TurnCounts {
  const [kind = "sc"] = counted[size]?.kinds.keys() ?? [];
  const mean = ((needs[size] ?? 0) + (makes[size] ?? 0)) / 2;
  return [new Map([["", new Map([[kind, mean * rows]])]])];
}

function countTurns(worked: readonly RowsAlike[], size: number): TurnCounts {
  const turns: Sums[] = [];
  for (const row of worked) {
    const sums: Sums = turns[row.turn] ?? new Map();
    turns[row.turn] = sums;
    const steps = row.steps[size] ?? [];
    if (steps.length === 0) continue;
    const grows = row.before === null ? 0 : (row.times * (row.times + 1)) / 2;
    new RowCounter(row.plan, size, sums, row.times + grows).row(steps);
    if (row.before) new RowCounter(row.plan, size, sums, -grows).row(row.before[size] ?? []);
  }
  return turns;
}

/** Counts one row, so many times. */
class RowCounter {
  private readonly takenUp: readonly TakenUp[];

  constructor(
    private readonly plan: RowPlan,
    private readonly size: number,
    private readonly sums: Sums,
    private readonly times: number,
  ) {
    this.takenUp = takenUpIn(plan);
  }

  row(steps: readonly Steps[]): void {
    const chains = openingsOf(this.plan);
    this.steps(this.withoutOpenings(steps, chains), 1, null);
    for (const { n, span, isNew } of chains)
      if (isNew) this.add("ch", forSize(n, this.size) ?? 0, this.yarnAt(span));
    const { foundation, joins } = this.plan;
    if (foundation) this.add("ch", forSize(foundation, this.size) ?? 0, "");
    if (joins) this.add("sl st", 1, this.takenUp.at(-1)?.name ?? "");
  }

  /** The stitch that an opening chain counts as is not worked: its yarn is that of the chain. */
  private withoutOpenings(steps: readonly Steps[], chains: readonly Opening[]): readonly Steps[] {
    const at = steps.findIndex((step) => isStepLoop(step) || step.sort === "stitch");
    const first = steps[at];
    if (first === undefined) return steps;
    const isOpening = !isStepLoop(first) && first.n === 1 && chains.some((chain) => opens(chain, first));
    return isOpening ? steps.filter((_, i) => i !== at) : steps;
  }

  private steps(steps: readonly Steps[], times: number, group: Span | null): void {
    for (const step of steps) {
      if (!isStepLoop(step)) this.step(step, times, group);
      else this.steps(step.steps, times * step.times, group ?? groupSpan(step.steps));
    }
  }

  private step(step: Step, times: number, group: Span | null): void {
    const key = keyOf(step, group === null ? this.plan : null);
    if (key === null) return;
    const each = step.sort === "space" || step.aside ? (step.chains ?? 1) : 1;
    this.add(key, step.n * each * times, this.yarnAt(group ?? step.span));
  }

  private add(key: string, n: number, yarn: string): void {
    const counts = this.sums.get(yarn) ?? new Map<string, number>();
    this.sums.set(yarn, counts);
    counts.set(key, (counts.get(key) ?? 0) + n * this.times);
  }

  private yarnAt({ start }: Span): string {
    return this.takenUp.findLast(({ from }) => from <= start)?.name ?? "";
  }
}

/** The words of a group that the pattern defines stand in its definition: what counts is where the group is named. */
function groupSpan([first]: readonly Steps[]): Span | null {
  return first !== undefined && !isStepLoop(first) && first.begins !== undefined ? first.span : null;
}

/** What a step is counted as; null for what takes no yarn. */
function keyOf(step: Step, plan: RowPlan | null): string | null {
  if (step.aside) return step.chains === undefined ? step.kind : "ch";
  if (step.sort === "none") return step.kind === "sl st" || step.kind === "picot" ? step.kind : null;
  if (step.sort === "space") return "ch";
  if (plan === null || (step.uses > 0 && !mayTellLegs(plan))) return keyOfStitch(step);
  const words = plan.text.slice(step.span.start, step.span.end);
  const [, legs, of] =
    /(\d+)[\s-]*(sc|hdc|dc|htr|tr|dtr)\b(?=[\s-]*(?:cl|bobble|popcorn|puff|pc|bo)\b)/i.exec(words) ?? [];
  if (legs !== undefined) return `${step.kind}<${legs} ${of?.toLowerCase()}`;
  if (step.uses === 0 && /\b(?:f|fdn|foundation)\s?-?(?:sc|hdc|dc|tr|single|half|double)/i.test(words))
    return `f${step.kind}`;
  return keyOfStitch(step);
}

/** A stitch over several places is so many worked together. */
export function keyOfStitch({ kind, uses, perPlace }: Step): string {
  return uses > 1 && perPlace === 1 ? `${kind}*${uses}` : kind;
}

/** A yarn that the text of a row takes up, and from where on. */
interface TakenUp {
  readonly name: string;
  readonly from: number;
}

/** `with A, sc in next 3 sts` and `sc in next 3 sts with A`: the yarn is for the words it stands with. */
const takenUpIn = keptBy((plan: RowPlan): readonly TakenUp[] =>
  yarnsOfRow(plan).map(({ name, start }) => ({ name, from: startOfPart(plan.text, start) })),
);

/** The yarns that the text of a row takes up. */
export const yarnsOfRow = keptBy(({ text }: RowPlan): readonly YarnMention[] => yarnsIn(text));

/** Whether a text may tell of what stitches a group is drawn together: `3 dc cl`. */
const mayTellLegs = keptBy(({ text }: RowPlan): boolean => /cl|bobble|popcorn|puff|pc|bo/i.test(text));

function startOfPart(text: string, at: number): number {
  return Math.max(...[...",;.:*([{"].map((mark) => text.lastIndexOf(mark, at - 1))) + 1;
}

/** A chain that opens a row; one that is skipped on a starting chain is not made anew. */
interface Opening {
  readonly n: Extract<Instruction, { op: "start" }>["n"];
  readonly span: Span;
  readonly isNew: boolean;
}

const openingsOf = keptBy((plan: RowPlan): readonly Opening[] => openingsIn(plan.instructions));

function openingsIn(list: readonly Instruction[]): Opening[] {
  return list.flatMap((one, i): Opening[] => {
    if (one.op === "start") return [{ n: one.n, span: one.span, isNew: list[i + 1]?.span !== one.span }];
    if (one.op === "group" || one.op === "repeat") return openingsIn(one.body);
    return one.op === "either" ? openingsIn(one.options[0] ?? []) : [];
  });
}

function opens({ span, isNew }: Opening, step: Step): boolean {
  return step.span === span && (isNew || step.uses === 0);
}
