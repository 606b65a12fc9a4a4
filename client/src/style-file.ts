import { type Disposable, l10n, Uri, workspace } from "vscode";
import {
  type BaseLanguageClient,
  DidChangeConfigurationNotification,
  type Middleware,
} from "vscode-languageclient";
import { tell } from "./tell";
import { whyNotRead } from "./why-not-read";

/** Gives the server the style of one's own along with the settings: only the editor reads every kind of folder. */
export const withStyleFile: NonNullable<Middleware["workspace"]> = {
  configuration: async (params, token, next) => {
    const sections = await next(params, token);
    if (!Array.isArray(sections)) return sections;
    return Promise.all(sections.map((section, i) => withOwnStyle(section, params.items[i]?.scopeUri)));
  },
};

interface StyleSection {
  readonly style?: { readonly rows?: string; readonly file?: string };
}

async function withOwnStyle(section: StyleSection | null, scope: string | undefined): Promise<unknown> {
  if (section?.style?.rows !== "own") return section;
  const own = await readStyle(section.style.file ?? "", scope);
  return { ...section, style: { ...section.style, own } };
}

async function readStyle(file: string, scope: string | undefined): Promise<unknown> {
  const folder = scope === undefined ? undefined : workspace.getWorkspaceFolder(Uri.parse(scope));
  const place = (folder ?? workspace.workspaceFolders?.[0])?.uri;
  if (!place || file === "") return undefined;
  try {
    return JSON.parse(new TextDecoder().decode(await workspace.fs.readFile(Uri.joinPath(place, file))));
  } catch (fault) {
    tell(
      l10n.t(
        "The house style in {0} could not be read, so rows stay as they are. {1}",
        file,
        whyNotRead(fault),
      ),
    );
    return undefined;
  }
}

/** The server asks again once a file that holds a style has changed. */
export function followStyleFile(client: BaseLanguageClient): Disposable {
  // Each folder may name a file of its own.
  const named = (uri: Uri) => workspace.getConfiguration("loopledger", uri).get<string>("style.file");
  return workspace.onDidSaveTextDocument(({ uri }) => {
    if (uri.path.endsWith(`/${named(uri)}`))
      void client.sendNotification(DidChangeConfigurationNotification.type, { settings: null });
  });
}
