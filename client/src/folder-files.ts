import { type Disposable, l10n, RelativePattern, Uri, workspace } from "vscode";
import type { BaseLanguageClient, StaticFeature } from "vscode-languageclient";
import { tell } from "./tell";
import { whyNotRead } from "./why-not-read";

/** A file's text, or why it cannot be had. */
type FileContent = { readonly text: string } | { readonly reason: string };

/** Hidden folders and installed packages hold no patterns of one's own. */
const notOwn = "{**/node_modules/**,**/.*/**}";
/** More in a folder are not looked through, which is told. */
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
  const toldOf = new Set<string>();
  return [
    client.onRequest("loopledger/listPatterns", ({ folder }: { readonly folder: string }) =>
      list(client, Uri.parse(folder), toldOf),
    ),
    client.onRequest<FileContent, unknown>("loopledger/readPattern", (params) =>
      read(Uri.parse((params as { readonly uri: string }).uri)),
    ),
  ];
}

/** Folders are listed often: of each that holds too many it is told once. */
async function list(client: BaseLanguageClient, folder: Uri, toldOf: Set<string>): Promise<string[]> {
  const inFolder = new RelativePattern(folder, "**/*.crochet");
  const found = await workspace.findFiles(inFolder, notOwn, patternsAtMost + 1);
  if (found.length > patternsAtMost && !toldOf.has(folder.path)) {
    toldOf.add(folder.path);
    tell(
      l10n.t(
        "{0} holds more than {1} patterns, and only {1} of them are checked. Open a smaller folder, or the pattern itself.",
        folder.path,
        patternsAtMost,
      ),
    );
  }
  return found
    .slice(0, patternsAtMost)
    .map((uri) => client.code2ProtocolConverter.asUri(uri))
    .sort();
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
