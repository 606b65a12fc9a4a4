import { nearestCounts } from "../../reshape/nearest-counts";
import type { Rewritten } from "../../reshape/rewrite-row";
import { rowTitle } from "../row-names";
import { sts } from "../shown/counts";
import type { Action, ActionSource, NotedEdit } from "./action";
import { editsOf, thoseBehind, withFollowing } from "./following";
import { type RowHere, rowHere } from "./row-here";

/** The row here with the nearest count on either side, and the rows that have to follow. */
export const rewriteRow: ActionSource = (scene, focus) => {
  const here = rowHere(scene, focus);
  const now = here?.row.outcome?.makes[0];
  if (!here || now == null || here.row.result !== "ok") return [];
  const edits = new Map<Rewritten, readonly NotedEdit[]>();
  const suits = (one: Rewritten): boolean => {
    const all = withFollowing(scene, here.next, editsOf(here.row, one));
    if (all) edits.set(one, all);
    return all !== null;
  };
  const { below, above } = nearestCounts(here.row, here.piece, now, suits);
  return [above, below].flatMap((one) => (one ? [actionFor(here, one, edits.get(one) ?? [])] : []));
};

function actionFor({ row, piece, next }: RowHere, { makes }: Rewritten, edits: readonly NotedEdit[]): Action {
  const behind = next && edits.some(({ note }) => note) ? ` and update ${thoseBehind(next, piece)}` : "";
  return {
    kind: "rewrite",
    title: `Rewrite ${rowTitle(row)} for ${sts(makes)}${behind}`,
    mends: [],
    preferred: false,
    edits: () => edits,
  };
}
