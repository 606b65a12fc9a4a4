import { say } from "../../text/say";
import { asMeantEdit } from "../../workspace/as-meant";
import type { Finding } from "../../workspace/report";
import { type Action, type ActionSource, findingsAt, type Scene } from "./action";

/** A word in the pattern that the row is meant as it is written: the query is answered there. */
export const asMeant: ActionSource = (scene, focus) =>
  findingsAt(scene, focus)
    .filter(({ rule }) => rule !== "idle-remark")
    .map((finding) => answered(scene, finding));

/** Not tried out before it is offered: a remark is blank to all that reads the pattern. */
function answered({ text, report }: Scene, finding: Finding): Action {
  return {
    kind: "mend",
    title: say`Leave it as it is: add "[as meant: ${finding.rule}]"`,
    mends: [finding],
    preferred: false,
    edits: () => [asMeantEdit(text, report, finding)],
  };
}
