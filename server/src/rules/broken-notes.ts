import type { Instruction, RowPlan } from "../fabric/instructions";
import { perPiece } from "../fabric/parts";
import type { Fault, WorkedPiece, WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";

/** The fault of a row, where it is sure that the row and not its count is meant. */
export function faultOf(row: WorkedRow, piece: WorkedPiece): Fault | null {
  const { fault } = row;
  const isDoubtful = fault?.sort === "against-notes" && !fault.isSure;
  return isDoubtful && !brokenThroughout(piece).has(fault.chains) ? null : fault;
}

/** Opening chains of which no row of a piece goes by the notes, and two or more are right only against them. */
const brokenThroughout = perPiece((piece): ReadonlySet<number> => {
  const chains = piece.rows.flatMap(({ fault }) => (fault?.sort === "against-notes" ? [fault.chains] : []));
  return new Set(chains.filter((n, i) => chains.indexOf(n) < i && !goesByNotes(piece, n)));
});

/** Whether a row is right by the notes that would not be right against them. */
export function goesByNotes({ rows, context }: WorkedPiece, chains: number): boolean {
  const counts = context.conventions.startCounts.get(chains);
  return rows.some(({ line, result }) => {
    const start = result === "ok" && line.plan ? startOf(line.plan) : undefined;
    const [only, ...others] = start?.n[0] === chains ? start.options : [];
    return only?.counted === counts && others.length === 0 && !isRightEitherWay(line.plan as RowPlan);
  });
}

type Start = Extract<Instruction, { op: "start" }>;

/** The chain that opens a row. */
export function startOf({ instructions }: RowPlan): Start | undefined {
  return instructions.find((one): one is Start => one.op === "start");
}

/** `Ch 1, sc in each st around`: a chain that counts stands for the first of them. */
const isRightEitherWay = keptBy(({ instructions }: RowPlan): boolean => {
  const [only, ...others] = instructions.filter(({ op }) => !"start turn slip mark".split(" ").includes(op));
  const isEach = only?.op === "work" && only.takes.every(({ how }) => how === "each");
  return isEach && others.length === 0;
});
