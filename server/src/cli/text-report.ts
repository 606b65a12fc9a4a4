import { queryLines } from "../features/queries";
import { assumptionLines } from "./assumption-lines";
import { findingLines } from "./finding-lines";
import type { Output } from "./output";
import type { CheckReport, FileEntry } from "./report-shape";
import { rowLines } from "./row-lines";
import { summary } from "./summary";
import { fileLabel, writeUnreadable } from "./unreadable";

/** Writes the report for people: what is not well in each file, then the queries as a list to send. */
export function writeText({ files, unreadable }: CheckReport, output: Output): void {
  const write = (lines: readonly string[]) => output.out(`${lines.join("\n")}\n`);
  for (const file of files) write([...fileLines(file), ""]);
  if (files.length > 1) write([`In all ${files.length} files: ${summary(files)}`, ""]);
  const queries = queryLines(files.map((file) => [fileLabel(file.file), file]));
  if (queries.length > 0) write(["Queries", ...queries]);
  writeUnreadable(unreadable, output);
}

function fileLines(file: FileEntry): string[] {
  const about = [...rowLines(file), ...assumptionLines(file), summary([file])];
  return [fileLabel(file.file), ...about.map((line) => `  ${line}`), ...findingLines(file)];
}
