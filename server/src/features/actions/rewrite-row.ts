import { nearestCounts } from "../../reshape/nearest-counts";
import type { Rewritten } from "../../reshape/rewrite-row";
import { isRefusal } from "../../reshape/row-trial";
import { rowTitle } from "../row-names";
import { sts } from "../shown/counts";
import type { Action, ActionSource, NotedEdit, Scene } from "./action";
import { editsOf, thoseBehind, withFollowing } from "./following";
import { type RowHere, rowHere } from "./row-here";

/** The row here with the nearest count on either side, and the rows that have to follow. */
export const rewriteRow: ActionSource = (scene, focus) => {
  const here = rowHere(scene, focus);
  const now = here?.row.outcome?.makes[0];
  if (!here || now == null || here.row.result !== "ok") return [];
  const { below, above } = nearestWithFollowing(scene, here, now);
  return [above, below].flatMap((one) => (one ? [actionFor(here, one)] : []));
};

/** A row for another count, with what follows from it. */
export interface RewrittenWith {
  readonly makes: number;
  readonly edits: readonly NotedEdit[];
}

/** The counts nearest to one on either side that suit the row and all that follow. */
export function nearestWithFollowing(
  scene: Scene,
  { row, piece, next }: RowHere,
  from: number,
): { readonly below: RewrittenWith | null; readonly above: RewrittenWith | null } {
  const known = new Map<Rewritten, readonly NotedEdit[]>();
  const suits = (one: Rewritten): boolean => {
    const edits = withFollowing(scene, next, editsOf(row, one));
    if (!isRefusal(edits)) known.set(one, edits);
    return !isRefusal(edits);
  };
  const { below, above } = nearestCounts(row, piece, from, suits);
  const withEdits = (one: Rewritten | null) => one && { makes: one.makes, edits: known.get(one) ?? [] };
  return { below: withEdits(below), above: withEdits(above) };
}

function actionFor({ row, piece, next }: RowHere, { makes, edits }: RewrittenWith): Action {
  const behind = next && edits.some(({ note }) => note) ? ` and update ${thoseBehind(next, piece)}` : "";
  return {
    kind: "rewrite",
    title: `Rewrite ${rowTitle(row)} for ${sts(makes)}${behind}`,
    mends: [],
    preferred: false,
    edits: () => edits,
  };
}
