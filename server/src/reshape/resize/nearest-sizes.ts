import type { WorkedPiece } from "../../fabric/worked";
import type { WorkedText } from "../follow";
import { isRefusal } from "../row-trial";
import { type Resized, type ResizeGoal, resizePiece, widensAtStart } from "./resize";
import { type Silhouette, silhouetteOf } from "./silhouette";
import { widthsThatSuit } from "./suiting";

/** Sizes next to one that cannot be had. */
export interface NearestSizes {
  /** Widths reached by whole rounds of increases, or by another first row; what there is now is one of them. */
  readonly whole: readonly number[];
  /** Nearer still, with a round that adds fewer. */
  readonly partial: readonly number[];
}

/** Widths tried on either side, and those of them that are proved. */
const widthsAtMost = 60;
const provedAtMost = 3;

/** The nearest widths on either side of one that suit the piece, and whatever else has to be looked at. */
export function nearestSizes(
  pattern: WorkedText,
  piece: WorkedPiece,
  goal: ResizeGoal,
  suitsAll: (resized: Resized) => boolean,
): NearestSizes {
  const shape = silhouetteOf(piece);
  if (isRefusal(shape) || goal.of === "start" || goal.count === shape.widest)
    return { whole: [], partial: [] };
  const search = { pattern, piece, goal, shape, suitsAll, known: new Map<number, boolean>() };
  const isRung = rungsOf(shape);
  const near = (by: 1 | -1, isWanted: (width: number) => boolean) => nearest(search, by, isWanted) ?? [];
  const whole = [near(-1, isRung), near(1, isRung)].flat();
  const any = [near(-1, () => true), near(1, () => true)].flat();
  return { whole, partial: any.filter((one) => !whole.includes(one)) };
}

/** Widths that whole increase rows come to. */
function rungsOf(shape: Silhouette): (width: number) => boolean {
  const { rungs, first, rate } = shape;
  const top = rungs.findLast(({ turn, by }, i) => i <= first && turn === "rise" && by === rate);
  if (widensAtStart(shape) || rate === null || !top) return () => true;
  return (width) => (width - top.makes) % rate === 0;
}

interface Search {
  readonly pattern: WorkedText;
  readonly piece: WorkedPiece;
  readonly goal: ResizeGoal;
  readonly shape: Silhouette;
  readonly suitsAll: (resized: Resized) => boolean;
  readonly known: Map<number, boolean>;
}

function nearest(search: Search, by: 1 | -1, isWanted: (width: number) => boolean): number | null {
  const suiting = widthsThatSuit(search.shape);
  if ("rows" in suiting) return null;
  let proved = 0;
  for (let i = 1; i <= widthsAtMost && proved < provedAtMost; i++) {
    const width = search.goal.count + by * i;
    if (width < 1 || width % suiting.of !== suiting.plus || !isWanted(width)) continue;
    proved++;
    if (canBe(search, width)) return width;
  }
  return null;
}

function canBe({ pattern, piece, goal, shape, suitsAll, known }: Search, width: number): boolean {
  const before = known.get(width);
  if (before !== undefined) return before;
  const rowsBy = goal.rowsBy === 1 ? 1 : (goal.rowsBy * width) / goal.count;
  const found =
    width === shape.widest ? null : resizePiece(pattern, piece, { ...goal, count: width, rowsBy });
  const can = found === null || (!isRefusal(found) && suitsAll(found));
  known.set(width, can);
  return can;
}
