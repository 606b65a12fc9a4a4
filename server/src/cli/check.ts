import { findFiles } from "./find-files";
import { type CheckingHost, checkFile } from "./pattern-file";
import { type CheckReport, type FileEntry, STANDARD_INPUT, type UnreadableEntry } from "./report-shape";
import type { Checked, CheckFiles } from "./side-by-side";

/** Checks every file the names lead to; `checkFiles` may have several of them checked at once. */
export async function check(
  names: readonly string[],
  host: CheckingHost & { readonly checkFiles?: CheckFiles },
): Promise<CheckReport> {
  const found = findFiles(names);
  const files = found.flatMap((one) => ("reason" in one || one.file === STANDARD_INPUT ? [] : [one.file]));
  const all = await (host.checkFiles?.(files, host.severities) ?? oneByOne(files, host));
  const checked = new Map(all.map((one) => [one.file, one]));
  const report = { version: 1 as const, files: [] as FileEntry[], unreadable: [] as UnreadableEntry[] };
  for (const one of found) {
    const entry = "reason" in one ? one : (checked.get(one.file) ?? (await checkFile(one.file, host)));
    if ("reason" in entry) report.unreadable.push(entry);
    else report.files.push(entry);
  }
  return report;
}

/** Checks files one after another. */
export async function oneByOne(files: readonly string[], host: CheckingHost): Promise<Checked[]> {
  const all: Checked[] = [];
  for (const file of files) all.push(await checkFile(file, host));
  return all;
}
