import type { PatternContext } from "../fabric/context";
import type { RowPlan } from "../fabric/instructions";
import type { Outcome, State } from "../fabric/outcome";
import { isRight, type Reworking, reworking } from "../fabric/rework";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { readWords } from "../notation/words";
import { type TextEdit, withEdits } from "../text/span";

/** A row that can be written anew and worked again on the places it found, or on others. */
export interface RowTrial {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
  readonly text: string;
  readonly outcome: Outcome;
  readonly rework: Reworking;
}

/** Characters; a longer row is not rewritten. */
const longestRewritten = 600;

const placesTried = 200_000;

/** Why a row cannot be rewritten, in a maker's words. */
export interface Refusal {
  readonly why: string;
}

export function trialOf(row: WorkedRow, piece: WorkedPiece): RowTrial | Refusal {
  const { found, outcome, line, result } = row;
  if (result === "unchecked") return { why: row.reason ?? "it is not understood" };
  if (result === "ambiguous") return { why: "it can be read in more than one way" };
  if (!found || !outcome || line.kind === "foundation") return { why: "it is not worked on stitches" };
  if (line.kind === "copy" || line.plan?.copies) return { why: "it stands for other rows" };
  if (piece.context.sizes.length > 1) return { why: "it is written for several sizes" };
  if (line.text.length > longestRewritten) return { why: "it is too long" };
  return { row, piece, text: line.text, outcome, rework: reworking(row, piece.context, placesTried) };
}

export function isRefusal<T extends object>(one: T | Refusal): one is Refusal {
  return "why" in one;
}

/** A row's text that was read and worked, and is right. */
export interface Proved {
  readonly text: string;
  readonly outcome: Outcome;
}

/** The text with its count brought into line, if it is right then and takes nothing more for granted; else null. */
export function proved(trial: RowTrial, text: string, on?: State): Proved | null {
  const fitting = trial.rework(text, on).find((one) => one.fits && one.outOfReach === null);
  const counted =
    fitting && withEdits(text, countEdits(trial.piece.context, fitting.how?.plan ?? null, fitting));
  if (counted === undefined) return null;
  const right = trial.rework(counted, on).all().filter(isRight);
  const [outcome] = right;
  return outcome && isSettled(trial, outcome, right) ? { text: counted, outcome } : null;
}

/** A count settles how a row is meant; without one, all ways to read it have to come to the same. */
function isSettled({ outcome: before }: RowTrial, outcome: Outcome, right: readonly Outcome[]): boolean {
  const known = new Set(before.assumptions);
  return (
    outcome.how?.plan.stated != null ||
    right.every((one) => one.makes[0] === outcome.makes[0]) ||
    outcome.assumptions.every((one) => known.has(one))
  );
}

/** The numbers of the stated count, by what the row makes. */
export function countEdits(
  context: PatternContext,
  plan: RowPlan | null,
  { counted: [counted] }: Outcome,
): TextEdit[] {
  const { stated, statedSpan, text } = plan ?? {};
  if (!stated || !statedSpan || !counted || text === undefined) return [];
  const typed = readWords(text, context.lexicon).filter(
    ({ cls, start, end }) => cls === "n" && start >= statedSpan.start && end <= statedSpan.end,
  );
  const made = stated.length === 1 ? [counted.makes] : [...counted.kinds.values()];
  if (typed.length !== stated.length || made.length !== stated.length) return [];
  return typed.flatMap((span, i) => {
    const to = made[i] ?? 0;
    return span.number?.[0] === to || to < 1
      ? []
      : [{ span: { start: span.start, end: span.end }, newText: `${to}` }];
  });
}
