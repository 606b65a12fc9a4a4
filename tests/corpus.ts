import { readdirSync, readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { readCases, type SpecCase } from "./spec/case-file";

/** A pattern to start from, named by its file or case. */
export interface CorpusText {
  readonly name: string;
  readonly text: string;
}

/** Every script runs in the project's folder; bundled ones are themselves somewhere else. */
const project = pathToFileURL(`${process.cwd()}/`);

/** The patterns of a folder of the project, in order of file name. */
export function patternsIn(folder: string): readonly CorpusText[] {
  const files = readdirSync(new URL(folder, project)).filter((file) => file.endsWith(".crochet"));
  return files.sort().map((file) => ({
    name: `${folder}${file}`,
    text: readFileSync(new URL(`${folder}${file}`, project), "utf8"),
  }));
}

export function samples(): readonly CorpusText[] {
  return patternsIn("samples/");
}

export function heldOut(): readonly CorpusText[] {
  return ["first-contact", "garments", "lace", "motifs", "toys"].flatMap((kind) =>
    patternsIn(`tests/held-out/${kind}/`),
  );
}

export function specCases(): readonly SpecCase[] {
  return readCases(new URL("tests/spec/", project));
}
