import { rangeApart, rowsTogether } from "../../reshape/row-ranges";
import { isRefusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import type { TextEdit } from "../../text/span";
import { rowTitle } from "../row-names";
import type { Action, ActionSource, Scene } from "./action";
import { withFollowing } from "./following";
import { rowHere } from "./row-here";

/** A range as one line for each row; equal rows next to each other as a range. */
export const rowRanges: ActionSource = (scene, focus) => {
  const here = rowHere(scene, focus);
  if (!here) return [];
  const { row, piece } = here;
  const apart = rangeApart(scene.text, piece, row);
  const together = rowsTogether(scene.text, piece, row);
  return [
    ...(apart ? written(scene, say`Write ${rowTitle(row)} one by one`, apart) : []),
    ...(together
      ? written(
          scene,
          say`Write ${rowTitle(together.first)} to ${rowTitle(together.last)} as one line`,
          together.edits,
        )
      : []),
  ];
};

function written(scene: Scene, title: string, edits: readonly TextEdit[]): Action[] {
  const done = withFollowing(scene, null, { edits });
  if (isRefusal(done)) return [];
  return [{ kind: "rewrite", title, mends: [], preferred: false, edits: () => done.edits }];
}
