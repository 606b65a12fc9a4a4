import { sumOf } from "../fabric/count";
import { inTradeForm, multipleOf } from "../fabric/multiple";
import type { Outcome, State } from "../fabric/outcome";
import { hasProfile, profileOf } from "../fabric/profile";
import { isWorkedOnce } from "../fabric/rework";
import { countPlaces } from "../fabric/strip";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { type TextEdit, withEdits } from "../text/span";
import { type Group, isEven, isStaggered } from "./even";
import { evenText, groupsFor, type Shaping, type Spacing, shapingOf } from "./even-row";
import { editsFor, type Slot, slotsOf } from "./number-slots";
import {
  countForeseen,
  isRefusal,
  type Proved,
  proved,
  type Refusal,
  type RowTrial,
  trialOf,
} from "./row-trial";
import { type ShapedRow, shapedRow } from "./shaped-row";
import { difference } from "./text-difference";
import { begunLike, type Samples, samplesOf, wordingOf } from "./wording";

/** A row written anew; it was read and worked on its places, and is right. */
export interface Rewritten {
  readonly text: string;
  /** Stitches made then. */
  readonly makes: number;
  /** In offsets of the row's text. */
  readonly edits: readonly TextEdit[];
  /** Changes of the starting chain on the line before, in offsets of that line's text. */
  readonly chainEdits: readonly TextEdit[];
  readonly how: "count" | "numbers" | "spaced";
  /** What it leaves for the next row. */
  readonly after: State;
}

/** By the count that was asked for: the nearest counts are looked for again and again. */
const madeFor = keptBy((_: WorkedRow) => new Map<number, Rewritten | Refusal>());

/** The row on the places that it has, made to come to so many stitches. */
export function rewriteToMake(row: WorkedRow, piece: WorkedPiece, makes: number): Rewritten | Refusal {
  const known = madeFor(row).get(makes);
  if (known) return known;
  const found = toMake(row, piece, makes);
  madeFor(row).set(makes, found);
  return found;
}

function toMake(row: WorkedRow, piece: WorkedPiece, makes: number): Rewritten | Refusal {
  const trial = trialOf(row, piece);
  if (isRefusal(trial)) return trial;
  if (!isWorkedOnce(row)) return { why: say`it stands for several rows` };
  if (!Number.isInteger(makes) || makes < 1) return { why: say`a row makes one stitch or more` };
  for (const attempt of attemptsToMake(trial, makes)) {
    const found = attempt();
    if (found && found.makes === makes) return found;
  }
  return { why: say`nothing in it can be changed so that it makes ${makes}` };
}

type Attempt = () => Rewritten | null;

function attemptsToMake(trial: RowTrial, makes: number): Attempt[] {
  const slots = () => bySlots(trial, { makes });
  const chain = () => byChain(trial, makes);
  const shaped = () => {
    const own = shapedOf(trial);
    const shaping = own && shapingOf(trial.outcome.has[0] ?? 0, makes);
    return own && shaping ? spaced(trial, own, shaping, spacingOf(trial, own)) : null;
  };
  const asWritten = () => {
    const same = proved(trial, trial.text);
    return same && rewritten(trial, same, "count");
  };
  return [asWritten, chain, shaped, slots];
}

/** The row on other places, in its own way: as often as it was shaped, or as often as they allow. */
export function rewriteOn(row: WorkedRow, piece: WorkedPiece, on: State): Rewritten | Refusal {
  const trial = trialOf(row, piece);
  if (isRefusal(trial)) return trial;
  const asWritten = proved(trial, trial.text, on);
  if (asWritten && isReadAlike(trial, asWritten)) return rewritten(trial, asWritten, "count");
  const again = changedOn(trial, on);
  if (asWritten) return again ?? rewritten(trial, asWritten, "count");
  return again ?? { why: whyNot(trial, countPlaces(on[0]?.strip ?? [])) };
}

/** Increases that are spread evenly are spread anew; those that are where they are for a reason stay there. */
function changedOn(trial: RowTrial, on: State): Rewritten | null {
  const own = shapedOf(trial);
  if (!own) return bySlots(trial, { on });
  const inPlace = isEven(own.groups) ? null : bySlots(trial, { on, adds: addsIn(trial.outcome) });
  return inPlace ?? spacedOn(trial, own, on);
}

