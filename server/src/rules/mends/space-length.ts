import { say } from "../../text/say";
import { withEdits } from "../../text/span";
import { inShort, type Mend, type MendEdit } from "./mend";
import type { Trial } from "./trial";

/** Chains; longer spaces are loops and are not told apart by a digit. */
const longest = 9;

const lengths = /(?<=\bch[\s-]?)\d+|\d+(?=[\s-]?ch\b)/gi;

/** A count that calls its spaces by another length than they have: `4 ch-2 sps` for `4 ch-3 sps`. */
export function spaceLength(trial: Trial): Mend[] {
  const { row, text, asWritten } = trial;
  const span = row.line.plan?.statedSpan;
  if (!span || !asWritten.fits) return [];
  const typed = [...text.slice(span.start, span.end).matchAll(lengths)];
  return typed
    .flatMap(({ 0: digits, index }) => changesOf(digits, span.start + index))
    .filter((edit) => trial.isRight(withEdits(text, [edit])))
    .map((edit) => mendFor(trial, edit, span.end));
}

function changesOf(digits: string, start: number): MendEdit[] {
  const others = [...Array(longest).keys()].map((n) => n + 1).filter((n) => n !== Number(digits));
  return others.map((n) => ({ line: "row", span: { start, end: start + digits.length }, newText: `${n}` }));
}

function mendFor({ text, row }: Trial, edit: MendEdit, end: number): Mend {
  const start = row.line.plan?.statedSpan?.start ?? end;
  const mended = withEdits(text, [edit]);
  const count = inShort(mended.slice(start, end + mended.length - text.length));
  return {
    kind: "space-length",
    title: say`Change the count to ${count}`,
    question: say`Did you mean ${count}?`,
    exchange: say`the count ${count}`,
    edits: [edit],
  };
}
