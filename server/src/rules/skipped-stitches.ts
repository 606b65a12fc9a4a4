import { partsOf, perPiece, type WorkedPart } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { numberOrSizes } from "../notation/mentions/size-lists";
import { say } from "../text/say";
import type { Span } from "../text/span";
import type { Found, WorkedPattern } from "./rule";
import { rowName, says } from "./wording";

/** Rows on the stitches that an earlier piece skipped, in another number than it skips anywhere. */
export function skippedStitches(pattern: WorkedPattern): Found[] {
  const parts = partsOf(pattern).filter(({ piece }) => piece !== null);
  return parts.flatMap((part, at) => {
    const piece = part.piece as WorkedPiece;
    return workedOnSkipped(piece).flatMap((one) => {
      const left = parts.slice(0, at + 1).flatMap((before) => leftBy(before, part, one.at));
      const row = piece.rows[one.at] as WorkedRow;
      return isMeant(
        one.numbers,
        left.map(({ numbers }) => numbers),
      )
        ? []
        : [
            found(
              row,
              one,
              left.map(({ row: there }) => there),
            ),
          ];
    });
  });
}

/** A list of numbers in a row, one for all sizes or one a size. */
interface NumbersInRow extends Span {
  /** The index of the row in its piece. */
  readonly at: number;
  readonly numbers: readonly number[];
}

const onSkipped = new RegExp(
  String.raw`\b(?:in|on|over|across|along)\s+(?:each\s+of\s+)?(?:the\s+)?(${numberOrSizes})\s+(?:skipped|missed|unworked|held|free|reserved)\s+(?:\w+\s+)?(?:sts?|stitches|sc|hdc|dc|htr|tr)\b`,
  "gi",
);
const skipping = new RegExp(
  String.raw`\b(?:sk(?:ip)?|miss|leave|omit|place|slip|put)\s+(?:the\s+)?(?:(?:next|first|last|following)\s+)?(${numberOrSizes})\s+(?:\w+\s+)?(?:sts?|stitches|sc|hdc|dc|htr|tr)\b`,
  "gi",
);

const workedOnSkipped = perPiece((piece) => listsIn(piece, onSkipped));
const skips = perPiece((piece) => listsIn(piece, skipping));

function listsIn({ rows }: WorkedPiece, form: RegExp): readonly NumbersInRow[] {
  return rows.flatMap(({ line: { text } }, at) =>
    [...text.matchAll(form)].map((match) => {
      const start = match.index + match[0].indexOf(match[1] as string);
      const numbers = ((match[1] as string).match(/\d+/g) ?? []).map(Number);
      return { at, numbers, start, end: start + (match[1] as string).length };
    }),
  );
}

interface Left {
  readonly numbers: readonly number[];
  readonly row: WorkedRow;
}

/** What a part skips; of its own part only the rows before this one. */
function leftBy(part: WorkedPart, own: WorkedPart, at: number): Left[] {
  const piece = part.piece as WorkedPiece;
  return skips(piece)
    .filter((one) => part !== own || one.at < at)
    .map(({ numbers, at: index }) => ({ numbers, row: piece.rows[index] as WorkedRow }))
    .filter(({ numbers }) => (numbers[0] ?? 0) >= fewest);
}

/** Fewer are skipped for lace. */
const fewest = 4;

/** Nothing skipped anywhere tells nothing; several openings may be worked as one. */
function isMeant(numbers: readonly number[], left: readonly (readonly number[])[]): boolean {
  const [n = 0] = numbers;
  const firsts = left.map(([first = 0]) => first);
  const inAll = firsts.reduce((sum, one) => sum + one, 0);
  return firsts.length === 0 || firsts.includes(n) || n === inAll;
}

function found(row: WorkedRow, { numbers, start, end }: NumbersInRow, rows: readonly WorkedRow[]): Found {
  const [last] = rows.slice(-1) as [WorkedRow];
  const skipped = skipping.source;
  const there = new RegExp(skipped, "i").exec(last.line.text)?.[1] ?? "";
  const span = { start: row.line.start + start, end: row.line.start + end };
  return {
    span,
    message: say`${says(rowName(row), "is")} worked on ${numbers[0]} skipped stitches, and ${rowName(last)} skips ${there}. Make the numbers agree.`,
    fixes: [{ title: say`Write ${there}`, edits: () => [{ span, newText: there }] }],
    related: [{ span: last.line.span, message: say`${rowName(last)} leaves the stitches.` }],
  };
}
