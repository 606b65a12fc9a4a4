import { say } from "../../text/say";
import { withEdits } from "../../text/span";
import { placesNoun } from "../wording";
import type { Mend, MendEdit } from "./mend";
import type { Trial } from "./trial";

/** Places left on purpose, with a count that agrees: only the words that say so are missing. */
export function leaveRest(trial: Trial): Mend[] {
  const { asWritten, row, text } = trial;
  // In a round nothing is left unworked unawares: a repeat or a decrease is wrong.
  if (!row.found?.setting.flat) return [];
  const left = [...new Set(asWritten.has.map((n, size) => (n ?? 0) - (asWritten.needs[size] ?? 0)))];
  const [n = 0] = left;
  const isKnown = asWritten.counts && row.line.plan?.stated && placesNoun(row) === "stitch";
  if (left.length !== 1 || n < 1 || !isKnown) return [];
  const words = leaveWords(n);
  const edit = insertBeforeCount(text, row.line.plan?.statedSpan?.start ?? text.length, `, ${words}`);
  if (!trial.isRight(withEdits(text, [edit]))) return [];
  return [
    {
      kind: "leave-rest",
      title: say`Add "${words}"`,
      question: say`If that is meant, write "${words}" before the count.`,
      exchange: say`"${words}" before the count`,
      edits: [edit],
    },
  ];
}

/** The words with which a row leaves places unworked. */
export function leaveWords(n: number): string {
  return n === 1 ? "leave remaining st unworked" : `leave remaining ${n} sts unworked`;
}

function insertBeforeCount(text: string, count: number, newText: string): MendEdit {
  const at = text.slice(0, count).replace(/[\s.;,–-]+$/, "").length;
  return { line: "row", span: { start: at, end: at }, newText };
}
