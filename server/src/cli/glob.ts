import { existsSync } from "node:fs";
import { join, sep } from "node:path";
import { type Entry, isOwnFolder, list } from "./folders";

export function hasWildcard(name: string): boolean {
  return /[*?]/.test(name);
}

/**
 * The files with a name like `pattern`, in which `*` stands for any letters, `?` for one, and `**` as a folder
 * for any number of folders. Folders that cannot be read are passed over, as a shell does.
 */
export function filesMatching(pattern: string): string[] {
  const parts = pattern.split(sep === "\\" ? /[\\/]/ : "/");
  const isAbsolute = parts[0] === "";
  const files = isAbsolute ? matches(sep, parts.slice(1)) : matches("", parts);
  return [...new Set(files)];
}

function matches(folder: string, [part, ...rest]: readonly string[]): string[] {
  if (part === undefined) return [];
  if (part === "**")
    return [...matches(folder, rest), ...below(folder).flatMap((sub) => matches(sub, [part, ...rest]))];
  const isLast = rest.length === 0;
  if (!hasWildcard(part)) {
    const path = join(folder, part);
    return isLast ? [path].filter(existsSync) : matches(path, rest);
  }
  const isLike = likeness(part);
  const named = entries(folder).filter(({ name }) => isLike.test(name));
  if (isLast) return named.filter(({ isFolder }) => !isFolder).map(({ name }) => join(folder, name));
  return named.filter(({ isFolder }) => isFolder).flatMap(({ name }) => matches(join(folder, name), rest));
}

function below(folder: string): string[] {
  return entries(folder)
    .filter(({ name, isFolder }) => isFolder && isOwnFolder(name))
    .map(({ name }) => join(folder, name));
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
