import { countStitches } from "../fabric/steps";
import { countPlaces, type Run, type Strip } from "../fabric/strip";
import type { WorkedRow } from "../fabric/worked";
import type { WorkedPattern } from "../rules/rule";
import { placesNoun } from "../rules/wording";
import type { RowReport } from "../workspace/report";
import { rowReport } from "../workspace/row-report";
import { type PlacedRow, workedRow } from "./placed-row";
import { placesShort } from "./proof/place-names";
import { wordsBehind } from "./row-instructions";
import { belowTitle, isMany, roundsOrRows, rowTitle } from "./row-names";
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
  const cells = times?.map(String) ?? (makes ?? []).map(() => "as many as needed");
  return { label: roundsOrRows(row.line, piece), cells };
}

function overRow({ row, piece }: PlacedRow, { needs, has }: RowReport): SizeRow | null {
  if (!has) return null;
  const noun = placesNoun({ ...row, line: wordsBehind(row, piece) });
  const places = `${placesShort(noun)} of ${belowTitle(row, piece)}`;
  if (!needs) return { label: places, cells: has.map((there) => (there === null ? null : `${there}`)) };
  const label = `${isMany(row) ? "the first is " : ""}worked over ${places}`;
  return {
    label,
    cells: has.map((there, size) => (there === null ? null : `${needs[size] ?? 0} of ${there}`)),
  };
}

function ring({ times }: RowReport): SizeRow {
  return { label: "makes", cells: (times ?? []).map(() => "a ring for any number of stitches") };
}

function makesRow(row: WorkedRow, report: RowReport): SizeRow | null {
  if (!report.makes) return report.kind === "foundation" ? ring(report) : null;
  const cells = report.makes.map((n, size) => {
    if (n === null) return null;
    const kinds = kindsOf(report, size);
    if (report.kind === "foundation") return `${n} chains`;
    const stitches = countStitches(row.outcome?.steps[size] ?? []);
    const all = stitches > 0 && stitches !== n ? ` (${stitches} stitches)` : "";
    return `${kinds || sts(n)}${all}`;
  });
  return { label: isMany(row) ? "the last makes" : "makes", cells };
}

function statedRow({ stated, result }: RowReport): SizeRow | null {
  return result === "wrong-count" && stated
    ? { label: "the line says", cells: stated.map((n) => (n === null ? null : `${n}`)) }
    : null;
}

/** What the next row finds, where that is more than the stitches that are counted. */
function leavesRow({ outcome, result }: WorkedRow): SizeRow | null {
  if (!outcome || result === "unchecked") return null;
  const cells = outcome.after.map((below, size) =>
    outcome.makes[size] == null || !below ? null : placesIn(below.strip),
  );
  return cells.some((cell) => cell?.includes(",")) ? { label: "leaves", cells } : null;
}

const sorts: readonly (readonly [sort: Run["sort"], one: string, several: string])[] = [
  ["stitch", "st", "sts"],
  ["space", "sp", "sps"],
  ["chain", "ch", "chs"],
];

function placesIn(strip: Strip): string {
  return sorts
    .map(([sort, one, several]) => [countPlaces(strip, (run) => run.sort === sort), one, several] as const)
    .filter(([n]) => n > 0)
    .map(([n, one, several]) => `${n} ${n === 1 ? one : several}`)
    .join(", ");
}

/** More or fewer stitches than the row below; nothing where either is counted by other things than stitches. */
function changeRow({ row, piece }: PlacedRow): SizeRow | null {
  const below = workedRow(piece, row.below);
  const [made, before] = [plainCount(row), below && plainCount(below)];
  if (!made || !before || !row.below || row.line.plan?.onRow != null) return null;
  const cells = made.map((n, size) => changeOf(n, before[size] ?? null));
  return { label: `change from ${rowTitle({ line: row.below })}`, cells };
}

function changeOf(n: number | null, before: number | null): string | null {
  if (n === null || before === null) return null;
  return n > before ? `+${n - before}` : n < before ? `−${before - n}` : "none";
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
  const name = piece.piece.name || "this piece";
  const inPiece = {
    label: `so far in ${name}`,
    cells: soFar(totals.upTo(placed), totals.ofPiece(piece)),
  };
  const isAll = pattern.pieces.length === 1 && piece.piece.make === 1;
  const inAll = {
    label: "so far in the whole pattern",
    cells: soFar(totals.ofPatternUpTo(placed), totals.ofPattern),
  };
  return isAll ? [inPiece] : [inPiece, inAll];
}

function soFar(now: Total, all: Total): string[] {
  return now.map((n, size) => `${grouped(n)} of ${sts(all[size] ?? 0)}`);
}
