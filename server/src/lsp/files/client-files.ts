import type { Connection } from "vscode-languageserver";
import type { FileContent, PatternFiles } from "./pattern-files";

/** Files that only the client can read: in a browser, or in a folder that is not on this computer. */
export function clientFiles(connection: Connection): PatternFiles {
  return {
    list: (folder) => connection.sendRequest<string[]>("loopledger/listPatterns", { folder }),
    read: (uri) => connection.sendRequest<FileContent>("loopledger/readPattern", { uri }),
  };
}

/** Each folder and file by those who can read it. */
export function eitherFiles(own: PatternFiles, others: PatternFiles): PatternFiles {
  const forAddress = (uri: string) => (uri.startsWith("file:") ? own : others);
  return { list: (folder) => forAddress(folder).list(folder), read: (uri) => forAddress(uri).read(uri) };
}
