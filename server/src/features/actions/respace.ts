import { placedEdits } from "../../reshape/count-from-above";
import { type Respaced, respacings } from "../../reshape/respace";
import { isRefusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import type { ActionSource } from "./action";
import { withFollowing } from "./following";
import { rowHere } from "./row-here";

/** The increases or decreases of the row here spread evenly, or moved on by half a group; its count stays. */
export const respace: ActionSource = (scene, focus) => {
  const here = rowHere(scene, focus);
  if (!here) return [];
  return respacings(here.row, here.piece).flatMap((one) => {
    const done = withFollowing(scene, null, { edits: placedEdits(here.row, one.rewritten) });
    if (isRefusal(done)) return [];
    return [{ kind: "rewrite", title: titleOf(one), mends: [], preferred: false, edits: () => done.edits }];
  });
};

function titleOf({ way, isIncrease }: Respaced): string {
  const units = isIncrease ? say`increases` : say`decreases`;
  if (way === "evenly") return say`Space the ${units} evenly`;
  return way === "staggered" ? say`Stagger the ${units} by half a group` : say`Line the ${units} up`;
}
