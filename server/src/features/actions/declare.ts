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
  const title = `Say it once in the notes: "${sentence.replaceAll('"', "'")}"`;
  return [{ kind: "mend", title, mends: [finding], preferred: false, edits: () => edits }];
}

/** What each meaning of the row takes for granted, as the trade says it in notes. */
function sentencesFor({ worked }: Scene, { span }: Finding): string[] {
  const others = rowAt(worked, span.start)?.row.others ?? [];
  const assumptions = others.flatMap((outcome) => outcome.assumptions);
  return [...new Set(assumptions.flatMap((one) => [...chainsSentences(one), ...timesSentences(one)]))];
}

function chainsSentences(assumption: string): string[] {
  const n = /\bch (\d+) at the start\b|\bthe (\d+) skipped chains\b/.exec(assumption);
  const chains = n?.[1] ?? n?.[2];
  if (chains === undefined) return [];
  return [`Ch ${chains} counts as a stitch.`, `Ch ${chains} does not count as a stitch.`];
}

function timesSentences(assumption: string): string[] {
  const [, said, meant] = /^"([^"]* times)" means (\d+ (?:more times|times in all))$/.exec(assumption) ?? [];
  return said === undefined ? [] : [`"Repeat ${said}" means ${meant}.`];
}
