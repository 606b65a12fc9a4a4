import type { Word } from "../../notation/words";
import { say } from "../../text/say";
import { withEdits } from "../../text/span";
import type { Mend, MendEdit } from "./mend";
import type { Trial } from "./trial";

/** Stitches worked together; of more, no stitch is common. */
const [fewest, most] = [2, 6];

/** Another number of stitches worked together: `sc2tog` for `sc3tog`, in one place or in all alike. */
export function together(trial: Trial): Mend[] {
  const single = trial.words.flatMap((word) => [1, -1].flatMap((by) => changed(word, trial.text, by)));
  const alike = [...new Set(single.map(({ newText }) => newText))].map((newText) =>
    single.filter((edit) => edit.newText === newText),
  );
  return [...single.map((edit) => [edit]), ...alike.filter((edits) => edits.length > 1)]
    .filter((edits) => trial.isRight(withEdits(trial.text, edits)))
    .map((edits) => mendFor(trial, edits));
}

function changed(word: Word, text: string, by: number): MendEdit[] {
  const n = Number(/(\d+)tog$/.exec(word.value)?.[1] ?? Number.NaN) + by;
  if (word.cls !== "S" || !(n >= fewest && n <= most)) return [];
  const typed = text.slice(word.start, word.end);
  const newText = typed.replace(/\d+(?=\D*$)/, `${n}`);
  return newText === typed ? [] : [{ line: "row", span: { start: word.start, end: word.end }, newText }];
}

function mendFor({ text, asWritten }: Trial, edits: readonly MendEdit[]): Mend {
  const [{ span, newText }] = edits as [MendEdit];
  const typed = text.slice(span.start, span.end);
  return {
    kind: "together",
    title: say`Change "${typed}" to "${newText}"`,
    question: asWritten.fits
      ? say`With ${newText} it agrees with its count.`
      : say`With ${newText} it fits exactly.`,
    exchange: say`${newText} for ${typed}`,
    edits,
  };
}
