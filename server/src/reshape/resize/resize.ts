import type { WorkedPiece } from "../../fabric/worked";
import { say } from "../../text/say";
import type { WorkedText } from "../follow";
import { isRefusal, type Refusal } from "../row-trial";
import { climb } from "./climb";
import { descend, isRegularFall } from "./descend";
import { type DraftRow, draftOf, editsOf, type RowEdits } from "./draft";
import { scaledRows } from "./plain-rows";
import { restart } from "./restart";
import { mapOf, type RowMap } from "./row-map";
import { type Silhouette, silhouetteOf } from "./silhouette";
import { Workbench } from "./workbench";

/** What a piece is to become. */
export interface ResizeGoal {
  /** Stitches of its widest rows, or of its first one. */
  readonly of: "widest" | "start";
  readonly count: number;
  /** Plain rows by those there are. */
  readonly rowsBy: number;
}

/** A piece in another size. Every row was read and worked again, and is right. */
export interface Resized {
  readonly widest: number;
  /** One for each line of the piece and each new one, in order. */
  readonly rows: readonly RowEdits[];
  readonly map: RowMap;
  readonly before: Silhouette;
  /** The piece as it is then. */
  readonly after: WorkedPiece;
}

/** The lines of a piece: those up to its widest row, those of that width, its decreases, and what follows them. */
export interface DraftParts {
  readonly up: readonly DraftRow[];
  readonly wide: readonly DraftRow[];
  readonly down: readonly DraftRow[];
  readonly rest: readonly DraftRow[];
}

/** The piece in another size, in its own style; or why not. Nothing is done by halves. */
export function resizePiece(pattern: WorkedText, piece: WorkedPiece, goal: ResizeGoal): Resized | Refusal {
  const shape = silhouetteOf(piece);
  if (isRefusal(shape)) return shape;
  const now = goal.of === "start" ? startOf(shape) : shape.widest;
  const bench = new Workbench(pattern, piece, goal.count / now, "as-places-allow");
  const draft = scaled(partsOf(draftOf(pattern.text, piece), shape), shape, goal.rowsBy);
  let refused: Refusal = { why: say`it has no rows` };
  for (const way of waysTo(draft, bench, shape, goal)) {
    const parts = way.parts();
    const done = isRefusal(parts) ? parts : finished(parts, way.bench, shape, goal);
    if (!isRefusal(done)) return done;
    refused = done;
  }
  return refused;
}

function startOf({ rungs, begin }: Silhouette): number {
  return rungs[begin]?.makes ?? 1;
}

/** One way to come to a size, with the bench that works it. */
interface WayTo {
  readonly bench: Workbench;
  parts(): DraftParts | Refusal;
}

/**
 * What comes to the width: more increases; or another first row, by as many stitches, or, where the increases are as
 * many as the stitches allow, by the same share.
 */
function waysTo(draft: DraftParts, bench: Workbench, shape: Silhouette, { of, count }: ResizeGoal): WayTo[] {
  const restarted = (to: number, on = bench): WayTo => ({
    bench: on,
    parts: () => restart(draft, on, shape, to),
  });
  if (of === "start") return [restarted(count)];
  if (count === shape.widest) return [{ bench, parts: () => draft }];
  const widened = ({ bench: on, parts: up }: WayTo): WayTo => ({
    bench: on,
    parts: () => {
      const parts = up();
      return isRefusal(parts) ? parts : descend(parts, on, shape, count);
    },
  });
  if (!widensAtStart(shape)) return [widened({ bench, parts: () => climb(draft, bench, shape, count) })];
  const start = startOf(shape);
  const [more, share] = [start + count - shape.widest, Math.round((start * count) / shape.widest)];
  const keepingRate = new Workbench(bench.pattern, bench.piece, bench.by, "as-many");
  return [restarted(more), restarted(share), restarted(more, keepingRate)].map(widened);
}

function finished(
  parts: DraftParts,
  bench: Workbench,
  shape: Silhouette,
  goal: ResizeGoal,
): Resized | Refusal {
  const done = bench.followed([...parts.up, ...parts.wide, ...parts.down, ...parts.rest]);
  if (isRefusal(done)) return done;
  const wide = [...parts.up, ...parts.wide].filter(({ state }) => state !== "gone").length;
  const widest = done.piece.rows[wide - 1]?.outcome?.makes[0] ?? 0;
  if (goal.of === "widest" && widest !== goal.count)
    return { why: say`its widest row would have ${widest} stitches` };
  const rows = editsOf(bench.pattern.text, done.draft);
  return { widest, rows, map: mapOf(parts), before: shape, after: done.piece };
}

function scaled(parts: DraftParts, shape: Silhouette, by: number): DraftParts {
  const isRegular = isRegularFall(shape.rungs.slice(shape.last + 1, shape.end + 1));
  const down = isRegular ? parts.down : scaledRows(parts.down, shape, by);
  return { ...parts, wide: scaledRows(parts.wide, shape, by), down };
}

function partsOf(draft: readonly DraftRow[], { first, last, end }: Silhouette): DraftParts {
  return {
    up: draft.slice(0, first + 1),
    wide: draft.slice(first + 1, last + 1),
    down: draft.slice(last + 1, end + 1),
    rest: draft.slice(end + 1),
  };
}

/** Stitches that are worked into a ring at most. */
const inRingAtMost = 24;

/**
 * Whether a piece gets wider by its first row, since that is at least half of its width, or by more increases: from
 * a ring.
 */
export function widensAtStart({ rungs, widest, begin, rate }: Silhouette): boolean {
  const { turn, makes = 0 } = rungs[begin] ?? {};
  return rate === null || (makes * 2 >= widest && (turn !== "start" || makes > inRingAtMost));
}
