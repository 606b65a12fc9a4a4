import type { Instruction } from "../fabric/instructions";
import { perPiece } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { Span } from "../text/span";

/** The one instruction of a row that is right only if it is worked on to the end, which the row does not say. */
export interface OnceWritten {
  /** In the text of the row. */
  readonly span: Span;
  /** It says in so many words that it is for one stitch: `2 sc in next sc`, `1 sc`. */
  readonly saysOne: boolean;
  /** By the word "next". */
  readonly inNext: boolean;
}

/** Such lines; none where the piece has more of its sort, which is its way of writing then. */
export function onceWritten(row: WorkedRow, piece: WorkedPiece): OnceWritten | null {
  const at = row.result === "ok" ? onceIn(row) : null;
  if (at === null) return null;
  const { inNext, all } = repeatedLines(piece);
  return (at.inNext ? inNext : all) === 1 ? at : null;
}

/** How many rows of a piece are lines that go on to the end without a word of it, and how many of them say "in next st". */
const repeatedLines = perPiece(({ rows }) => {
  const lines = rows.filter((row) => repeatedLine(row) !== null);
  return { all: lines.length, inNext: lines.filter((row) => onceIn(row)?.inNext).length };
});

/** Words that say how far a row goes, wherever they stand in it. */
const saysHowFar = /\b(?:each|every|all|around|across|along|end|even)\b/i;

const numberOne = /\b0?1 ?[a-z]/i;

/** One place: not `in next 6 sts`. */
const nextPlace = /\bin(?:to)? (?:the )?next [a-z]/i;

function onceIn(row: WorkedRow): OnceWritten | null {
  const work = (repeatedLine(row) ?? []).filter(({ op }) => op !== "mark");
  const [only] = work;
  if (work.length > 1 || only?.op !== "work") return null;
  const { text } = row.line;
  const { span } = only;
  const typed = text.slice(span.start, span.end);
  const goesOn = saysHowFar.test(text);
  const inNext = !goesOn && nextPlace.test(typed);
  const saysOne = inNext || numberOne.test(typed);
  return saysOne || !goesOn ? { span, saysOne, inNext } : null;
}

/** What is repeated, in a row that was understood as a line that is. */
function repeatedLine({ line: { plan }, outcome }: WorkedRow): readonly Instruction[] | null {
  if (!plan || !outcome || outcome.cost === 0) return null;
  for (const one of plan.instructions) {
    if (one.op !== "either" || outcome.reading[one.choice] !== 1) continue;
    const [whole] = one.options[1] ?? [];
    if (
      whole?.op === "repeat" &&
      whole.times.how === "to-end" &&
      whole.body.length === one.options[0]?.length
    )
      return whole.body;
  }
  return null;
}
