import { readdirSync } from "node:fs";

export interface Entry {
  readonly name: string;
  readonly isFolder: boolean;
}

/** What is in a folder, by name. Links to folders count as files, so that no walk goes round in circles. */
export function list(folder: string): Entry[] {
  return readdirSync(folder, { withFileTypes: true })
    .map((entry) => ({ name: entry.name, isFolder: entry.isDirectory() }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Hidden folders and installed packages hold no patterns of one's own. */
export function isOwnFolder(name: string): boolean {
  return !name.startsWith(".") && name !== "node_modules";
}
