import { forSize } from "../../fabric/instructions";
import type { Sized, Word } from "../../notation/words";
import { say } from "../../text/say";
import { withEdits } from "../../text/span";
import { inShort, type Mend, type MendEdit } from "./mend";
import type { Trial } from "./trial";

/** The count itself, where the row fits and only its number is another. */
export function statedCount(trial: Trial): Mend[] {
  const { row, words, text, asWritten } = trial;
  const { stated, statedSpan } = row.line.plan ?? {};
  if (!stated || !statedSpan || !asWritten.fits) return [];
  const typed = words.filter(
    ({ cls, start, end }) => cls === "n" && start >= statedSpan.start && end <= statedSpan.end,
  );
  if (typed.length !== stated.length) return [];
  const edits = typed.flatMap((word, term) => editsOf(trial, word, term));
  const mended = withEdits(text, edits);
  if (edits.length === 0 || !trial.isRight(mended)) return [];
  const count = inShort(mended.slice(statedSpan.start, statedSpan.end + mended.length - text.length));
  const exchange = say`the count ${count}`;
  return [
    {
      kind: "count",
      title: say`Change the count to ${count}`,
      question: say`Did you mean ${count}?`,
      exchange,
      edits,
    },
  ];
}

function editsOf(trial: Trial, word: Word, term: number): MendEdit[] {
  const sized = word.number ?? [];
  const made = sizesNamed(trial, sized).map((size) => madeOf(trial, term, size));
  const digits = [...trial.text.slice(word.start, word.end).matchAll(/\d+/g)];
  // A size that does not work the row has no number: `- (16, 18)`.
  const sizes = [...sized.keys()].filter((size) => sized[size] !== null);
  if (digits.length !== sizes.length) return [];
  const changed = digits.flatMap((match, index): MendEdit[] => {
    const size = sizes[index] ?? 0;
    const [to, said] = [made[size], forSize(sized, size)];
    const start = word.start + match.index;
    const span = { start, end: start + match[0].length };
    return to === undefined || to < 1 || to === said ? [] : [{ line: "row", span, newText: `${to}` }];
  });
  return digits.length < sized.length ? changed : [...changed, ...missingSizes(word, digits, made)];
}

/** `12 (14) sc` of a row for sizes M and L only has a number for each of the two. */
function sizesNamed({ asWritten, row }: Trial, sized: Sized): readonly number[] {
  const { sizes } = row.line;
  return sizes && sizes.length === sized.length ? sizes : [...asWritten.counted.keys()];
}

/** What the row makes of one kind of its count, in one size. */
function madeOf({ asWritten, row }: Trial, term: number, size: number): number | undefined {
  const counted = asWritten.counted[size];
  if (!counted) return undefined;
  const terms = row.line.plan?.stated?.length ?? 0;
  if (terms === 1) return counted.makes;
  return counted.kinds.size === terms ? [...counted.kinds.values()][term] : undefined;
}

/** `38 (42, 46, 50)` for five sizes: the fifth number goes behind the fourth. */
function missingSizes(
  word: Word,
  digits: readonly RegExpExecArray[],
  made: readonly (number | undefined)[],
): MendEdit[] {
  const last = digits.at(-1);
  if (!last || digits.length < 2 || digits.length >= made.length) return [];
  const at = word.start + last.index + last[0].length;
  const newText = made
    .slice(digits.length)
    .map((n) => `, ${n ?? "-"}`)
    .join("");
  return [{ line: "row", span: { start: at, end: at }, newText }];
}
