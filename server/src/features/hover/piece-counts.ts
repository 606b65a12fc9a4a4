import { inTradeForm } from "../../fabric/multiple";
import type { WorkedPiece } from "../../fabric/worked";
import {
  type Congruence,
  nearestOf,
  type RowNeeds,
  type Stretch,
  stretchesOf,
} from "../../reshape/which-counts";
import { say } from "../../text/say";
import { rowTitle } from "../row-names";
import type { SizeRow } from "../shown/size-table";

/** Stretches told at most, those of most rows. */
const toldAtMost = 3;

/** The counts that suit rows of a piece together, and rows that stand against each other or against the count there is. */
export interface PieceCounts {
  readonly rows: readonly SizeRow[];
  readonly notes: readonly string[];
}

export function pieceCounts(piece: WorkedPiece): PieceCounts {
  const all = stretchesOf(piece);
  const most = all.length <= toldAtMost ? all : longest(all, piece);
  return { rows: most.flatMap((one) => suitingRow(one, piece)), notes: all.flatMap(notesOf) };
}

function longest(all: readonly Stretch[], { rows }: WorkedPiece): Stretch[] {
  const length = ({ first, last }: Stretch): number => rows.indexOf(last) - rows.indexOf(first);
  const kept = new Set([...all].sort((a, b) => length(b) - length(a)).slice(0, toldAtMost));
  return all.filter((one) => kept.has(one));
}

function suitingRow({ first, last, suits, places, startingChain }: Stretch, piece: WorkedPiece): SizeRow[] {
  if ("rows" in suits || suits.of === 1) return [];
  const worked = piece.rows.filter(({ line }) => line.kind !== "foundation");
  const isAll = worked[0] === first && worked.at(-1) === last;
  const label = isAll ? say`suits all its rows` : say`suits ${rowTitle(first)} to ${rowTitle(last)}`;
  const near = nearestOf(suits, places).join(say` and `);
  return [{ label, cells: [say`${inTradeForm({ ...suits, startingChain })}; next are ${near}`] }];
}

function notesOf({ suits, needs, places }: Stretch): string[] {
  if (!("rows" in suits)) return misses(needs, suits, places);
  const [a, b] = suits.rows.map((row) => needs.find((one) => one.row === row));
  if (!a || !b) return [];
  const [one, other] = [rowTitle(a.row), rowTitle(b.row)];
  return [say`No number of stitches suits both ${one} (${formOf(a)}) and ${other} (${formOf(b)}).`];
}

/** Rows that the count there is does not suit, with the nearest that suits all. */
function misses(needs: readonly RowNeeds[], all: Congruence, places: number): string[] {
  const near = nearestOf(all, places).join(say` or `);
  return needs
    .filter(({ of, plus }) => (places - plus) % of !== 0)
    .map(
      (one) => say`${rowTitle(one.row)} needs a ${formOf(one)}, and there are ${places}: ${near} would do.`,
    );
}

function formOf(one: Congruence): string {
  return inTradeForm({ ...one, startingChain: null });
}
