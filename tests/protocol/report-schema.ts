import { Ajv } from "ajv";
import { expect } from "vitest";
import schema from "../../server/src/cli/check-report.schema.json" with { type: "json" };
import type { MeasureReport } from "../../server/src/cli/measure";
import measureSchema from "../../server/src/cli/measure-report.schema.json" with { type: "json" };
import type { CheckReport } from "../../server/src/cli/report-shape";

const validateMeasures = new Ajv({ allErrors: true }).compile<MeasureReport>(measureSchema);

/** Reads a report of measures from JSON; fails where it is not as the schema says. */
export function checkedMeasures(json: string): MeasureReport {
  const report: unknown = JSON.parse(json);
  if (validateMeasures(report)) return report;
  expect(validateMeasures.errors).toEqual([]);
  throw new Error("unreachable");
}

const validate = new Ajv({ allErrors: true }).compile<CheckReport>(schema);

/** Reads a check report from JSON; fails where it is not as the schema says. */
export function checkedReport(json: string): CheckReport {
  const report: unknown = JSON.parse(json);
  if (validate(report)) return report;
  expect(validate.errors).toEqual([]);
  throw new Error("unreachable");
}
