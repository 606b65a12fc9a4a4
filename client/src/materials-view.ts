import { commands, type Disposable, EventEmitter, l10n, Uri, window, workspace } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";

const scheme = "loopledger-materials";
/** Milliseconds without a letter typed, after which the page is made anew. */
const pause = 800;

/** `Loopledger: Materials and measures`: a page beside the pattern that follows what is typed. */
export function showMaterials(client: BaseLanguageClient): Disposable {
  const changes = new EventEmitter<Uri>();
  let waiting: NodeJS.Timeout | undefined;
  const pages = workspace.registerTextDocumentContentProvider(scheme, {
    onDidChange: changes.event,
    provideTextDocumentContent: (page) => pageOf(Uri.parse(page.query, true), client),
  });
  const typing = workspace.onDidChangeTextDocument(({ document }) => {
    if (document.languageId !== "crochet" || !isShown(document.uri)) return;
    clearTimeout(waiting);
    waiting = setTimeout(() => changes.fire(pageFor(document.uri)), pause);
  });
  const command = commands.registerCommand("loopledger.materials", () => open(changes));
  return { dispose: () => [pages, typing, command, changes].forEach((one) => void one.dispose()) };
}

async function open(changes: EventEmitter<Uri>): Promise<void> {
  const document = window.activeTextEditor?.document;
  if (document?.languageId !== "crochet")
    return void window.showInformationMessage(
      l10n.t("Open the pattern that you want measured, and try again."),
    );
  const page = pageFor(document.uri);
  changes.fire(page);
  await commands.executeCommand("markdown.showPreviewToSide", page);
}

function pageFor(pattern: Uri): Uri {
  return Uri.from({ scheme, path: `${l10n.t("Materials and measures")}.md`, query: pattern.toString(true) });
}

function isShown(pattern: Uri): boolean {
  const page = pageFor(pattern).toString();
  return workspace.textDocuments.some(({ uri }) => uri.toString() === page);
}

async function pageOf(pattern: Uri, client: BaseLanguageClient): Promise<string> {
  const textDocument = { uri: client.code2ProtocolConverter.asUri(pattern) };
  const page = await client.sendRequest<string | null>("loopledger/materials", { textDocument });
  return page ?? l10n.t("The pattern is closed. Open it, and run Loopledger: Materials and measures again.");
}
