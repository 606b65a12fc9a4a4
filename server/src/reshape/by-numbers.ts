import type { Outcome, State } from "../fabric/outcome";
import { hasProfile, profileOf } from "../fabric/profile";
import type { WorkedRow } from "../fabric/worked";
import { withEdits } from "../text/span";
import { editsFor, type Slot, slotsOf } from "./number-slots";
import { type Rewritten, rewritten } from "./rewritten";
import { type Proved, proved, type RowTrial } from "./row-trial";

/** What a row is to come to. */
export interface Goal {
  readonly makes?: number;
  readonly on?: State;
  /** Stitches more than there are places. */
  readonly adds?: number;
}

/** One number changed so that the row comes out; none where several could be. */
export function bySlots(trial: RowTrial, goal: Goal): Rewritten | null {
  // The stitch repeat is the design: on other places it is worked more or less often, never changed.
  const isFixed = goal.on !== undefined && goal.adds === undefined && hasRepeat(trial);
  const slots = slotsOf(trial).filter((slot) => !slot.isChain && (!isFixed || isMainRepeat(trial, slot)));
  const found = slots.flatMap((slot) => {
    const n = solved(trial, slot, goal);
    const right = n === null ? null : proved(trial, withEdits(trial.text, editsFor(slot, n)), goal.on);
    if (right && goal.adds !== undefined && addsIn(right.outcome) !== goal.adds) return [];
    return right ? [{ slot, right, isRepeat: isMainRepeat(trial, slot) }] : [];
  });
  const chosen =
    found.find(({ isRepeat }) => isRepeat) ?? (found.length === 1 ? found[0] : balanced(trial, found));
  if (chosen) return rewritten(trial, chosen.right, "numbers");
  return goal.makes === undefined ? null : withWhatIsLeft(trial, slots, goal.makes);
}

const left = /\b(?:leav(?:e|ing)|left|last|remaining)\s+(?:the\s+)?(?:last\s+|remaining\s+|other\s+)?$/i;

/** `Sc in next 32 sts, leave remaining 8 sts unworked`: what is worked more is left less. */
function withWhatIsLeft(trial: RowTrial, slots: readonly Slot[], makes: number): Rewritten | null {
  const single = slots.filter(({ spans }) => spans.length === 1);
  const isLeft = ({ spans: [span] }: Slot): boolean => left.test(trial.text.slice(0, span?.start ?? 0));
  const [unworked, ...others] = single.filter(isLeft);
  const by = makes - (trial.outcome.makes[0] ?? 0);
  if (!unworked || others.length > 0 || unworked.n - by < 1 || !/\bleav|\bunworked\b/i.test(trial.text))
    return null;
  const found = single
    .filter((slot) => slot !== unworked && slot.n + by >= 1)
    .flatMap((slot) => {
      const edits = [...editsFor(slot, slot.n + by), ...editsFor(unworked, unworked.n - by)];
      const right = proved(trial, withEdits(trial.text, edits));
      return right?.outcome.makes[0] === makes ? [right] : [];
    });
  return found.length === 1 && found[0] ? rewritten(trial, found[0], "numbers") : null;
}

/** Places needed more than there are. */
function overIn({ needs, has }: Outcome): number {
  return (needs[0] ?? 0) - (has[0] ?? 0);
}

export function addsIn({ makes, has }: Outcome): number {
  return (makes[0] ?? 0) - (has[0] ?? 0);
}

interface FoundSlot {
  readonly slot: Slot;
  readonly right: Proved;
}

/**
 * Of several numbers that would do, those that are the same at both ends, else the one in the middle of a row that
 * is the same from both ends; what the row adds or takes away stays.
 */
function balanced(trial: RowTrial, found: readonly FoundSlot[]): FoundSlot | undefined {
  const even = found.filter(({ right }) => addsIn(right.outcome) === addsIn(trial.outcome));
  const together = even.filter(({ slot }) => slot.spans.length === 2);
  const isFlat = trial.row.found?.setting.flat === true;
  const middle = isFlat ? middleOf(slotsOf(trial).filter(({ isChain }) => !isChain)) : null;
  return together.length === 1 ? together[0] : even.find(({ slot }) => slot.spans[0]?.start === middle);
}

/** Where the middle number of a row stands whose numbers are the same from both ends; else null. */
function middleOf(slots: readonly Slot[]): number | null {
  const single = slots.filter(({ spans }) => spans.length === 1);
  const numbers = single.map(({ n }) => n);
  const isAlike = numbers.length % 2 === 1 && `${[...numbers].reverse()}` === `${numbers}`;
  return isAlike ? (single[(single.length - 1) / 2]?.spans[0]?.start ?? null) : null;
}

export function hasRepeat({ outcome }: Pick<WorkedRow, "outcome">): boolean {
  const profile = outcome && profileOf(outcome, 0);
  return profile !== null && hasProfile(profile) && profile.repeat !== null;
}

/** The number is how often the main repeat is worked: behind its body, at its end. */
function isMainRepeat({ outcome }: RowTrial, { spans }: Slot): boolean {
  const profile = profileOf(outcome, 0);
  if (!hasProfile(profile) || !profile.repeat || profile.repeat.isFree) return false;
  const { start, end } = profile.repeat.span;
  const text = outcome.how?.plan.text ?? "";
  return spans.every(
    (span) => span.start >= start && span.end <= end && !/[)\]}*;]/.test(text.slice(span.end, end)),
  );
}

/** One more tells what each one does: from that the number that is wanted. */
function solved(trial: RowTrial, slot: Slot, { makes, on }: Goal): number | null {
  const at = (n: number): Outcome | undefined => {
    const ways = trial.rework(withEdits(trial.text, editsFor(slot, n)), on);
    return ways.readAs(trial.outcome) ?? ways.all()[0];
  };
  const [now, next] = [at(slot.n), at(slot.n + 1)];
  if (!now || !next) return null;
  // One more of it that takes other places: then no number but its own fits on these.
  if (makes !== undefined && overIn(now) !== overIn(next)) return null;
  const value = (one: Outcome): number => (makes === undefined ? overIn(one) : (one.makes[0] ?? 0) - makes);
  const each = value(next) - value(now);
  // How many are worked into one place beside others is the design: a corner, the end of a row.
  const isIntoOne = makes !== undefined && next.needs[0] === now.needs[0] && Math.abs(each) === 1;
  const isDesign = isIntoOne && ((now.needs[0] ?? 0) > 1 || hasRepeat(trial));
  if (isDesign && !isMainRepeat(trial, slot)) return null;
  const n = slot.n - value(now) / each;
  return each !== 0 && Number.isInteger(n) && n >= 1 && n !== slot.n ? n : null;
}
