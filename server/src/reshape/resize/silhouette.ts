import { countStitches } from "../../fabric/steps";
import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { say } from "../../text/say";
import type { Refusal } from "../row-trial";
import { shapedRow } from "../shaped-row";

/** What a row does to the width of its piece. `start`: it stands on nothing; `lace`: anything that is not plain. */
export type Turn = "start" | "rise" | "even" | "fall" | "lace";

/** A line of a piece as far as its width is concerned. */
export interface Rung {
  readonly row: WorkedRow;
  readonly turn: Turn;
  /** Stitches that are there when it is done. */
  readonly makes: number;
  /** Stitches more or fewer. */
  readonly by: number;
  /** How many rows the line stands for. */
  readonly rows: number;
}

/** A piece as a ladder: increases up to its widest row, rows of that width, and decreases. */
export interface Silhouette {
  /** One for each row of the piece, in order. */
  readonly rungs: readonly Rung[];
  /** Stitches of its widest plain rows. */
  readonly widest: number;
  /** A row that is not plain has more stitches. */
  readonly isWiderInLace: boolean;
  /** Indexes: the first row that is made, the first and the last of the widest ones, and the last of the decreases. */
  readonly begin: number;
  readonly first: number;
  readonly last: number;
  readonly end: number;
  /** Stitches that most increase rows add, and most decrease rows take; null where there are none. */
  readonly rate: number | null;
  readonly fallRate: number | null;
}

/** Null where no row has a width. */
export function silhouetteOf({ rows, context }: WorkedPiece): Silhouette | Refusal {
  if (context.sizes.length > 1)
    return { why: say`it is written for several sizes. Change them in the grading sheet, or add one there` };
  const rungs = rows.map(rungOf);
  const stuck = rows.find(({ result }) => result !== "ok");
  const name = stuck?.line.headText.replace(/\s+/g, " ");
  if (stuck) return { why: say`${name} is not right yet, or not understood. Mend it first` };
  const widest = widthOf(plainStart(rungs));
  const isWidest = ({ turn, makes }: Rung): boolean => turn !== "lace" && makes === widest;
  const begin = rungs.findIndex(({ row }) => row.line.kind !== "foundation");
  if (begin < 0 || widest < 1) return { why: say`none of its rows has a width that is known` };
  const last = rungs.findLastIndex(isWidest);
  const behind = rungs.findIndex(({ turn }, i) => i > last && turn !== "fall" && turn !== "even");
  return {
    rungs,
    widest,
    isWiderInLace: rungs.some(({ turn, makes }) => turn === "lace" && makes > widest),
    begin,
    first: rungs.findIndex(isWidest),
    last,
    end: behind < 0 ? rungs.length - 1 : behind - 1,
    rate: commonest(rungs.filter(({ turn }) => turn === "rise").map(({ by }) => by)),
    fallRate: commonest(rungs.filter(({ turn }) => turn === "fall").map(({ by }) => -by)),
  };
}

function rungOf(row: WorkedRow): Rung {
  const { outcome, line } = row;
  const [has, makes] = [outcome?.has[0] ?? null, outcome?.makes[0] ?? 0];
  const rows = rowsOf(row);
  if (line.kind === "foundation") return { row, turn: "lace", makes: 0, by: 0, rows };
  if (has === null || (row.below === null && isInBlocks(row)))
    return { row, turn: "start", makes, by: 0, rows };
  const by = (makes - has) / rows;
  if (by === 0) return { row, turn: "even", makes, by, rows };
  const isPlain =
    Number.isInteger(by) &&
    (isOfOneKind(row, by) || isShaped(row) || (Math.abs(by) === 1 && isInBlocks(row)));
  return { row, turn: isPlain ? (by > 0 ? "rise" : "fall") : "lace", makes, by, rows };
}

/** The rows before the first that is not plain; all plain ones where it begins with such. */
function plainStart(rungs: readonly Rung[]): readonly Rung[] {
  const own = rungs.filter(({ row }) => row.line.kind !== "foundation");
  const lace = own.findIndex(({ turn }) => turn === "lace");
  return lace > 0 ? own.slice(0, lace) : own.filter(({ turn }) => turn !== "lace");
}

/** A piece that is nearly as wide somewhere else, by an edging, is as wide as most of its rows. */
const nearly = 0.8;

/** The count that most rows near the widest have; the greatest of them. */
function widthOf(rungs: readonly Rung[]): number {
  const most = Math.max(0, ...rungs.map(({ makes }) => makes));
  const rowsAt = (count: number): number =>
    rungs.reduce((sum, { makes, rows }) => (makes === count ? sum + rows : sum), 0);
  const near = rungs.map(({ makes }) => makes).filter((makes) => makes >= nearly * most);
  const often = near.reduce((best, makes) => Math.max(best, rowsAt(makes)), 0);
  return Math.max(0, ...near.filter((makes) => rowsAt(makes) === often));
}

/** Counted in blocks, as from corner to corner: one more each row, then one fewer. */
function isInBlocks({ line: { plan } }: WorkedRow): boolean {
  const [term, ...others] = plan?.stated ?? [];
  return term?.sort === "unit" && others.length === 0;
}

function isShaped({ outcome }: WorkedRow): boolean {
  return outcome?.how != null && shapedRow(outcome.how.plan, outcome, 0) !== null;
}

/** Stitches of one kind and no spaces, not more than double: a row of increases, however it is told. */
function isOfOneKind({ outcome }: WorkedRow, by: number): boolean {
  const kinds = outcome?.counted[0]?.kinds;
  const [made, makes] = [countStitches(outcome?.steps[0] ?? []), outcome?.makes[0] ?? 0];
  return kinds?.size === 1 && makes === made && makes <= 2 * (makes - by);
}

/** By its head; a line without a number is one. */
export function rowsOf({ line: { head } }: WorkedRow): number {
  const to = head?.to?.[0];
  return head?.from != null && to != null ? to - head.from + 1 : (head?.many?.[0] ?? 1);
}

/** The last of those that come most often. */
function commonest(numbers: readonly number[]): number | null {
  const often = (n: number): number => numbers.filter((one) => one === n).length;
  return numbers.reduce<number | null>(
    (best, n) => (best === null || often(n) >= often(best) ? n : best),
    null,
  );
}
