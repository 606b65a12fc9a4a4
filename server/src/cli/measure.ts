import { type Materials, type MeasureOptions, materialsOf } from "../measure/materials";
import { materialsPage } from "../measure/materials-page";
import type { Checker } from "../workspace/checker";
import { findFiles } from "./find-files";
import type { Output } from "./output";
import { readPatternText } from "./pattern-file";
import { STANDARD_INPUT, type UnreadableEntry } from "./report-shape";
import { writeUnreadable } from "./unreadable";

/** Everything `loopledger measure` has to say; `measure-report.schema.json` describes the same. */
export interface MeasureReport {
  readonly version: 1;
  readonly files: readonly MeasuredFile[];
  readonly unreadable: readonly UnreadableEntry[];
}

export interface MeasuredFile extends Materials {
  readonly file: string;
}

export interface MeasuringHost {
  readonly createChecker: () => Pick<Checker, "work">;
  readonly input: AsyncIterable<Uint8Array>;
}

/** Measures every file the names lead to. */
export async function measure(
  names: readonly string[],
  options: MeasureOptions,
  host: MeasuringHost,
): Promise<MeasureReport> {
  const files: MeasuredFile[] = [];
  const unreadable: UnreadableEntry[] = [];
  for (const found of findFiles(names)) {
    const entry = "reason" in found ? found : await measureFile(found.file, options, host);
    if ("reason" in entry) unreadable.push(entry);
    else files.push(entry);
  }
  return { version: 1, files, unreadable };
}

async function measureFile(
  file: string,
  options: MeasureOptions,
  { createChecker, input }: MeasuringHost,
): Promise<MeasuredFile | UnreadableEntry> {
  const content = await readPatternText(file, input);
  if ("reason" in content) return { file, reason: content.reason };
  try {
    return { file, ...materialsOf(createChecker().work(content.text).worked, options) };
  } catch (fault) {
    const detail = fault instanceof Error ? fault.message : String(fault);
    const reason = `Nothing in it was measured, because of a fault in Loopledger (${detail}). Please report it.`;
    return { file, reason };
  }
}

/** Writes a page of Markdown for each file. */
export function writePages({ files, unreadable }: MeasureReport, output: Output): void {
  for (const { file, ...materials } of files)
    output.out(`${materialsPage(materials, file === STANDARD_INPUT ? "" : file)}\n`);
  writeUnreadable(unreadable, output);
}

/** Writes the report as JSON; standard output holds nothing else. */
export function writeMeasuresJson(report: MeasureReport, output: Output): void {
  writeUnreadable(report.unreadable, output);
  output.out(`${JSON.stringify(report, null, 2)}\n`);
}
