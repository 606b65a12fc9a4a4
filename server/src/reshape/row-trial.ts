import type { PatternContext } from "../fabric/context";
import { copyOf } from "../fabric/copies";
import type { RowPlan } from "../fabric/instructions";
import type { Outcome, State, Ways } from "../fabric/outcome";
import { hasProfile, profileOf } from "../fabric/profile";
import { isRight, type Reworking, reworking } from "../fabric/rework";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { readWords, type Word } from "../notation/words";
import { say } from "../text/say";
import { type TextEdit, withEdits } from "../text/span";
import { spelledOut } from "./number-slots";
import { begunLike } from "./wording";

/** A row that can be written anew and worked again on the places it found, or on others. */
export interface RowTrial {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
  readonly text: string;
  readonly outcome: Outcome;
  readonly rework: Reworking;
}

/** Characters; a longer row is not rewritten. */
const longestRewritten = 2_000;

const placesTried = 200_000;

/** Why a row cannot be rewritten, in a maker's words. */
export interface Refusal {
  readonly why: string;
}

export function trialOf(row: WorkedRow, piece: WorkedPiece): RowTrial | Refusal {
  const { found, outcome, line, result } = row;
  if (result === "unchecked") return { why: row.reason ?? say`it is not understood` };
  if (result === "ambiguous") return { why: say`it can be read in more than one way` };
  if (!found || !outcome || line.kind === "foundation") return { why: say`it is not worked on stitches` };
  if (line.kind === "copy" || line.plan?.copies || copyOf(line.content))
    return { why: say`it stands for other rows` };
  if (piece.context.sizes.length > 1) return { why: say`it is written for several sizes` };
  if (line.text.length > longestRewritten) return { why: say`it is too long` };
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
  const fitting = fittingWay(trial, trial.rework(text, on));
  if (!fitting) return null;
  // A text that is right as it stands keeps its count, whichever reading comes first.
  const asWritten = text === trial.text ? [() => []] : [];
  for (const counted of [...asWritten, ...countsFor(trial, fitting)]) {
    const newText = withEdits(text, counted());
    const right = trial
      .rework(newText, on)
      .all()
      .filter((one) => isRight(asFarAsBefore(trial, one)));
    const [outcome] = right;
    if (outcome && isSettled(trial, outcome, right)) return { text: newText, outcome };
  }
  return null;
}

/** `40 sc evenly along the edge` says no more of its places with another number: its count alone is checked. */
function asFarAsBefore(trial: RowTrial, one: Outcome): Outcome {
  return isByCountAlone(trial) ? { ...one, outOfReach: null } : one;
}

function isByCountAlone({ row, outcome }: RowTrial): boolean {
  return row.line.plan?.outOfReach != null && outcome.needs.every((n) => n === null);
}

/** As the row is read now, where it fits so. */
function fittingWay(trial: RowTrial, ways: Ways): Outcome | undefined {
  const isFitting = (one: Outcome): boolean => one.fits && asFarAsBefore(trial, one).outOfReach === null;
  const alike = ways.readAs(trial.outcome);
  return alike && isFitting(alike) ? alike : ways.find(isFitting);
}

/** The ways to bring a count into line: what is made, told as the count tells it, or what the repeats add to it. */
function countsFor({ piece, outcome }: RowTrial, fitting: Outcome): (() => TextEdit[])[] {
  const made = () => countEdits(piece.context, fitting.how?.plan ?? null, fitting);
  const added = () => countByRepeats(piece.context, outcome, fitting);
  const isOwnWay = outcome.counted[0]?.chainsCounted === true || fitting.counted[0]?.unknownNoun != null;
  return isOwnWay ? [added, made] : [made, added];
}

/** `6 petals` of a repeat that is worked twice more are `8 petals`, whatever a petal is. */
function countByRepeats(context: PatternContext, before: Outcome, after: Outcome): TextEdit[] {
  const [k, now] = [passesOf(before), passesOf(after)];
  const plan = after.how?.plan;
  if (!plan?.stated || k === null || now === null || k === 0) return [];
  const made = plan.stated.map(({ n: [n] }) => (n ?? 0) + (now - k) * Math.floor((n ?? 0) / k));
  return typedCounts(context, plan).flatMap((span, i) => countEdit(span, made[i] ?? 0, plan.text));
}

function passesOf(outcome: Outcome): number | null {
  const profile = profileOf(outcome, 0);
  return hasProfile(profile) && profile.repeat ? profile.k : null;
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
  if (!plan?.stated || !counted) return [];
  const made = plan.stated.length === 1 ? [counted.makes] : [...counted.kinds.values()];
  if (made.length !== plan.stated.length) return [];
  return typedCounts(context, plan).flatMap((span, i) => countEdit(span, made[i] ?? 0, plan.text));
}

/** The count of a row that states what it makes, for what it is going to make. */
export function countForeseen({ piece, row, outcome }: RowTrial, makes: number): TextEdit[] {
  const { plan } = row.line;
  const [typed, ...others] = plan ? typedCounts(piece.context, plan) : [];
  const isAll = typed && others.length === 0 && typed.number?.[0] === outcome.makes[0];
  return isAll ? countEdit(typed, makes, row.line.text) : [];
}

/** The numbers of a count as they are typed; none where they are not one for each kind. */
function typedCounts({ lexicon }: PatternContext, { stated, statedSpan, text }: RowPlan): Word[] {
  if (!stated || !statedSpan) return [];
  const typed = readWords(text, lexicon).filter(
    ({ cls, start, end }) => cls === "n" && start >= statedSpan.start && end <= statedSpan.end,
  );
  if (typed.length === stated.length) return typed;
  // `9 dc, counting the ch 3 as 1`: other numbers stand behind those that are counted.
  const counted = typed.slice(0, stated.length);
  return counted.length === stated.length && counted.every(({ number }, i) => number?.[0] === stated[i]?.n[0])
    ? counted
    : [];
}

function countEdit({ start, end, number }: Word, to: number, text: string): TextEdit[] {
  if (number?.[0] === to || to < 1) return [];
  const typed = text.slice(start, end);
  const newText = /^\d/.test(typed) ? `${to}` : begunLike(spelledOut(to), typed);
  return [{ span: { start, end }, newText }];
}
