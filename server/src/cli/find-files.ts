import { statSync } from "node:fs";
import { join } from "node:path";
import { whyNotRead } from "../lsp/files/file-faults";
import { isOwnFolder, list } from "../lsp/files/folders";
import { filesMatching, hasWildcard } from "./glob";
import { STANDARD_INPUT, type UnreadableEntry } from "./report-shape";

/** A file to read, or a name that leads to none. */
export type Found = { readonly file: string } | UnreadableEntry;

/** Turns names, folders and names with wildcards into files, in order, each file once. */
export function findFiles(names: readonly string[]): Found[] {
  const found = new Map(names.flatMap(lookUp).map((entry) => [entry.file, entry]));
  return [...found.values()];
}

function lookUp(name: string): Found[] {
  if (name === STANDARD_INPUT) return [{ file: name }];
  try {
    return statSync(name).isDirectory() ? patternsIn(name) : [{ file: name }];
  } catch (fault) {
    // A file may really be called "what?.crochet", so wildcards count only where no such file is.
    return hasWildcard(name) ? patternsMatching(name) : [{ file: name, reason: whyNotRead(fault) }];
  }
}

function patternsMatching(name: string): Found[] {
  const files = filesMatching(name);
  if (files.length > 0) return files.map((file) => ({ file }));
  return [
    { file: name, reason: "No file has a name like this. Check the spelling and the folder you are in." },
  ];
}

function patternsIn(folder: string): Found[] {
  const found = walk(folder);
  if (found.length > 0) return found;
  return [
    { file: folder, reason: "There is no pattern in this folder. Patterns have names ending in .crochet." },
  ];
}

function walk(folder: string): Found[] {
  try {
    return list(folder).flatMap(({ name, isFolder }) => {
      const path = join(folder, name);
      if (isFolder) return isOwnFolder(name) ? walk(path) : [];
      return name.toLowerCase().endsWith(".crochet") ? [{ file: path }] : [];
    });
  } catch (fault) {
    return [{ file: folder, reason: whyNotRead(fault) }];
  }
}
