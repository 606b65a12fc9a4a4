import { languageOfWords } from "../../notation/other-languages";
import { unknownWords } from "../../rules/not-understood";
import { say } from "../../text/say";
import { type ActionSource, findingsAt } from "./action";
import { newLine } from "./new-line";

const notes = [/^\W*(?:pattern )?notes?\b/i];

/** Words that nothing explains are stitches of another language: the pattern says that it is in it. */
export const declareLanguage: ActionSource = (scene, focus) => {
  const { worked, prover } = scene;
  if (worked.context.language || !findingsAt(scene, focus).some(({ rule }) => rule === "not-understood"))
    return [];
  const rows = worked.pieces.flatMap(({ rows }) => rows.filter(({ result }) => result === "unchecked"));
  const language = languageOfWords([...new Set(rows.flatMap(unknownWords))]);
  if (!language) return [];
  const edits = [newLine(worked, `Language: ${language.name}`, notes)];
  const mends = findingsAt(scene, focus).filter(({ rule }) => rule === "not-understood");
  // What is found in the rows once they are read is no fault of the line.
  if (prover.aftermath(edits, mends)?.stays.length !== 0) return [];
  const title = say`Say that the pattern is in ${language.name}`;
  return [{ kind: "mend", title, mends, preferred: false, edits: () => edits }];
};
