import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type Mutant, mutantsOf } from "./mutants";

/** Slips of its own are what the first draft is for. */
const draft = "first-draft.crochet";

/** Every mutant of the clean samples in a folder, file by file and line by line. */
export function sampleMutants(folder: string): Mutant[] {
  const files = readdirSync(folder).filter((file) => file.endsWith(".crochet") && file !== draft);
  return files.sort().flatMap((file) => mutantsOf(file, readFileSync(join(folder, file), "utf8")));
}
