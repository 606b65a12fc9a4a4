import { sumOf } from "../fabric/count";
import { inTradeForm, multipleOf } from "../fabric/multiple";
import type { Outcome, State } from "../fabric/outcome";
import { isWorkedOnce } from "../fabric/rework";
import { countPlaces } from "../fabric/strip";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { withEdits } from "../text/span";
import { byChain } from "./by-chain";
import { addsIn, bySlots } from "./by-numbers";
import { type Group, isEven, isStaggered } from "./even";
import { evenText, groupsFor, type Shaping, type Spacing, shapingOf } from "./even-row";
import { type Rewritten, rewritten } from "./rewritten";
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
import { begunLike, type Samples, samplesOf, wordingOf } from "./wording";

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
