import type { Instruction, RowPlan, Take, Target } from "../fabric/instructions";
import type { Outcome } from "../fabric/outcome";
import { isStepLoop, type Step, type Steps } from "../fabric/steps";
import type { Span } from "../text/span";
import type { Group } from "./even";

/** A stitch of a shaped row by the places it takes and the stitches it makes: `inc` 1 to 2, `dec` 2 to 1. */
export interface Stitching {
  readonly uses: number;
  readonly makes: number;
}

/** A row of plain stitches with increases, or with decreases, among them, and nothing else. */
export interface ShapedRow {
  /** From its first stitch to its last, in the text of the row. */
  readonly span: Span;
  readonly groups: readonly Group[];
  /** Null in a plain row. */
  readonly unit: Stitching | null;
  /** The increase comes before the plain stitches of its group, and `groups` is from the end: `(inc, 4 sc) x6`. */
  readonly unitFirst: boolean;
  /** The stitch that is worked plain, or that the increases are made of. */
  readonly kind: string;
  /** The chain that opens the row stands for the first stitch, and is not in the span. */
  readonly leads: boolean;
}

/** Stitches listed one by one at most. */
const stitchesAtMost = 2_000;

/** Null where a row does anything besides. */
export function shapedRow(plan: RowPlan, outcome: Outcome, size: number): ShapedRow | null {
  const span = shapedSpan(plan, outcome);
  const run = span && stitchesOf(outcome.steps[size] ?? []);
  if (!span || !run || run.length === 0) return null;
  const shaped = run.filter((one) => !isPlain(one));
  const [unit = null] = shaped;
  const kinds = new Set(run.map(({ kind }) => kind));
  if (kinds.size !== 1 || shaped.some((one) => !isAlike(one, unit))) return null;
  const leads = isChainCounted(plan, outcome);
  const unitFirst =
    !leads && unit !== null && run[0] !== undefined && !isPlain(run[0]) && isPlain(run.at(-1) ?? run[0]);
  const order = unitFirst ? [...run].reverse() : run;
  const groups = groupsOf(order);
  return {
    span,
    groups,
    unit: unit && { uses: unit.uses, makes: unit.makes },
    unitFirst,
    kind: [...kinds][0] ?? "",
    leads,
  };
}

function isChainCounted({ instructions }: RowPlan, { reading }: Outcome): boolean {
  const start = instructions.find(({ op }) => op === "start");
  if (start?.op !== "start") return false;
  const option = start.options[reading[start.choice] ?? 0];
  return option?.counted === true;
}

interface Stitched extends Stitching {
  readonly kind: string;
}

function isPlain({ uses, makes }: Stitching): boolean {
  return uses === 1 && makes === 1;
}

function isAlike(one: Stitching, other: Stitching | null): boolean {
  return one.uses === other?.uses && one.makes === other.makes;
}

/** Plain stitches with the increases behind them, as they come. */
function groupsOf(run: readonly Stitched[]): Group[] {
  const groups: { plain: number; units: number }[] = [];
  for (const one of run) {
    const last = groups.at(-1);
    if (!isPlain(one)) {
      if (last) last.units++;
      else groups.push({ plain: 0, units: 1 });
    } else if (last?.units === 0) last.plain++;
    else groups.push({ plain: 1, units: 0 });
  }
  return groups;
}

/** Each stitch, increase and decrease in turn; null where there is anything else among them. */
function stitchesOf(steps: readonly Steps[]): Stitched[] | null {
  const out: Stitched[] = [];
  return addAll(steps, out) ? out : null;
}

function addAll(steps: readonly Steps[], out: Stitched[]): boolean {
  for (const step of steps) {
    if (!isStepLoop(step)) {
      if (!addStep(step, out)) return false;
    } else if (step.group !== undefined) return false;
    else for (let pass = 0; pass < step.times; pass++) if (!addAll(step.steps, out)) return false;
  }
  return out.length <= stitchesAtMost;
}

function addStep({ sort, kind, n, uses, perPlace, unit }: Step, out: Stitched[]): boolean {
  if (sort === "none") return true;
  if (sort !== "stitch" || uses < 1 || (unit ?? "") !== "") return false;
  const times = n / perPlace;
  if (out.length + times > stitchesAtMost || (uses > 1 && perPlace > 1)) return false;
  for (let i = 0; i < times; i++) out.push({ kind, uses, makes: perPlace });
  return true;
}

// In the text

const around = new Set(["start", "chain", "turn", "mark", "slip", "tie", "change"]);

/** From the first stitch to the last; null where anything else is between them. */
function shapedSpan({ instructions }: RowPlan, { reading }: Outcome): Span | null {
  const isShaped = instructions.map((one) => isOnlyShaping(one, reading));
  const [from, to] = [isShaped.indexOf(true), isShaped.lastIndexOf(true)];
  const first = instructions[from];
  const last = instructions[to];
  if (!first || !last) return null;
  const isAll = instructions.every((one, i) => (i < from || i > to ? around.has(one.op) : isShaped[i]));
  return isAll ? { start: first.span.start, end: last.span.end } : null;
}

function isOnlyShaping(one: Instruction, reading: readonly number[]): boolean {
  if (one.op === "work") return one.takes.every(isAnyStitch);
  if (one.op === "either")
    return (one.options[reading[one.choice] ?? 0] ?? []).every((part) => isOnlyShaping(part, reading));
  return (
    one.op === "repeat" && !one.ending?.with.length && one.body.every((part) => isOnlyShaping(part, reading))
  );
}

/** What is worked into spaces, or into places of their own, stays there. */
function isAnyStitch(take: Take): boolean {
  const isAny = ({ sort, unit, row, part, piece }: Target): boolean =>
    sort === "stitch" && (unit ?? row ?? part ?? piece) === undefined;
  if (take.how === "next") return isAny(take.of);
  return take.how === "each" && take.of.every(isAny);
}
