import type { Instruction, RowPlan, WorkRun } from "../fabric/instructions";
import { inPieces } from "../fabric/parts";
import type { WorkedPattern, WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import type { Span } from "../text/span";

/** The one instruction of a row that is right only if it is worked on to the end, which the row does not say. */
export interface OnceWritten {
  readonly row: WorkedRow;
  /** In the text of the row. */
  readonly span: Span;
  /** It says that it is for one stitch, `2 sc in next sc`, `1 sc`; or is but one inc or dec; or other rows like it say how often. */
  readonly saysOne: boolean;
}

/**
 * Such lines; none where the pattern has more of their sort, which is its way of writing then. One
 * that names its place, or is among others of its piece that say how often, is told all the same.
 */
export function onceWritten(pattern: WorkedPattern): readonly OnceWritten[] {
  const written = repeatedLines(pattern);
  const placed = written.filter(({ found: { once } }) => once?.placed).length;
  return written.flatMap(({ piece, found: { at, once } }) => {
    if (!once || (once.placed ? placed : written.length) > 1) return [];
    const row = piece.rows[at] as WorkedRow;
    return row.result === "ok" ? [{ row, span: once.span, saysOne: once.saysOne }] : [];
  });
}

interface Once extends Omit<OnceWritten, "row"> {
  /** It names a place: `in next st`, `in all 1 sts`. */
  readonly placed: boolean;
}

interface RepeatedLine {
  /** Which row of its piece. */
  readonly at: number;
  readonly once: Once | null;
}

const repeatedLines = inPieces(({ rows }): readonly RepeatedLine[] => {
  const isUsual = rows.some(({ line }) => line.plan !== null && tellsHowOften(line.plan));
  return rows.flatMap((row, at) => {
    if (repeatedLine(row) === null) return [];
    const once = onceIn(row);
    return [{ at, once: once && { ...once, saysOne: once.saysOne || isUsual } }];
  });
});

/** `18 sc`, `sc x18`: a plain row in full. */
const tellsHowOften = keptBy(({ instructions }: RowPlan): boolean => {
  const [only, ...others] = instructions.filter(({ op }) => op === "work" || op === "repeat");
  if (only?.op !== "work" || others.length > 0 || changesCount(only)) return false;
  const [take] = only.takes;
  return take?.how === "next" && take.unplaced === true && (take.n[0] ?? 1) > 1;
});

function changesCount({ stitch: { uses, makes } }: WorkRun): boolean {
  return uses > 1 || makes > 1;
}

/** Words that say how far a row goes, wherever they stand in it. */
const saysHowFar = /\b(?:each|every|all|around|across|along|end|even)\b/i;

const numberOne = /(?<!ch[- ]?)\b0?1(?!\d|[- ]?ch)/i;

/** One place: not `in next 6 sts`. */
const nextPlace = /\bin(?:to)? (?:the )?next [a-z]/i;

const oneOfAll = /\bin(?:to)? (?:the )?(?:next|all|each of (?:the )?next) (?:the )?0?1(?!\d)/i;

function onceIn(row: WorkedRow): Once | null {
  const work = (repeatedLine(row) ?? []).filter(({ op }) => op !== "mark");
  const [only] = work;
  if (work.length > 1 || only?.op !== "work") return null;
  const { text } = row.line;
  const { span } = only;
  const typed = text.slice(span.start, span.end);
  const goesOn = saysHowFar.test(text);
  const placed = oneOfAll.test(typed) || (!goesOn && nextPlace.test(typed));
  const saysOne = placed || numberOne.test(typed);
  return saysOne || !goesOn ? { span, saysOne: saysOne || changesCount(only), placed } : null;
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
