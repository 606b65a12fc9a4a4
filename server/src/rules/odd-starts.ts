import { firstKind } from "../fabric/bind-start";
import type { Instruction, RowPlan } from "../fabric/instructions";
import { perPiece } from "../fabric/parts";
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
  const all = pattern.pieces.flatMap((piece) => startsIn(piece).map((one) => ({ ...one, piece })));
  const kinds = new Set(all.map(({ kind }) => kind));
  return [...kinds].flatMap((kind) => {
    const alike = all.filter((one) => one.kind === kind);
    const odd = alike.filter(({ chains }) => alike.filter((one) => one.chains === chains).length === 1);
    const [one, ...others] = odd;
    const usual = alike.find(({ chains }) => chains !== one?.chains)?.chains;
    const fewest = isNoted(usual, pattern) ? notedAtLeast : alikeAtLeast;
    const isHabit =
      alike.length > fewest && alike.every(({ chains }) => chains === usual || chains === one?.chains);
    if (!one || others.length > 0 || usual === undefined || !isHabit) return [];
    const row = one.piece.rows[one.at] as WorkedRow;
    const found = foundOn(row, one, usual, alike.length - 1);
    return found && isRightWith(usual, row, one.piece) ? [found] : [];
  });
}

function isNoted(chains: number | undefined, { context }: WorkedPattern): boolean {
  return chains !== undefined && context.conventions.startCounts.has(chains);
}

const startsIn = perPiece(({ rows }: WorkedPiece): readonly (Start & { readonly at: number })[] =>
  rows.flatMap(({ line: { plan }, result }, at) => {
    const start = plan && result === "ok" ? plainStart(plan) : null;
    return start ? [{ ...start, at }] : [];
  }),
);

/** Null where the row says what its chain is, or begins with a space behind it. */
const plainStart = keptBy((plan: RowPlan): Start | null => {
  const { instructions, text } = plan;
  const start = startOf(plan) ?? lowChain(plan);
  const [chains, ...sizes] = start?.n ?? [];
  if (!start || chains == null || sizes.length > 0 || /\bcount/i.test(text)) return null;
  // Chains that a first row passes over are none of its own.
  if (!/\bch\w*[\s-]*\(?\d|\d\s*ch/i.test(text.slice(start.span.start, start.span.end))) return null;
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
