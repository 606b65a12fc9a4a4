import type { WorkedRow } from "../../fabric/worked";
import {
  type FromAbove,
  nearestFromAbove,
  placedEdits,
  rewriteFromAbove,
  whyNoCount,
} from "../../reshape/count-from-above";
import { workedWith } from "../../reshape/follow";
import { nearestCounts } from "../../reshape/nearest-counts";
import { rewriteToMake } from "../../reshape/rewrite-row";
import type { Rewritten } from "../../reshape/rewritten";
import { isRefusal, type Refusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import { rowTitle } from "../row-names";
import { sts } from "../shown/counts";
import type { ActionSource, Scene } from "./action";
import { provedWith, thoseBehind, type WithFollowing, withFollowing } from "./following";
import { type RowHere, rowHere } from "./row-here";

/** The row here with the nearest count on either side, and the rows that have to follow. */
export const rewriteRow: ActionSource = (scene, focus) => {
  const here = rowHere(scene, focus);
  const now = here?.row.outcome?.makes[0];
  if (!here || now == null || here.row.result !== "ok") return [];
  const { below, above } = nearestWithFollowing(scene, here, now);
  return [above, below].flatMap((one) =>
    one ? [{ ...rewrite, title: titleOf(here, one), edits: () => one.edits }] : [],
  );
};

export const rewrite = { kind: "rewrite", mends: [], preferred: false } as const;

/** A row for another count, with what follows from it. */
export interface RewrittenWith extends WithFollowing {
  readonly makes: number;
  /** The row that is written anew: the row itself, or the one above it that sets its count. */
  readonly setter: WorkedRow;
  readonly text: string;
}

/** The row for one count, on its own places or on others, with all that follows; or why not. */
export function rewriteWithFollowing(scene: Scene, here: RowHere, count: number): RewrittenWith | Refusal {
  const { row, piece } = here;
  const found = rewriteToMake(row, piece, count);
  if (!isRefusal(found)) return withThoseBehind(scene, here, { setter: row, rewritten: found, makes: count });
  const above = rewriteAbove(scene, here, count);
  return above ?? found;
}

/** The row for one count by another row above it, which sets its count; null where none does. */
export function rewriteAbove(scene: Scene, here: RowHere, count: number): RewrittenWith | Refusal | null {
  const { row, piece } = here;
  const above = rewriteFromAbove(scene.worked, row, piece, count);
  return isRefusal(above) ? null : withThoseBehind(scene, here, above);
}

/** The counts nearest to one on either side that suit the row and all that follow. */
export function nearestWithFollowing(
  scene: Scene,
  here: RowHere,
  from: number,
  suitsToo: (one: RewrittenWith) => boolean = () => true,
): { readonly below: RewrittenWith | null; readonly above: RewrittenWith | null } {
  const { row, piece } = here;
  const known = new Map<string, RewrittenWith | null>();
  const keyOf = ({ setter, rewritten }: RewrittenFor): string => `${setter.line.start} ${rewritten.makes}`;
  const suits = (one: RewrittenFor): boolean => {
    const before = known.get(keyOf(one));
    if (before !== undefined) return before !== null;
    const done = withThoseBehind(scene, here, one);
    const isSuited = !isRefusal(done) && suitsToo(done);
    known.set(keyOf(one), isSuited ? done : null);
    return isSuited;
  };
  const asOwn = (rewritten: Rewritten): RewrittenFor => ({ setter: row, rewritten, makes: rewritten.makes });
  const own = nearestCounts(row, piece, from, (one) => suits(asOwn(one)));
  const doneOf = (one: RewrittenFor | null) => (one && known.get(keyOf(one))) ?? null;
  if (own.below || own.above)
    return { below: doneOf(own.below && asOwn(own.below)), above: doneOf(own.above && asOwn(own.above)) };
  if (whyNoCount(row, piece)) return { below: null, above: null };
  const { below, above } = nearestFromAbove(scene.worked, row, piece, from, suits);
  return { below: doneOf(below), above: doneOf(above) };
}

/** A row for another count, by itself or by one above it: of that, what follows is known already. */
type RewrittenFor = Omit<FromAbove, "following"> & Partial<Pick<FromAbove, "following">>;

function withThoseBehind(
  scene: Scene,
  { row, piece }: RowHere,
  { setter, rewritten, makes, following }: RewrittenFor,
): RewrittenWith | Refusal {
  const next = piece.rows[piece.rows.indexOf(setter) + 1] ?? null;
  const edits = placedEdits(setter, rewritten);
  const done = following
    ? provedWith(scene, edits, following)
    : withFollowing(scene, next, { edits, left: rewritten.after });
  if (isRefusal(done)) return done;
  const now = workedWith(scene.worked, done.edits)[scene.worked.pieces.indexOf(piece)]?.rows ?? [];
  const isStill = (one: WorkedRow, count: number): boolean =>
    now[piece.rows.indexOf(one)]?.outcome?.makes[0] === count;
  // What follows may settle in which of two ways a row is meant.
  if (!isStill(setter, rewritten.makes) || !isStill(row, makes))
    return { why: say`${rowTitle(row)} would be read in another way then` };
  return { makes, setter, text: rewritten.text, ...done };
}

export function titleOf(
  { row, piece, next }: RowHere,
  { makes, edits, setter, lookAt }: RewrittenWith,
): string {
  const behind = next && edits.some(({ note }) => note) ? say` and update ${thoseBehind(next, piece)}` : "";
  const from = setter === row ? behind : say`, from ${rowTitle(setter)} on`;
  const besides = lookAt ? say` (look at ${rowTitle(lookAt)} yourself)` : "";
  return say`Rewrite ${rowTitle(row)} for ${sts(makes)}${from}${besides}`;
}
