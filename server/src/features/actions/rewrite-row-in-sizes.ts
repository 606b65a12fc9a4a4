import { isRefusal } from "../../reshape/row-trial";
import { saidOfAll } from "../sizes/in-all-sizes";
import {
  type RewrittenInSizes,
  type RowInSizes,
  rewriteInSizes,
  rowInSizes,
} from "../sizes/rewrite-in-sizes";
import type { Action, ActionSource } from "./action";
import { nearestWithFollowing, rewrite, rewriteRow, titleOf } from "./rewrite-row";

/** The row here for the nearest count on either side; in several sizes, for as many stitches more or fewer in each. */
export const rewriteRowInSizes: ActionSource = (scene, focus) => {
  if (scene.worked.context.sizes.length < 2) return rewriteRow(scene, focus);
  const found = rowInSizes(scene, focus);
  const [first] = found?.rows ?? [];
  if (!found || !first || first.here.row.result !== "ok") return [];
  const known = new Map<number, RewrittenInSizes>();
  const { below, above } = nearestWithFollowing(first.size.scene, first.here, first.now, ({ makes }) => {
    const done = rewriteInSizes(scene, found, countsBy(found, makes - first.now));
    if (isRefusal(done)) return false;
    known.set(makes, done);
    return true;
  });
  return [above, below].flatMap((one) => actionOf(found, one && known.get(one.makes)));
};

function countsBy({ rows }: RowInSizes, by: number): number[] {
  return rows.map(({ now }) => now + by);
}

function actionOf({ rows }: RowInSizes, done: RewrittenInSizes | null | undefined): Action[] {
  const titles = rows.flatMap(({ here }, i) => {
    const own = done?.each[i];
    return own ? [titleOf(here, own)] : [];
  });
  const title = saidOfAll(titles);
  return done && title !== null ? [{ ...rewrite, title, edits: () => done.edits }] : [];
}
