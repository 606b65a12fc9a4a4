import { firstKind, hasChain } from "../fabric/bind-start";
import type { Instruction, RowPlan } from "../fabric/instructions";
import { partsOf, perChunk, perPiece } from "../fabric/parts";
import { isRight, reworking } from "../fabric/rework";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { startOf } from "./broken-notes";
import type { Found, WorkedPattern } from "./rule";
import { rowName, says } from "./wording";

/** How a row begins: so many chains, and the stitch behind them. */
interface Start {
  readonly chains: number;
  readonly kind: string;
}

/** Fewer rows show no habit. */
const alikeAtLeast = 3;
/** With a note on the chain that they begin with. */
const notedAtLeast = 2;

/** The one row that begins with another chain than all the others of its stitch, and is right with theirs as well. */
export function oddStarts(pattern: WorkedPattern): Found[] {
  return [...habitsOf(pattern).values()].flatMap((byChains) => {
    const [one, other, ...others] = [...byChains.values()].sort((a, b) => a.many - b.many);
    if (!one || !other || others.length > 0 || one.many > 1) return [];
    const fewest = isNoted(other.chains, pattern) ? notedAtLeast : alikeAtLeast;
    if (other.many < fewest) return [];
    const row = one.piece.rows[one.at] as WorkedRow;
    const found = foundOn(row, one, other.chains, other.many);
    return found && isRightWith(other.chains, row, one.piece) ? [found] : [];
  });
}

/** Rows that begin alike: the first of them, and how many they are. */
interface Alike extends Start {
  readonly piece: WorkedPiece;
  readonly at: number;
  readonly many: number;
}

/** By the stitch that rows begin with, then by the chains before it. */
function habitsOf(pattern: WorkedPattern): ReadonlyMap<string, ReadonlyMap<number, Alike>> {
  const parts = partsOf(pattern);
  const habits = new Map<string, Map<number, Alike>>();
  for (const { value, from } of startsIn(pattern))
    for (const { part, ...start } of value) {
      const byChains = habits.get(start.kind) ?? new Map<number, Alike>();
      habits.set(start.kind, byChains);
      const before = byChains.get(start.chains);
      const piece = before?.piece ?? (parts[from + part]?.piece as WorkedPiece);
      byChains.set(start.chains, { ...start, ...before, piece, many: (before?.many ?? 0) + start.many });
    }
  return habits;
}

function isNoted(chains: number, { context }: WorkedPattern): boolean {
  return context.conventions.startCounts.has(chains);
}

/** The same among some parts, by the index of the part that it is first met in. */
interface AlikeIn extends Omit<Alike, "piece"> {
  readonly part: number;
}

/** Each way to begin once, of some pieces together. */
const startsIn = perChunk((parts) =>
  added(
    parts.flatMap(({ piece }, part) => (piece ? startsOfPiece(piece).map((one) => ({ ...one, part })) : [])),
  ),
);

const startsOfPiece = perPiece(({ rows }) =>
  added(
    rows.flatMap(({ line, result }, at) => {
      const start = line.plan && result === "ok" ? plainStart(line.plan) : null;
      return start ? [{ ...start, part: 0, at, many: 1 }] : [];
    }),
  ),
);

function added(all: readonly AlikeIn[]): readonly AlikeIn[] {
  const found = new Map<string, AlikeIn>();
  for (const one of all) {
    const key = `${one.kind} ${one.chains}`;
    const before = found.get(key);
    found.set(key, before ? { ...before, many: before.many + one.many } : one);
  }
  return [...found.values()];
}

/** Null where the row says what its chain is, or begins with a space behind it. */
const plainStart = keptBy((plan: RowPlan): Start | null => {
  const { instructions, text } = plan;
  const start = startOf(plan) ?? lowChain(plan);
  const [chains, ...sizes] = start?.n ?? [];
  if (!start || chains == null || sizes.length > 0 || /\bcount/i.test(text)) return null;
  // Chains that a first row passes over are none of its own.
  if (!/\bch\w*[\s-]*\(?\d|\d\s*ch/i.test(text.slice(start.span.start, start.span.end))) return null;
  // What is too long for its stitch is a mesh like those behind it.
  if (start.op === "start" && start.options.some(({ space }) => space > 0 && hasChain(instructions, space)))
    return null;
  const behind = instructions[instructions.indexOf(start as Instruction) + 1];
  const kind = behind && behind.op !== "skip" && behind.op !== "chain" ? firstKind([behind]) : null;
  return kind ? { chains, kind } : null;
});

/** `Ch 3, sc in each st`: too high for its stitch to be anything but a slip. */
function lowChain({ instructions }: RowPlan): Extract<Instruction, { op: "chain" }> | undefined {
  const [first, next] = instructions.filter(({ op }) => op !== "turn" && op !== "mark");
  return first?.op === "chain" && next?.op === "work" && next.takes.some(({ how }) => how === "each")
    ? first
    : undefined;
}

function withChains(text: string, row: WorkedRow, usual: number): string | null {
  const span = row.line.plan && (startOf(row.line.plan) ?? lowChain(row.line.plan))?.span;
  if (!span) return null;
  const said = text.slice(span.start, span.end);
  const written = said.replace(/\d+/, `${usual}`);
  return written === said ? null : text.slice(0, span.start) + written + text.slice(span.end);
}

function isRightWith(usual: number, row: WorkedRow, { context }: WorkedPiece): boolean {
  const text = withChains(row.line.text, row, usual);
  return row.fault === null && text !== null && reworking(row, context)(text).find(isRight) !== undefined;
}

function foundOn(row: WorkedRow, { chains, kind }: Start, usual: number, many: number): Found | null {
  const at = row.line.plan && (startOf(row.line.plan) ?? lowChain(row.line.plan))?.span;
  const digits = at && /\d+/.exec(row.line.text.slice(at.start, at.end));
  if (!at || !digits) return null;
  const start = row.line.start + at.start + digits.index;
  const span = { start, end: start + digits[0].length };
  return {
    span,
    message: say`${says(rowName(row), "begins")} with ch ${chains}, and the other ${many} rows that begin with ${kind} have ch ${usual} before it. Did you mean ch ${usual}?`,
    fixes: [{ title: say`Write ch ${usual}`, edits: () => [{ span, newText: `${usual}` }] }],
    related: [],
  };
}
