import { type Disposable, l10n, RelativePattern, Uri, workspace } from "vscode";
import type { BaseLanguageClient, StaticFeature } from "vscode-languageclient";
import { whyNotRead } from "./why-not-read";

/** A file's text, or why it cannot be had. */
type FileContent = { readonly text: string } | { readonly reason: string };

/** Hidden folders and installed packages hold no patterns of one's own. */
const notOwn = "{**/node_modules/**,**/.*/**}";
/** More are not looked through at once. */
const patternsAtMost = 5_000;

/** Tells the server that patterns of folders are read for it: only the editor reads every kind of folder. */
export const readsPatterns: StaticFeature = {
  fillClientCapabilities: (capabilities) => {
    capabilities.experimental = { ...capabilities.experimental, readsPatterns: true };
  },
  initialize: () => undefined,
  getState: () => ({ kind: "static" }),
  clear: () => undefined,
};

/** Answers the server that asks for the patterns of a folder, and for their texts. */
export function readFolders(client: BaseLanguageClient): Disposable[] {
  return [
    client.onRequest("loopledger/listPatterns", ({ folder }: { readonly folder: string }) =>
      list(client, Uri.parse(folder)),
    ),
    client.onRequest<FileContent, unknown>("loopledger/readPattern", (params) =>
      read(Uri.parse((params as { readonly uri: string }).uri)),
    ),
  ];
}

async function list(client: BaseLanguageClient, folder: Uri): Promise<string[]> {
  const inFolder = new RelativePattern(folder, "**/*.crochet");
  const found = await workspace.findFiles(inFolder, notOwn, patternsAtMost);
  return found.map((uri) => client.code2ProtocolConverter.asUri(uri)).sort();
}

async function read(uri: Uri): Promise<FileContent> {
  try {
    const bytes = await workspace.fs.readFile(uri);
    return { text: new TextDecoder(encodingOf(bytes), { fatal: true }).decode(bytes) };
  } catch (fault) {
    return { reason: l10n.t("It could not be read. {0}", whyNotRead(fault)) };
  }
}

function encodingOf([first, second]: Uint8Array): string {
  if (first === 0xff && second === 0xfe) return "utf-16le";
  return first === 0xfe && second === 0xff ? "utf-16be" : "utf-8";
}
