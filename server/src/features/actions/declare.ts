import type { Choice } from "../../fabric/instructions";
import { takenForGranted } from "../../fabric/outcome";
import { say } from "../../text/say";
import type { Finding } from "../../workspace/report";
import { rowAt } from "../placed-row";
import { type Action, type ActionSource, findingsAt, type Scene } from "./action";
import { newLine } from "./new-line";

const notes = [/^\W*(?:pattern )?notes?\b/i, /^\W*terms?\b/i];

/** A word in the notes that settles for all rows what a doubtful one could mean. */
export const declare: ActionSource = (scene, focus) =>
  findingsAt(scene, focus)
    .filter(({ rule }) => rule === "ambiguous")
    .flatMap((finding) => sentencesFor(scene, finding).flatMap((one) => declared(scene, finding, one)));

function declared({ worked, prover }: Scene, finding: Finding, sentence: string): Action[] {
  const edits = [newLine(worked, sentence, notes)];
  if (!prover.proves(edits, [finding])) return [];
  const title = say`Say it once in the notes: "${sentence.replaceAll('"', "'")}"`;
  return [{ kind: "mend", title, mends: [finding], preferred: false, edits: () => edits }];
}

/** What each meaning of the row takes for granted, as the trade says it in notes. */
function sentencesFor({ worked }: Scene, { span }: Finding): string[] {
  const others = rowAt(worked, span.start)?.row.others ?? [];
  const sentences = others
    .flatMap(takenForGranted)
    .flatMap(({ doubt, option }) => sentencesOn(doubt, option));
  return [...new Set(sentences)];
}

function sentencesOn({ about }: Choice, option: number): string[] {
  if (!about) return [];
  if ("chains" in about)
    return [`Ch ${about.chains} counts as a stitch.`, `Ch ${about.chains} does not count as a stitch.`];
  const means = option === 0 ? "times in all" : "more times";
  return about.said.endsWith(" times") ? [`"Repeat ${about.said}" means ${about.n} ${means}.`] : [];
}
