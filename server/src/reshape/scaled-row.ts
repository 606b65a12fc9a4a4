import type { State } from "../fabric/outcome";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { type TextEdit, withEdits } from "../text/span";
import { editsFor, type Slot, slotsOf } from "./number-slots";
import { type Rewritten, rewritten } from "./rewritten";
import { isRefusal, proved, trialOf } from "./row-trial";

/**
 * A row with openings on other places, all its numbers so many times as great: `sc 8, ch 8, sk 8, sc 16…` and half as
 * much again is `sc 12, ch 12, sk 12, sc 24…`. Null where a number would not be whole.
 */
export function rewriteInProportion(
  row: WorkedRow,
  piece: WorkedPiece,
  on: State,
  by: number,
): Rewritten | null {
  const trial = trialOf(row, piece);
  if (isRefusal(trial)) return null;
  const slots = slotsOf(trial).filter((slot) => slot.spans.length === 1 && !isOpeningChain(slot, trial.text));
  const to = (slot: Slot): number => (isIntoSpace(slot, trial.text) ? Math.round(slot.n * by) : slot.n * by);
  if (slots.length < 2 || slots.some((slot) => !Number.isInteger(to(slot)))) return null;
  const numbers = slots.flatMap((slot) => editsFor(slot, to(slot)));
  const isTaken = ({ span }: TextEdit) => numbers.some((one) => one.span.start === span.start);
  const names = openingsNamed(trial.text, by).filter((edit) => !isTaken(edit));
  const found = proved(trial, withEdits(trial.text, [...numbers, ...names]), on);
  return found && rewritten(trial, found, "numbers");
}

/** Chains of a space that is no mesh any more. */
const shortestOpening = 4;

/** `ch-8 sps`, named by their chains, in the row and in its count. */
function openingsNamed(text: string, by: number): TextEdit[] {
  return [...text.matchAll(/(?<=\bch-)\d+|\d+(?=-?ch\b)/gi)].flatMap(({ 0: digits, index }) => {
    const to = Number(digits) * by;
    const span = { start: index, end: index + digits.length };
    return Number(digits) >= shortestOpening && Number.isInteger(to) ? [{ span, newText: `${to}` }] : [];
  });
}

/** `10 sc in next ch-8 sp`: as many as one likes. */
function isIntoSpace({ spans: [span] }: Slot, text: string): boolean {
  return /^\s*\p{L}+\s+in(?:to)?\s[^,;.]*?\b(?:sps?|spaces?|lps?|loops?)\b/iu.test(
    text.slice(span?.end ?? 0),
  );
}

/** `ch 1` before the first stitch, `2nd ch`. */
function isOpeningChain({ isChain, spans: [span] }: Slot, text: string): boolean {
  return isChain && !/[\p{L}\d]\W*[,;]/u.test(text.slice(0, span?.start ?? 0));
}
