import { isRefusal } from "../../reshape/row-trial";
import { type Edge, edgesThatDiffer } from "../../rules/edges-differ";
import { say } from "../../text/say";
import type { Finding } from "../../workspace/report";
import { rowTitle } from "../row-names";
import { sts } from "../shown/counts";
import { saidOfAll } from "../sizes/in-all-sizes";
import { rewriteInSizes, rowInSizes } from "../sizes/rewrite-in-sizes";
import { type Action, type ActionSource, findingsAt, type NotedEdit, type Scene } from "./action";
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
  const found = from.count.length > 1 ? inSizes(scene, from, to) : alone(scene, from, to);
  if (!found || !scene.prover.proves(found.edits, [finding])) return [];
  return [
    {
      kind: "mend",
      title: say`Bring ${from.piece.name} to the ${found.sts} of ${to.piece.name}: rewrite ${found.where}`,
      mends: [finding],
      preferred: false,
      edits: () => found.edits,
    },
  ];
}

interface Brought {
  readonly edits: readonly NotedEdit[];
  readonly sts: string;
  readonly where: string;
}

function alone(scene: Scene, { row, piece }: Edge, to: Edge): Brought | null {
  const [count] = to.count;
  const found =
    count == null ? null : rewriteWithFollowing(scene, { row, piece: piece.worked, next: null }, count);
  if (!found || isRefusal(found)) return null;
  const where = found.setter === row ? rowTitle(row) : say`it from ${rowTitle(found.setter)} on`;
  return { edits: found.edits, sts: sts(found.makes), where };
}

/** In each size to what the other has in that size. */
function inSizes(scene: Scene, { row }: Edge, to: Edge): Brought | null {
  const found = rowInSizes(scene, row.line.span);
  const counts = found?.rows.map(({ size }) => to.count[found.all.indexOf(size)] ?? to.count[0] ?? null);
  const done = found && counts ? rewriteInSizes(scene, found, counts) : null;
  if (!done || isRefusal(done)) return null;
  return { edits: done.edits, sts: say`${saidOfAll((counts ?? []).map(String))} sts`, where: rowTitle(row) };
}
