import { countStitches } from "../fabric/steps";
import { countPlaces, type Run, type Strip } from "../fabric/strip";
import type { WorkedRow } from "../fabric/worked";
import type { WorkedPattern } from "../rules/rule";
import { placesNoun } from "../rules/wording";
import { say } from "../text/say";
import type { RowReport } from "../workspace/report";
import { rowReport } from "../workspace/row-report";
import { type PlacedRow, workedRow } from "./placed-row";
import { manyPlaces, onePlace, type PlaceName, placesShort } from "./proof/place-names";
import { wordsBehind } from "./row-instructions";
import { belowTitle, isMany, roundsOrRows, rowTitle, rowWords } from "./row-names";
import { runningTotals, type Total } from "./running-totals";
import { kindsOf, sts } from "./shown/counts";
import type { SizeRow } from "./shown/size-table";
import { grouped, type Numbers } from "./shown/sized";

/** What is known of a row, for each size: worked over, made, left, changed, and the totals so far. */
export function factsOf(placed: PlacedRow, pattern: WorkedPattern): SizeRow[] {
  const report = rowReport(placed.row, pattern.context.sizes.length);
  return [
    timesRow(placed, report),
    overRow(placed, report),
    makesRow(placed.row, report),
    statedRow(report),
    leavesRow(placed.row),
    changeRow(placed),
    ...totalRows(placed, pattern),
  ].flatMap((row) => row ?? []);
}

function timesRow({ row, piece }: PlacedRow, { times, kind, makes }: RowReport): SizeRow | null {
  if (kind === "foundation" || row.result === "unchecked" || times?.every((n) => n === 1)) return null;
  const cells = times?.map(String) ?? (makes ?? []).map(() => say`as many as needed`);
  return { label: rowWords(roundsOrRows(row.line, piece)), cells };
}

function overRow({ row, piece }: PlacedRow, { needs, has }: RowReport): SizeRow | null {
  if (!has) return null;
  const noun = placesNoun({ ...row, line: wordsBehind(row, piece) });
  const [places, below] = [placesShort(noun), belowTitle(row, piece)];
  if (!needs)
    return {
      label: say`${places} of ${below}`,
      cells: has.map((there) => (there === null ? null : `${there}`)),
    };
  const label = isMany(row)
    ? say`the first is worked over ${places} of ${below}`
    : say`worked over ${places} of ${below}`;
  return {
    label,
    cells: has.map((there, size) => (there === null ? null : say`${needs[size] ?? 0} of ${there}`)),
  };
}

function ring({ times }: RowReport): SizeRow {
  return { label: say`makes`, cells: (times ?? []).map(() => say`a ring for any number of stitches`) };
}

function makesRow(row: WorkedRow, report: RowReport): SizeRow | null {
  if (!report.makes) return report.kind === "foundation" ? ring(report) : null;
  const cells = report.makes.map((n, size) => {
    if (n === null) return null;
    const kinds = kindsOf(report, size);
    if (report.kind === "foundation") return say`${n} chains`;
    const stitches = countStitches(row.outcome?.steps[size] ?? []);
    const all = stitches > 0 && stitches !== n ? say` (${stitches} stitches)` : "";
    return `${kinds || sts(n)}${all}`;
  });
  return { label: isMany(row) ? say`the last makes` : say`makes`, cells };
}

function statedRow({ stated, result }: RowReport): SizeRow | null {
  return result === "wrong-count" && stated
    ? { label: say`the line says`, cells: stated.map((n) => (n === null ? null : `${n}`)) }
    : null;
}

/** What the next row finds, where that is more than the stitches that are counted. */
function leavesRow({ outcome, result }: WorkedRow): SizeRow | null {
  if (!outcome || result === "unchecked") return null;
  const cells = outcome.leaves.state.map((below, size) =>
    outcome.makes[size] == null || !below ? null : placesIn(below.strip),
  );
  return cells.some((cell) => cell?.includes(",")) ? { label: say`leaves`, cells } : null;
}

const sorts: readonly (readonly [sort: Run["sort"], place: PlaceName])[] = [
  ["stitch", "st"],
  ["space", "sp"],
  ["chain", "ch"],
];

function placesIn(strip: Strip): string {
  return sorts
    .map(([sort, place]) => [countPlaces(strip, (run) => run.sort === sort), place] as const)
    .filter(([n]) => n > 0)
    .map(([n, place]) => `${n} ${n === 1 ? onePlace(place) : manyPlaces(place)}`)
    .join(", ");
}

/** More or fewer stitches than the row below; nothing where either is counted by other things than stitches. */
function changeRow({ row, piece }: PlacedRow): SizeRow | null {
  const below = workedRow(piece, row.below);
  const [made, before] = [plainCount(row), below && plainCount(below)];
  if (!made || !before || !row.below || row.line.plan?.onRow != null) return null;
  const cells = made.map((n, size) => changeOf(n, before[size] ?? null));
  return { label: say`change from ${rowTitle({ line: row.below })}`, cells };
}

function changeOf(n: number | null, before: number | null): string | null {
  if (n === null || before === null) return null;
  return n > before ? `+${n - before}` : n < before ? `−${before - n}` : say`none`;
}

function plainCount({ outcome, result }: WorkedRow): Numbers | null {
  if (!outcome || result === "unchecked") return null;
  const isPlain = outcome.makes.every((n, size) => n === null || isEvery(outcome.steps[size] ?? [], n));
  return isPlain ? outcome.makes : null;
}

function isEvery(steps: Parameters<typeof countStitches>[0], n: number): boolean {
  return steps.length === 0 || countStitches(steps) === n;
}

function totalRows(placed: PlacedRow, pattern: WorkedPattern): SizeRow[] {
  const { row, piece } = placed;
  if (row.line.kind === "foundation") return [];
  const totals = runningTotals(pattern);
  const name = piece.piece.name || say`this piece`;
  const inPiece = {
    label: say`so far in ${name}`,
    cells: soFar(totals.upTo(placed), totals.ofPiece(piece)),
  };
  const isAll = pattern.pieces.length === 1 && piece.piece.make === 1;
  const inAll = {
    label: say`so far in the whole pattern`,
    cells: soFar(totals.ofPatternUpTo(placed), totals.ofPattern),
  };
  return isAll ? [inPiece] : [inPiece, inAll];
}

function soFar(now: Total, all: Total): string[] {
  return now.map((n, size) => say`${grouped(n)} of ${sts(all[size] ?? 0)}`);
}
