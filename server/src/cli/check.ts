import { findFiles } from "./find-files";
import { type CheckingHost, checkFile } from "./pattern-file";
import type { CheckReport, FileEntry, UnreadableEntry } from "./report-shape";

/** Checks every file the names lead to. */
export async function check(names: readonly string[], host: CheckingHost): Promise<CheckReport> {
  const files: FileEntry[] = [];
  const unreadable: UnreadableEntry[] = [];
  for (const found of findFiles(names)) {
    const entry = "reason" in found ? found : await checkFile(found.file, host);
    if ("reason" in entry) unreadable.push(entry);
    else files.push(entry);
  }
  return { version: 1, files, unreadable };
}
