import type { Instruction } from "../../fabric/instructions";
import { placesNoun } from "../../rules/wording";
import { say } from "../../text/say";
import { shift } from "../../text/span";
import type { PlacedRow } from "../placed-row";
import type { Telling } from "../proof/done";
import { placesShort } from "../proof/place-names";
import { instructionsBehind, instructionsOf } from "../row-instructions";
import { isMany } from "../row-names";
import { type Block, line, title } from "../shown/blocks";
import { sts } from "../shown/counts";
import { type SizeRow, sizeTable } from "../shown/size-table";
import { type Share, shareOf } from "../step-sums";
import { instructionAt, spansIn } from "./instruction-at";
import type { HoverPart } from "./place";
import { passesOfRepeat, type RepeatPasses } from "./repeat-passes";

/** `(sc, inc) x6`, `2 sc in next st`: how often it is worked, and what of the row it uses and makes. */
export const partOfRow: HoverPart = {
  at(place) {
    const { placed, offset, pattern } = place;
    if (!placed) return null;
    const { row } = placed;
    const instruction = instructionAt(row, offset - row.line.start);
    if (!instruction) return null;
    const rows = [...repeatRows(instruction, placed), ...shareRows(instruction, placed)];
    const table = sizeTable("", pattern.context.sizes, rows);
    if (table.length === 0) return null;
    const span = shift(instruction.span, row.line.start);
    return { span, blocks: [title(place.textOf(span)), ...table, ...whole(instruction, placed)] };
  },
};

/** What some words of a row use and make, for each size. */
export function shareRows(instruction: Instruction, { row }: PlacedRow): SizeRow[] {
  const { outcome, result } = row;
  if (!outcome || result === "unchecked") return [];
  const spans = spansIn(instruction);
  const shares = outcome.steps.map((steps) => (steps.length > 0 ? shareOf(steps, spans) : null));
  if (!shares.some((share) => share && share.uses + share.makes > 0)) return [];
  const over = outcome.has.some((n) => n !== null);
  const ofAll = (size: number) => (isMany(row) ? "" : say` of ${outcome.has[size] ?? 0}`);
  const uses = shares.map((share, size) => share && `${share.uses}${ofAll(size)}`);
  return [
    ...(over ? [{ label: say`uses ${placesShort(placesNoun(row))}`, cells: uses }] : []),
    { label: say`makes`, cells: shares.map(madeIn) },
  ];
}

function madeIn(share: Share | null): string | null {
  return share && (share.makes === 0 ? say`no stitch` : sts(share.makes));
}

/** How often a repeat is worked, and what is done each time; nothing for one that is worked once. */
function repeatRows(instruction: Instruction, { row }: PlacedRow): SizeRow[] {
  const { outcome, result } = row;
  if (instruction.op !== "repeat" || !outcome || result === "unchecked") return [];
  const telling: Telling = {
    instructions: instructionsBehind(row, row.line),
    noun: placesNoun(row),
    onRing: outcome.needs.every((n) => n === null),
  };
  const passes = outcome.steps.map((steps) => passesOfRepeat(instruction, steps, telling));
  if (!passes.some((one) => one && one.times > 1)) return [];
  return [
    { label: say`worked`, cells: passes.map((one) => one && timesWords(one)) },
    { label: say`each time`, cells: passes.map((one) => one?.once ?? null) },
  ];
}

function timesWords({ times, lastIsShort }: RepeatPasses): string {
  return `${times === 1 ? say`once` : say`${times} times`}${lastIsShort ? say`, the last not to its end` : ""}`;
}

/** An instruction inside a repeat is told with all its times. */
function whole(instruction: Instruction, placed: PlacedRow): Block[] {
  const { plan } = placed.row.line;
  const all = [...instructionsOf({ instructions: plan?.instructions ?? [], carried: [] }).values()];
  const around = all.filter((one) => one !== instruction && spansIn(one).has(instruction.span));
  return around.some((one) => repeatRows(one, placed).length > 0) ? [line(say`All repeats counted.`)] : [];
}
