import type { Finding, Fix } from "../../workspace/report";
import { type Action, type ActionSource, findingsAt } from "./action";

/** Each way to mend each finding. */
export const mend: ActionSource = (scene, focus) =>
  findingsAt(scene, focus).flatMap((finding) => {
    const fixes = scene.prover.fixesOf(finding);
    return fixes.map((fix, index) => actionOf(finding, fix, index === 0 && hasLikeliest(finding, fixes)));
  });

/** The ways to mend a slip are in order; a question that may be answered in two ways has no likelier answer. */
function hasLikeliest({ rule }: Finding, fixes: readonly Fix[]): boolean {
  return rule !== "ambiguous" || fixes.length === 1;
}

function actionOf(finding: Finding, fix: Fix, preferred: boolean): Action {
  return { kind: "mend", title: fix.title, mends: [finding], preferred, edits: () => fix.edits() };
}
