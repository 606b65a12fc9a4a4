import type { WorkedRow } from "../../fabric/worked";
import { type NextStep, nextStep } from "../../reshape/next-step";
import { say } from "../../text/say";
import { type PlacedRow, pieceAround } from "../placed-row";
import { rowTitle } from "../row-names";
import { type Block, line, title } from "../shown/blocks";
import { sized } from "../shown/sized";
import type { CompletionEntry, CompletionSource } from "./entry";
import { firstHead, nextHead } from "./next-head";
import type { WritingPlace } from "./writing-place";

/** The next row as a whole, where the rows before it go on evenly; its number alone; behind a head, what it would say. */
export const nextRow: CompletionSource = (place) => {
  if (place.isAtStart && place.behind.trim() === "") return startOfRow(place);
  return place.isInRow && place.current?.row.line.kind === "row" ? restOfRow(place) : [];
};

function startOfRow(place: WritingPlace): CompletionEntry[] {
  const head = place.above ? nextHead(place.rowsAbove, place.pattern) : headOfFirst(place);
  if (head === null) return [];
  const indent = /^\s*/.exec(place.before)?.[0].length ?? 0;
  const span = { start: place.line.start + indent, end: place.offset };
  const number: CompletionEntry = {
    kind: "row",
    label: head.trim(),
    detail: place.above ? say`the next row` : say`the first row`,
    span,
    newText: head,
    rank: 1,
    blocks: () => [],
  };
  const step = place.above && nextStep(place.rowsAbove, place.above.piece);
  return step ? [wholeRow(head, step, place.above as PlacedRow, span), number] : [number];
}

/** Right under the heading of a piece that has no rows yet. */
function headOfFirst({ pattern, line: { start } }: WritingPlace): string | null {
  const before = pattern.lines.findLast((one) => one.start < start && one.kind !== "blank");
  const isPiece = before?.kind === "heading" && !notPieces.test(before.text.trim());
  return isPiece && pieceAround(pattern, start - 1) === null ? firstHead(pattern) : null;
}

const notPieces =
  /^(?:materials?|notes?|pattern notes|abbreviations?|gauge|tension|assembly|finishing|making up|special stitch)/i;

function wholeRow(
  head: string,
  step: NextStep,
  above: PlacedRow,
  span: CompletionEntry["span"],
): CompletionEntry {
  const text = `${head}${step.text}`;
  return {
    kind: "row",
    label: text,
    detail: stitches(step),
    span,
    newText: text,
    rank: 0,
    blocks: () => blocksOf(text, step, above.row),
  };
}

function stitches({ makes }: NextStep): string {
  return say`${sized(makes)} sts`;
}

function blocksOf(text: string, step: NextStep, above: WorkedRow): Block[] {
  const has = above.outcome?.makes ?? [];
  return [
    title(text),
    line(
      say`Goes on as the rows before it do: ${rowTitle(above)} has ${sized(has)} sts, this row makes ${sized(step.makes)}. It was tried on ${rowTitle(above)} and fits.`,
    ),
  ];
}

/** `Rnd 7: ` is there already, and perhaps the first words. */
function restOfRow(place: WritingPlace): CompletionEntry[] {
  const { written, above } = place;
  if (!above || place.behind.trim() !== "" || written.length > 200) return [];
  const step = nextStep(place.rowsAbove, above.piece);
  if (!step?.text.toLowerCase().startsWith(written.toLowerCase())) return [];
  const span = { start: place.offset - written.length, end: place.offset };
  return [
    {
      kind: "row",
      label: step.text,
      detail: stitches(step),
      span,
      newText: step.text,
      rank: 0,
      blocks: () => blocksOf(step.text, step, above.row),
    },
  ];
}
