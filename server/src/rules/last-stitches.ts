import {
  forSize,
  type Instruction,
  isUntilNext,
  type RowPlan,
  type Take,
  type Until,
} from "../fabric/instructions";
import type { WorkedRow } from "../fabric/worked";
import type { Sized } from "../notation/words";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import type { Found } from "./rule";
import { rowName, says } from "./wording";

/** `rep from * to last 5 sts`, and six are worked behind it, or four: no count tells. */
export function lastStitches(row: WorkedRow): Found[] {
  const { line, result, outcome } = row;
  if (result !== "ok" || !line.plan || !outcome?.fits) return [];
  const slip = slipIn(line.plan);
  if (!slip) return shortIn(line.plan).map((span) => passedOver(row, shift(span, line.start)));
  const span = shift(slip.span, line.start);
  const { told, worked } = slip;
  if (worked < told) return [passedOver(row, span)];
  return [
    {
      span,
      message: say`${says(rowName(row), "stops")} its repeat before the last ${told}, and ${worked} are worked behind it. Did you mean ${worked}?`,
      fixes: [{ title: say`Write ${worked}`, edits: () => [{ span, newText: `${worked}` }] }],
      related: [],
    },
  ];
}

function passedOver(row: WorkedRow, span: Span): Found {
  return {
    span,
    message: say`${rowName(row)}: this stops short, and what follows leaves out some of the stitches that it stops before. Say which are skipped.`,
    fixes: [],
    related: [],
  };
}

interface Slip {
  readonly told: number;
  readonly worked: number;
  /** Of the number, in the text of the row. */
  readonly span: Span;
}

const slipIn = keptBy((plan: RowPlan): Slip | null => {
  const at = plan.instructions.findIndex((one) => one.op === "repeat" && one.times.how === "to-end");
  const repeat = plan.instructions[at];
  const until = repeat?.op === "repeat" && repeat.times.how === "to-end" ? repeat.times.until : null;
  const last = until && plainLast(until);
  const behind = plan.instructions.slice(at + 1);
  const worked = last ? stitchesIn(behind, last.kind) : null;
  const told = last && forSize(last.n, 0);
  if (!repeat || !last || told == null || worked === null || last.n.length > 1) return null;
  if (worked === told || (worked < told && !behind.some(isInLast))) return null;
  const match = toLast.exec(plan.text.slice(repeat.span.start, repeat.span.end));
  if (!match || Number(match[1]) !== told) return null;
  const start = repeat.span.start + match.index + match[0].indexOf(match[1] as string);
  return { told, worked, span: { start, end: start + `${told}`.length } };
});

const toLast = /\b(?:to|until)\s+(?:the\s+)?last\s+(\d+)/i;

/** So many plain stitches before the end. */
function plainLast(until: Until): { readonly n: Sized; readonly kind: string | undefined } | null {
  if (typeof until === "string" || !("n" in until) || until.remain) return null;
  const { sort, unit, part, kind } = until.of;
  return sort === "stitch" && unit === undefined && part === undefined ? { n: until.n, kind } : null;
}

/** `dc in last st`: goes to the end of the row, whatever it passes. */
function isInLast(one: Instruction): boolean {
  return (one.op === "work" || one.op === "group") && one.takes.some(({ how }) => how === "last");
}

/** `dc in each st to 2 sts before next sp`, and what follows goes into the space without a word of the two. */
const shortIn = keptBy((plan: RowPlan): readonly Span[] => shortOf(plan.instructions));

function shortOf(list: readonly Instruction[]): Span[] {
  return list.flatMap((one, at): Span[] => {
    if (one.op === "repeat") return shortOf(one.body);
    const short = one.op === "work" ? stopsShort(one.takes) : null;
    const next = list.slice(at + 1).find((other) => !isNone(other));
    const isInSpace = short && (next?.op === "work" || next?.op === "group") && next.takes.some(isSpace);
    return isInSpace ? [one.span] : [];
  });
}

/** `skip 0 sts` */
function isNone(one: Instruction): boolean {
  return one.op === "skip" && one.takes.every((take) => take.how === "next" && take.n.every((n) => n === 0));
}

function stopsShort(takes: readonly Take[]): Sized | null {
  const [take] = takes.slice(-1);
  const until = take?.how === "each" ? take.until : null;
  return isUntilNext(until) ? (until.short ?? null) : null;
}

function isSpace(take: Take): boolean {
  return take.how === "next" && take.of.sort === "space";
}

/** How many stitches they take, where all they take are stitches, of that kind where one is named. */
function stitchesIn(list: readonly Instruction[], kind: string | undefined): number | null {
  let sum = 0;
  for (const one of list) {
    if (one.op === "turn" || one.op === "chain" || one.op === "mark") continue;
    if (one.op !== "work" && one.op !== "skip" && one.op !== "group") return null;
    for (const take of one.takes) {
      if (take.how === "same" || take.how === "nowhere") continue;
      if (take.how !== "next" && take.how !== "last") return null;
      if (take.of.sort !== "stitch" || take.of.piece !== undefined || take.of.part !== undefined) return null;
      if (kind !== undefined && take.of.kind !== undefined && take.of.kind !== kind) return null;
      if (take.n.length > 1) return null;
      sum += (take.n[0] ?? 1) * (one.op === "work" ? Math.max(one.stitch.uses, 1) : 1);
    }
  }
  return sum;
}
