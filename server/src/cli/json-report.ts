import type { Output } from "./output";
import type { CheckReport } from "./report-shape";
import { writeUnreadable } from "./unreadable";

/** Writes the report as JSON; standard output holds nothing else. */
export function writeJson(report: CheckReport, output: Output): void {
  writeUnreadable(report.unreadable, output);
  output.out(`${JSON.stringify(report, null, 2)}\n`);
}
