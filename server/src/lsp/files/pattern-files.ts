/** A file's text, or why it cannot be had, in whole sentences. */
export type FileContent = { readonly text: string } | { readonly reason: string };

/** Reads the patterns of folders, where the place a server runs in has any. */
export interface PatternFiles {
  /** The addresses of the patterns in a folder and in those below it; none of a folder that is not there. */
  list(folder: string): Promise<readonly string[]>;
  read(uri: string): Promise<FileContent>;
}

/** Equal for two ways to write one address: programs do not agree on what is to be written as `%xx`. */
export function addressKey(uri: string): string {
  try {
    return decodeURIComponent(uri).replace(/^file:\/\/\/[a-z]:/i, (drive) => drive.toLowerCase());
  } catch {
    return uri;
  }
}