/** The row on other places, made to come to so many stitches there. */
export function rewriteOnToMake(
  row: WorkedRow,
  piece: WorkedPiece,
  on: State,
  makes: number,
): Rewritten | Refusal {
  const trial = trialOf(row, piece);
  if (isRefusal(trial)) return trial;
  const asWritten = proved(trial, trial.text, on);
  const isSame = asWritten?.outcome.makes[0] === makes;
  if (asWritten && isSame && isReadAlike(trial, asWritten)) return rewritten(trial, asWritten, "count");
  const own = shapedOf(trial);
  const shaping = own && shapingOf(countPlaces(on[0]?.strip ?? []), makes);
  const found = own && shaping ? spaced(trial, own, shaping, spacingOf(trial, own), on) : null;
  if (found?.makes === makes) return found;
  return asWritten && isSame
    ? rewritten(trial, asWritten, "count")
    : { why: say`it does not come to ${makes} there` };
}

/** `4 sc` over 8 stitches would be read as worked twice. */
function isReadAlike({ outcome }: RowTrial, { outcome: { reading } }: Proved): boolean {
  return `${reading}` === `${outcome.reading}`;
}

function whyNot({ outcome }: RowTrial, places: number): string {
  const multiple = multipleOf(outcome, 0);
  if (!multiple || multiple.of === 1) return say`it is not plain how it goes on over ${places}`;
  const { of, plus } = multiple;
  const below = places - ((((places - plus) % of) + of) % of);
  const near = below > 0 ? say`${below} or ${below + of}` : `${below + of}`;
  return say`it is worked over a ${inTradeForm({ ...multiple, startingChain: null })}: ${near}, and there are ${places}`;
}

export function rewritten(trial: RowTrial, { text, outcome }: Proved, how: Rewritten["how"]): Rewritten {
  const [makes, after] = [outcome.makes[0] ?? 0, outcome.after];
  return { text, makes, edits: difference(trial.text, text), chainEdits: [], how, after };
}

// Increases and decreases

export function shapedOf({ outcome }: RowTrial): ShapedRow | null {
  return shapeOf(outcome);
}

const shapeOf = keptBy((outcome: Outcome) => (outcome.how ? shapedRow(outcome.how.plan, outcome, 0) : null));

/** As it was; where it was not shaped, half a group at each end of a flat row. */
export function spacingOf({ row }: RowTrial, { groups, unit }: ShapedRow): Spacing {
  if (unit) return isStaggered(groups) ? "staggered" : "lined-up";
  return row.found?.setting.flat ? "staggered" : "lined-up";
}

/** The row with other groups of plain stitches. */
export function spaced(
  trial: RowTrial,
  own: ShapedRow,
  shaping: Shaping,
  spacing: Spacing,
  on?: State,
): Rewritten | null {
  const before = trial.text.slice(own.span.start, own.span.end);
  const stitches = groupsText(trial, own, shaping, groupsFor(shaping, spacing));
  if (losesLoops(before, stitches)) return null;
  const { units, plain, unit, filler } = shaping;
  const text = withEdits(trial.text, [
    { span: own.span, newText: begunLike(stitches, before) },
    ...countForeseen(trial, units * unit.makes + plain * filler.makes).filter(
      ({ span }) => span.start >= own.span.end,
    ),
  ]);
  const found = proved(trial, text, on);
  return found && rewritten(trial, found, "spaced");
}

const loop = /\b(?:[bf]lo?|(?:back|front|third|3rd)[\s-]loops?)\b/i;

/** What is worked into one loop of each stitch is so in every part of the row. */
function losesLoops(before: string, stitches: string): boolean {
  const parts = stitches.split(/[,;]/).filter((part) => !/^[\s*]*rep/i.test(part));
  return loop.test(before) && !parts.every((part) => loop.test(part));
}

function groupsText(trial: RowTrial, own: ShapedRow, shaping: Shaping, groups: readonly Group[]): string {
  const samples = samplesNear(trial);
  const wording = wordingOf(samples, own.kind, shaping.unit);
  const inc = wordingOf(samples, own.kind, shaping.filler);
  const isPlain = shaping.filler.uses === 1 && shaping.filler.makes === 1;
  const fill = isPlain ? wording.run : inc.units;
  const unitFirst = own.unitFirst && groups.every(({ plain, units }) => plain > 0 && units > 0);
  return evenText(groups, { wording, fill, unitFirst, leads: own.leads });
}

/** Rows looked at for a designer's ways. */
const neighboursAtMost = 12;

/** The row's own ways first, then those of the rows nearest to it. */
function samplesNear({ row, piece: { rows } }: RowTrial): Samples[] {
  const at = rows.indexOf(row);
  const from = Math.max(at - neighboursAtMost, 0);
  const near = rows
    .slice(from, at + neighboursAtMost + 1)
    .map((one, i) => ({ one, apart: Math.abs(from + i - at) }))
    .sort((a, b) => a.apart - b.apart);
  return near.flatMap(({ one }) => (one.line.plan ? [samplesOf(one.line.plan)] : []));
}

