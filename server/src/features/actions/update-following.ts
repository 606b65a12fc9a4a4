import type { WorkedRow } from "../../fabric/worked";
import { isRefusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import { rowTitle } from "../row-names";
import type { ActionSource } from "./action";
import { thoseBehind, withFollowing } from "./following";
import { rowHere } from "./row-here";

/** After a row changed: the row here, or the one behind it, no longer fits and is brought into line with those below. */
export const updateFollowing: ActionSource = (scene, focus) => {
  const here = rowHere(scene, focus);
  const stale = here && [here.row, here.next].find((row) => row !== null && isWrong(row));
  const done = stale ? withFollowing(scene, stale, { edits: [] }) : null;
  if (!here || !stale || !done || isRefusal(done)) return [];
  return [
    {
      kind: "rewrite",
      title: say`Update ${rowTitle(stale)} and ${thoseBehind(stale, here.piece)}`,
      mends: [],
      preferred: false,
      edits: () => done.edits,
    },
  ];
};

function isWrong({ result, after }: WorkedRow): boolean {
  return (result === "does-not-fit" || result === "wrong-count") && after === null;
}
