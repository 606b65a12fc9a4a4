import { existsSync, statSync } from "node:fs";
import { join, parse, sep } from "node:path";
import { type Entry, isOwnFolder, list } from "../lsp/files/folders";

const SEPARATOR = sep === "\\" ? /[\\/]/ : "/";

export function hasWildcard(name: string): boolean {
  return /[*?]/.test(name);
}

/**
 * The files with a name like `pattern`, in which `*` stands for any letters, `?` for one, and `**` as a folder
 * for any number of folders. Folders that cannot be read are passed over, as a shell does.
 */
export function filesMatching(pattern: string): string[] {
  const { root } = parse(pattern);
  const paths = matches(root, pattern.slice(root.length).split(SEPARATOR));
  return [...new Set(paths)].filter(isFile);
}

function matches(path: string, [part, ...rest]: readonly string[]): string[] {
  if (part === undefined) return [path];
  return candidates(path, part).flatMap((candidate) => matches(candidate, rest));
}

function candidates(folder: string, part: string): string[] {
  if (part === "**") return withFoldersBelow(folder);
  if (!hasWildcard(part)) return [join(folder, part)];
  const isLike = likeness(part);
  return entries(folder)
    .filter(({ name }) => isLike.test(name))
    .map(({ name }) => join(folder, name));
}

function withFoldersBelow(folder: string): string[] {
  const below = entries(folder).filter(({ name, isFolder }) => isFolder && isOwnFolder(name));
  return [folder, ...below.flatMap(({ name }) => withFoldersBelow(join(folder, name)))];
}

function entries(folder: string): Entry[] {
  try {
    return list(folder || ".");
  } catch {
    return [];
  }
}

/** As in a shell, a wildcard at the start does not stand for the dot of a hidden file. */
function likeness(part: string): RegExp {
  const letters = part
    .replace(/[.+^${}()|[\]\\]/g, "\\$&")
    .replaceAll(/\*+/g, ".*")
    .replaceAll("?", ".");
  return new RegExp(`^(?!\\.)${letters}$`, "su");
}

function isFile(path: string): boolean {
  return existsSync(path) && !statSync(path).isDirectory();
}