function spacedOn(trial: RowTrial, own: ShapedRow, on: State): Rewritten | null {
  const places = countPlaces(on[0]?.strip ?? []);
  const unit = own.unit ?? { uses: 1, makes: 1 };
  const filler = { uses: 1, makes: 1 };
  for (const units of unitsOn(own, places)) {
    const plain = places - units * unit.uses;
    const found =
      plain < 0 ? null : spaced(trial, own, { units, plain, unit, filler }, spacingOf(trial, own), on);
    if (found) return found;
  }
  return null;
}

/** As many more of the same groups as the places hold; else as many increases as before. */
function unitsOn({ groups, unit }: ShapedRow, places: number): number[] {
  const [units, plain] = [sumOf(groups.map((one) => one.units)), sumOf(groups.map((one) => one.plain))];
  if (!unit) return [0];
  const isRegular = isEven(groups) && (plain % units === 0 || units % plain === 0);
  const more = (places * units) / (plain + units * unit.uses);
  return isRegular && Number.isInteger(more) ? [more, units] : [units];
}

// Numbers

interface Goal {
  readonly makes?: number;
  readonly on?: State;
  /** Stitches more than there are places. */
  readonly adds?: number;
}

/** One number changed so that the row comes out; none where several could be. */
function bySlots(trial: RowTrial, goal: Goal): Rewritten | null {
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
  return chosen ? rewritten(trial, chosen.right, "numbers") : null;
}

/** Places needed more than there are. */
function overIn({ needs, has }: Outcome): number {
  return (needs[0] ?? 0) - (has[0] ?? 0);
}

function addsIn({ makes, has }: Outcome): number {
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

/** A row along a chain: the chain is made longer or shorter, and what is counted off along it. */
function byChain(trial: RowTrial, makes: number): Rewritten | null {
  const chain = trial.row.line.plan?.foundation ? ownChain(trial) : chainBelow(trial);
  if (!chain) return null;
  const free = chainFor(trial, makes, chain.n);
  if (free !== null) return chain.changed(free, trial.text);
  const by = makes - (trial.outcome.makes[0] ?? 0);
  const runs = slotsOf(trial).filter(({ isChain, n }) => !isChain && n + by >= 1);
  for (const slot of runs) {
    // Along both sides of a chain, each chain more is two stitches more.
    const each = by / slot.spans.length;
    if (!Number.isInteger(each)) continue;
    const found = chain.changed(chain.n + each, withEdits(trial.text, editsFor(slot, slot.n + each)), slot);
    if (found?.makes === makes) return found;
  }
  return null;
}

/** The chain that a row is worked along. */
interface Chain {
  readonly n: number;
  /** The row with another chain, and with `text` for its own, in which `slot` was changed. */
  changed(n: number, text: string, slot?: Slot): Rewritten | null;
}

/** The row itself begins with its chain. */
function ownChain(trial: RowTrial): Chain | null {
  const n = trial.row.line.plan?.foundation?.[0] ?? null;
  const own = slotsOf(trial).find((slot) => slot.isChain && slot.n === n);
  if (n === null || !own) return null;
  const changed = (to: number, _: string, slot?: Slot): Rewritten | null => {
    const run = slot ? editsFor(slot, slot.n + to - n) : [];
    const found = proved(trial, withEdits(trial.text, [...editsFor(own, to), ...run]));
    return found && rewritten(trial, found, "numbers");
  };
  return { n, changed };
}

/** The chain is on a line of its own. */
function chainBelow(trial: RowTrial): Chain | null {
  const { below, found } = trial.row;
  const n = found?.state[0]?.chain;
  if (below?.kind !== "foundation" || !n) return null;
  const digits = [...below.text.matchAll(/\d+/g)].filter(([text]) => Number(text) === n);
  const [only] = digits;
  if (digits.length !== 1 || !only) return null;
  const span = { start: only.index, end: only.index + only[0].length };
  const changed = (to: number, text: string): Rewritten | null => {
    const right = proved(trial, text, withChain(found.state, to));
    return right && { ...rewritten(trial, right, "numbers"), chainEdits: [{ span, newText: `${to}` }] };
  };
  return { n, changed };
}

function chainFor({ outcome }: RowTrial, makes: number, chain: number): number | null {
  const profile = profileOf(outcome, 0);
  if (!hasProfile(profile) || !profile.repeat?.isFree) return null;
  // What a row counts in things of no name, `2 fans`, goes with its repeats.
  const made = profile.makes ?? { base: 0, each: (outcome.makes[0] ?? 0) / profile.k };
  if (!made.each) return null;
  const passes = (makes - made.base) / made.each - profile.k;
  const to = chain + passes * profile.needs.each;
  return Number.isInteger(passes) && to >= 1 ? to : null;
}

function withChain(state: State, chain: number): State {
  return state.map((below) => below && { ...below, chain });
}
