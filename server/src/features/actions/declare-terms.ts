import { frontMatterOf } from "../../notation/front-matter/front-matter";
import { declaringLabels } from "../../reshape/terms/labels";
import { say } from "../../text/say";
import { shift } from "../../text/span";
import { otherTerms } from "../../trade/term-spellings";
import { type ActionSource, findingsAt } from "./action";

/** Where all stitches that tell their terms deny the line that declares them: the line is changed, not the rows. */
export const declareTerms: ActionSource = (scene, focus) => {
  const { worked, findings, prover } = scene;
  const line = frontMatterOf(worked.lines).terms;
  if (!line || !findingsAt(scene, focus).some(({ rule }) => rule === "mixed-terms")) return [];
  const mends = findings.filter(({ rule }) => rule === "mixed-terms");
  const edits = declaringLabels(line.text).map(({ start, end, turned }) => ({
    span: shift({ start, end }, line.start),
    newText: turned,
  }));
  if (edits.length === 0 || !prover.proves(edits, mends)) return [];
  const title = say`Say that the pattern is in ${otherTerms(line.terms)} terms`;
  return [{ kind: "mend", title, mends, preferred: false, edits: () => edits }];
};
