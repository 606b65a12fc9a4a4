import { countStitches } from "../fabric/steps";
import type { WorkedRow } from "../fabric/worked";
import type { WorkedPattern } from "../rules/rule";
import { say } from "../text/say";
import type { RowReport } from "../workspace/report";
import { rowReport } from "../workspace/row-report";
import { rowAtOrBefore } from "./placed-row";
import { factsOf } from "./row-facts";
import { rowTitle } from "./row-names";
import { notesOf } from "./row-notes";
import { list } from "./shown/blocks";
import { kindsOf } from "./shown/counts";
import { toPlainText } from "./shown/plain-text";
import { sizeTable } from "./shown/size-table";
import { mergedSizes, sized } from "./shown/sized";

/** The row at the caret in one short line, and in some more. */
export interface RowStatus {
  /** `Rnd 12: 48 sts`. */
  readonly text: string;
  /** Its numbers line by line, without markup. */
  readonly details: string;
}

/** The row at an offset, or on a line between rows the one before; null outside the pieces. */
export function statusAt(pattern: WorkedPattern, offset: number): RowStatus | null {
  const placed = rowAtOrBefore(pattern, offset);
  if (!placed) return null;
  const isHere = offset <= placed.row.line.span.end;
  const report = rowReport(placed.row, pattern.context.sizes.length);
  const facts = sizeTable(rowTitle(placed.row), pattern.context.sizes, factsOf(placed, pattern));
  return {
    text: `${isHere ? "" : say`after `}${rowTitle(placed.row)}: ${inShort(placed.row, report)}`,
    details: toPlainText([...facts, ...list(notesOf(placed, pattern))]),
  };
}

function inShort(row: WorkedRow, report: RowReport): string {
  switch (report.result) {
    case "unchecked":
      return say`not checked`;
    case "does-not-fit":
      return say`does not fit`;
    case "ambiguous":
      return say`could mean two things`;
    case "wrong-count":
      return say`${made(row, report)}, the line says ${sized(report.stated ?? [])}`;
    case "ok":
      return made(row, report);
  }
}

function made({ outcome }: WorkedRow, report: RowReport): string {
  const { makes, kind } = report;
  if (!makes) return say`a ring`;
  if (kind === "foundation") return say`${sized(makes)} chains`;
  const isPlain = makes.every((n, size) => n === null || n === countStitches(outcome?.steps[size] ?? []));
  const kinds = isPlain
    ? null
    : mergedSizes(makes.map((n, size) => (n === null ? null : kindsOf(report, size) || null)));
  return kinds ?? (makes.every((n) => n === 1) ? say`${sized(makes)} st` : say`${sized(makes)} sts`);
}
