import { isRefusal } from "../../reshape/row-trial";
import { type Edge, edgesThatDiffer } from "../../rules/edges-differ";
import type { Finding } from "../../workspace/report";
import { rowTitle } from "../row-names";
import { sts } from "../shown/counts";
import { type Action, type ActionSource, findingsAt, type Scene } from "./action";
import { rewriteWithFollowing } from "./rewrite-row";

/** Two edges that are sewn together and differ: the one is rewritten for as many stitches as the other has. */
export const matchSeams: ActionSource = (scene, focus) => {
  const [finding] = findingsAt(scene, focus).filter(({ rule }) => rule === "edges-differ");
  if (!finding) return [];
  const seam = edgesThatDiffer(scene.worked).find(
    ({ said: { line, sentence } }) => line.start + sentence.end === finding.span.end,
  );
  const [a, b] = seam?.edges ?? [];
  return a && b ? [bring(scene, a, b, finding), bring(scene, b, a, finding)].flat() : [];
};

function bring(scene: Scene, from: Edge, to: Edge, finding: Finding): Action[] {
  const [count] = to.count;
  if (count == null || to.count.length > 1) return [];
  const piece = from.piece.worked;
  const found = rewriteWithFollowing(scene, { row: from.row, piece, next: null }, count);
  if (isRefusal(found) || !scene.prover.proves(found.edits, [finding])) return [];
  const { setter, edits } = found;
  const where = setter === from.row ? rowTitle(from.row) : `it from ${rowTitle(setter)} on`;
  return [
    {
      kind: "mend",
      title: `Bring ${from.piece.name} to the ${sts(count)} of ${to.piece.name}: rewrite ${where}`,
      mends: [finding],
      preferred: false,
      edits: () => edits,
    },
  ];
}
