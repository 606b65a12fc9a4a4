import { asMeantEdit } from "../../workspace/as-meant";
import type { Finding } from "../../workspace/report";
import { type Action, type ActionSource, findingsAt, type Scene } from "./action";

/** A word in the pattern that the row is meant as it is written: the query is answered there. */
export const asMeant: ActionSource = (scene, focus) =>
  findingsAt(scene, focus)
    .filter(({ rule }) => rule !== "idle-remark")
    .flatMap((finding) => answered(scene, finding));

function answered({ text, report, prover }: Scene, finding: Finding): Action[] {
  const edits = [asMeantEdit(text, report, finding)];
  if (!prover.proves(edits, [finding])) return [];
  const title = `Leave it as it is: add "[as meant: ${finding.rule}]"`;
  return [{ kind: "mend", title, mends: [finding], preferred: false, edits: () => edits }];
}
