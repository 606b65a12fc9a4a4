import type { Word } from "../../notation/words";
import { say } from "../../text/say";
import { withEdits } from "../../text/span";
import type { Mend, MendEdit } from "./mend";
import type { Trial } from "./trial";

const swaps: Readonly<Record<string, string>> = {
  inc: "dec",
  Inc: "Dec",
  INC: "DEC",
  dec: "inc",
  Dec: "Inc",
  DEC: "INC",
};

/** `inc` typed where `dec` was meant, or the other way round: one of them, or all alike. */
export function incOrDec(trial: Trial): Mend[] {
  const edits = trial.words.flatMap((word) => swapped(word, trial.text));
  const alike = edits.length > 1 && new Set(edits.map((edit) => edit.newText)).size === 1 ? [edits] : [];
  return [...edits.map((edit) => [edit]), ...alike]
    .filter((list) => trial.isRight(withEdits(trial.text, list)))
    .map((list) => mendFor(trial, list));
}

function swapped(word: Word, text: string): MendEdit[] {
  if (word.cls !== "S" || !/(?:^| )(?:inc|dec)$/.test(word.value)) return [];
  const typed = text.slice(word.start, word.end);
  const newText = typed.replace(/inc|dec/i, (letters) => swaps[letters] ?? letters);
  return newText === typed ? [] : [{ line: "row", span: { start: word.start, end: word.end }, newText }];
}

function mendFor({ text, asWritten }: Trial, edits: readonly MendEdit[]): Mend {
  const [{ span, newText }] = edits as [MendEdit];
  const title = say`Change "${text.slice(span.start, span.end)}" to "${newText}"`;
  const name = newText.toLowerCase();
  return {
    kind: "inc-or-dec",
    title,
    question: asWritten.fits
      ? say`With ${name} it agrees with its count.`
      : say`With ${name} it fits exactly.`,
    exchange: say`${newText} for ${text.slice(span.start, span.end)}`,
    edits,
  };
}
