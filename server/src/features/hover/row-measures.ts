import type { WorkedPattern, WorkedPiece, WorkedRow } from "../../fabric/worked";
import type { Basis } from "../../measure/basis";
import { type Curvature, lieOf } from "../../measure/curvature";
import { estimateOf, inWords } from "../../measure/figures";
import type { MeasureOptions } from "../../measure/materials";
import { openingsInWords, rowSizeInWords } from "../../measure/row-size";
import { rowsYarn, rowYarn, sumOf } from "../../measure/row-yarn";
import { roundsOf } from "../../measure/size";
import { durationInWords, minutesOf, shortestTime } from "../../measure/time";
import { type YarnUse, yarnUseOf } from "../../measure/yarn-used";
import { say } from "../../text/say";
import type { PlacedRow } from "../placed-row";
import type { SizeRow } from "../shown/size-table";

/** What a row takes of yarn and time, and how it lies, for each size. */
export function measureRows(placed: PlacedRow, pattern: WorkedPattern, options: MeasureOptions): SizeRow[] {
  const use = yarnUseOf(pattern);
  return [...yarnRows(placed, use), ...timeRow(placed, use, options), ...sizeRows(placed, use)];
}

/** What the yarn is worked out from. */
export function measureNotes({ row, piece }: PlacedRow, pattern: WorkedPattern): string[] {
  const use = yarnUseOf(pattern);
  const { basis } = use.ground;
  return basis && rowYarn(row, piece, use).some((n) => n !== null) ? [say`Yarn by ${basis.says}.`] : [];
}

function yarnRows({ row, piece }: PlacedRow, use: YarnUse): SizeRow[] {
  const { basis } = use.ground;
  const own = rowYarn(row, piece, use);
  if (basis === null || own.every((n) => n === null)) return [];
  const before = soFar(row, piece, use);
  const whole = use.ofPiece(piece).map(sumOf);
  return [
    { label: say`yarn`, cells: own.map((n) => (n === null ? null : `${metres(n, basis)} m`)) },
    ...byColour(row, piece, use, basis),
    {
      label: say`yarn so far in ${piece.piece.name || say`this piece`}`,
      cells: whole.map((all, size) => say`${metres(before[size] ?? 0, basis)} of ${metres(all, basis)} m`),
    },
  ];
}

/** Of a row of several yarns, each by itself. */
function byColour(row: WorkedRow, piece: WorkedPiece, use: YarnUse, basis: Basis): SizeRow[] {
  const sums = use.ofRow(row, piece);
  const keys = [...new Set(sums.flatMap((one) => [...one.keys()]))];
  if (keys.length < 2) return [];
  return keys.map((key) => ({
    label: typeof key === "number" ? (use.ground.list.yarns[key]?.name ?? say`yarn`) : key,
    cells: sums.map((one) => (one.has(key) ? `${metres(one.get(key) ?? 0, basis)} m` : null)),
  }));
}

/** Up to a row, that row with it; without tails. */
function soFar(row: WorkedRow, piece: WorkedPiece, use: YarnUse): number[] {
  const sums = piece.context.sizes.map(() => 0);
  for (const lengths of rowsYarn(piece, use).slice(0, piece.rows.indexOf(row) + 1))
    for (const [size, n] of lengths.entries()) sums[size] = (sums[size] ?? 0) + (n ?? 0);
  return sums;
}

function metres(millimetres: number, basis: Basis): string {
  return inWords(estimateOf(millimetres / 1000, basis));
}

function timeRow({ row, piece }: PlacedRow, use: YarnUse, { stitchesPerMinute }: MeasureOptions): SizeRow[] {
  const minutes = minutesOf(row, stitchesPerMinute, use.timesOf(row, piece));
  if (minutes.every((n) => n === null || n < shortestTime)) return [];
  return [{ label: say`time`, cells: minutes.map((n) => (n ? durationInWords(n) : null)) }];
}

/** Where the piece stands at the end of the row, and how it lies there. */
function sizeRows({ row, piece }: PlacedRow, { ground: { basis, paths } }: YarnUse): SizeRow[] {
  if (basis === null) return [];
  const bySize = piece.context.sizes.map((_, size) => {
    const rounds = roundsOf(piece, size, basis, paths);
    const own = rounds?.findLast((round) => round.row === row);
    const lie = lieOf(piece, rounds, basis)?.findLast((round) => round.row === row);
    return {
      measures: own && basis.gauge ? rowSizeInWords(own, piece.rows) : null,
      openings: own && basis.gauge ? openingsInWords(own, basis) : null,
      lies: lie ? lieInWords(lie) : null,
    };
  });
  return [
    { label: say`measures`, cells: bySize.map(({ measures }) => measures) },
    { label: say`openings`, cells: bySize.map(({ openings }) => openings) },
    { label: say`lies`, cells: bySize.map(({ lies }) => lies) },
  ];
}

function lieInWords({ lies, has, flatCount }: Curvature): string {
  const near = Math.round(flatCount);
  if (lies === "flat") return say`flat`;
  return lies === "cups"
    ? say`cupped: ${has} sts where ${near} would lie flat`
    : say`ruffled: ${has} sts where ${near} would lie flat`;
}
