import type { WorkedRow } from "../fabric/worked";
import type { WorkedPattern } from "../rules/rule";
import { listed, rowName, says } from "../rules/wording";
import { say } from "../text/say";
import type { RowReport } from "../workspace/report";
import { rowReport } from "../workspace/row-report";
import type { PlacedRow } from "./placed-row";
import { rowTitle } from "./row-names";
import { runningTotals } from "./running-totals";
import { kindsOf, sts } from "./shown/counts";
import { sized } from "./shown/sized";

/** What is to be said of a row beside its numbers: what was assumed, what it could mean, why it is not checked. */
export function notesOf({ row, piece }: PlacedRow, pattern: WorkedPattern): string[] {
  const report = rowReport(row, pattern.context.sizes.length);
  return [
    ...fitNotes(row, report),
    ...assumptionNotes(report),
    ...readingNotes(report),
    ...(row.after && row.result !== "unchecked"
      ? [say`It is judged by the count that ${row.after.headText} states, not by what that makes.`]
      : []),
    ...(row.result === "unchecked"
      ? [say`Not checked: ${report.reason ?? say`nothing tells what it is worked on`}.`]
      : []),
    ...leftOutNotes(pattern, piece.piece.make),
  ];
}

function fitNotes(row: WorkedRow, { result, needs, has, readings }: RowReport): string[] {
  const off = (needs ?? []).some((n, size) => n !== has?.[size]);
  if (result === "does-not-fit") return [`${says(rowName(row), "does not fit")}${misfitWords(row)}.`];
  return result === "ambiguous" && readings.length === 0 && off
    ? [say`It stops before the row below is used up.`]
    : [];
}

/** Of several rows the first may fit, and a later one not. */
export function misfitWords({ outcome }: WorkedRow): string {
  const misfit = outcome?.misfit;
  if (!misfit) return "";
  const [needs, has] = [sized(misfit.needs), sized(misfit.has)];
  return misfit.after === 1
    ? say` after 1 row: the next one needs ${needs} and has ${has}`
    : say` after ${misfit.after} rows: the next one needs ${needs} and has ${has}`;
}

/** A reading is an assumption where another one would give other numbers and nothing but custom decides. */
function assumptionNotes({ assumptions, result }: RowReport): string[] {
  if (assumptions.length === 0 || result === "ambiguous") return [];
  return [
    say`Assumed, since it is usual and nothing in the pattern says otherwise: ${assumptions.join("; ")}.`,
  ];
}

function readingNotes({ readings }: RowReport): string[] {
  const notes = readings.map(({ assumption, ...numbers }) => {
    const kinds = kindsOf(numbers, 0) || sts(numbers.makes?.[0] ?? 0);
    return say`It could mean ${kinds}${assumption === "" ? "" : say` if ${assumption}`}.`;
  });
  return notes.length === 0
    ? []
    : [...notes, say`The numbers and the steps shown are those of the first of these.`];
}

const namedAtMost = 3;

function leftOutNotes(pattern: WorkedPattern, make: number): string[] {
  const { leftOut } = runningTotals(pattern);
  const notes =
    make > 1 ? [say`It is made ${make} times: the total of the whole pattern counts it ${make} times.`] : [];
  if (leftOut.length === 0) return notes;
  const more = leftOut.length - namedAtMost;
  const names = leftOut.slice(0, namedAtMost).map(({ row }) => rowTitle(row));
  return [
    ...notes,
    say`Not in the totals, since it is not known what they make: ${listed(more > 0 ? [...names, say`${more} more`] : names, "and")}.`,
  ];
}
