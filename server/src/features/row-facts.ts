import { countStitches } from "../fabric/steps";
import { countPlaces, type Run, type Strip } from "../fabric/strip";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import type { WorkedPattern } from "../rules/rule";
import { belowName, listed, placesNoun, rowName, says } from "../rules/wording";
import type { RowReport } from "../workspace/report";
import { rowReport } from "../workspace/row-report";
import { type PlacedRow, workedRow } from "./placed-row";
import { placesShort } from "./proof/place-names";
import { wordsBehind } from "./row-instructions";
import { runningTotals, type Total } from "./running-totals";
import type { SizeRow } from "./shown/size-table";
import { grouped, type Numbers, sized } from "./shown/sized";

/** What is known of a row, for each size: worked over, made, left, changed, and the totals so far. */
export function factsOf(placed: PlacedRow, pattern: WorkedPattern): SizeRow[] {
  const report = rowReport(placed.row, pattern.context.sizes.length);
  return [
    timesRow(placed.row, report),
    overRow(placed, report),
    makesRow(placed.row, report),
    statedRow(report),
    leavesRow(placed.row),
    changeRow(placed),
    ...totalRows(placed, pattern),
  ].flatMap((row) => row ?? []);
}

/** What a row is called: its head, or what it does where it has none. */
export function rowTitle({ line }: Pick<WorkedRow, "line">): string {
  const { kind, head, headText, text } = line;
  if (head !== null) return headText;
  if (kind === "foundation") return "Starting chain";
  return text.split(/[.;:(]/)[0]?.trim() || headText;
}

/** What a row stands on: `Rnd 2`, `the starting chain`. */
export function belowTitle(row: WorkedRow, piece: WorkedPiece): string {
  const name = belowName(row, piece);
  return row.below && name === row.below.headText ? rowTitle({ line: row.below }) : name;
}

function timesRow({ line, result }: WorkedRow, { times, kind }: RowReport): SizeRow | null {
  if (kind === "foundation" || result === "unchecked" || times?.every((n) => n === 1)) return null;
  const label = roundsOrRows(line.headText);
  return { label, cells: times?.map(String) ?? ["as many as needed"] };
}

/** `rounds` where the head says so. */
export function roundsOrRows(head: string): "rounds" | "rows" {
  return /^r(?:n?d|ound)/i.test(head) || /\brnds?\b|\brounds?\b/i.test(head) ? "rounds" : "rows";
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

/** A line that is worked several times: its first row is worked over one count, its last one makes another. */
export function isMany({ times }: WorkedRow): boolean {
  return times?.some((n) => n > 1) ?? true;
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

/** `32 hdc, 16 ch-1 sps`: every kind made in one size. */
export function kindsOf({ made }: Pick<RowReport, "made">, size: number): string {
  return Object.entries(made)
    .map(([kind, counts]) => [kind, counts[size] ?? 0] as const)
    .filter(([, n]) => n > 0)
    .map(([kind, n]) => `${n} ${n === 1 ? kind : plural(kind)}`)
    .join(", ");
}

function plural(kind: string): string {
  return kind.endsWith(" sp") ? `${kind}s` : kind;
}

export function sts(n: number): string {
  return `${grouped(n)} ${n === 1 ? "st" : "sts"}`;
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

/** What is to be said of a row beside its numbers: what was assumed, what it could mean, why it is not checked. */
export function notesOf({ row, piece }: PlacedRow, pattern: WorkedPattern): string[] {
  const report = rowReport(row, pattern.context.sizes.length);
  return [
    ...fitNotes(row, report),
    ...assumptionNotes(report),
    ...readingNotes(report),
    ...(row.after
      ? [`It is judged by the count that ${row.after.headText} states, not by what that makes.`]
      : []),
    ...(row.result === "unchecked"
      ? [`Not checked: ${report.reason ?? "nothing tells what it is worked on"}.`]
      : []),
    ...leftOutNotes(pattern, piece.piece.make),
  ];
}

function fitNotes(row: WorkedRow, { result, needs, has, readings }: RowReport): string[] {
  const off = (needs ?? []).some((n, size) => n !== has?.[size]);
  if (result === "does-not-fit") return [`${says(rowName(row), "does")} not fit${misfitWords(row)}.`];
  return result === "ambiguous" && readings.length === 0 && off
    ? ["It stops before the row below is used up."]
    : [];
}

/** Of several rows the first may fit, and a later one not. */
export function misfitWords({ outcome }: WorkedRow): string {
  const misfit = outcome?.misfit;
  if (!misfit) return "";
  const rows = misfit.after === 1 ? "row" : "rows";
  return ` after ${misfit.after} ${rows}: the next one needs ${sized(misfit.needs)} and has ${sized(misfit.has)}`;
}

/** A reading is an assumption where another one would give other numbers and nothing but custom decides. */
function assumptionNotes({ assumptions, result }: RowReport): string[] {
  if (assumptions.length === 0 || result === "ambiguous") return [];
  return [`Assumed, since it is usual and nothing in the pattern says otherwise: ${assumptions.join("; ")}.`];
}

function readingNotes({ readings }: RowReport): string[] {
  const notes = readings.map(({ assumption, ...numbers }) => {
    const kinds = kindsOf(numbers, 0) || sts(numbers.makes?.[0] ?? 0);
    return `It could mean ${kinds}${assumption === "" ? "" : ` if ${assumption}`}.`;
  });
  return notes.length === 0
    ? []
    : [...notes, "The numbers and the steps shown are those of the first of these."];
}

const namedAtMost = 3;

function leftOutNotes(pattern: WorkedPattern, make: number): string[] {
  const { leftOut } = runningTotals(pattern);
  const notes =
    make > 1 ? [`It is made ${make} times: the total of the whole pattern counts it ${make} times.`] : [];
  if (leftOut.length === 0) return notes;
  const more = leftOut.length - namedAtMost;
  const names = leftOut.slice(0, namedAtMost).map(({ row }) => rowTitle(row));
  return [
    ...notes,
    `Not in the totals, since it is not known what they make: ${listed(more > 0 ? [...names, `${more} more`] : names, "and")}.`,
  ];
}
