import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { decode } from "./decode";
import { whyNotRead } from "./file-faults";
import { isOwnFolder, list } from "./folders";
import type { FileContent, PatternFiles } from "./pattern-files";

/** Files on this computer. */
export const nodeFiles: PatternFiles = {
  list: async (folder) =>
    folder.startsWith("file:") ? walk(folder.replace(/\/$/, ""), fileURLToPath(folder)) : [],
  read,
};

async function read(uri: string): Promise<FileContent> {
  try {
    return decode(await readFile(fileURLToPath(uri)));
  } catch (fault) {
    return { reason: whyNotRead(fault) };
  }
}

function walk(uri: string, path: string): string[] {
  return entriesOf(path).flatMap(({ name, isFolder }) => {
    const address = `${uri}/${written(name)}`;
    if (isFolder) return isOwnFolder(name) ? walk(address, join(path, name)) : [];
    return name.toLowerCase().endsWith(".crochet") ? [address] : [];
  });
}

/** A folder that cannot be looked into holds nothing that could be checked. */
function entriesOf(path: string): ReturnType<typeof list> {
  try {
    return list(path);
  } catch {
    return [];
  }
}

/** A name within an address. */
function written(name: string): string {
  return encodeURIComponent(name).replace(
    /[!'()*]/g,
    (char) => `%${char.charCodeAt(0).toString(16).toUpperCase()}`,
  );
}
