import {
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  TextDocuments,
} from "vscode-languageserver";
import { speak } from "../text/say";
import { TypingPauses } from "./advice";
import { type ClientAbilities, clientAbilities, serverCapabilities } from "./capabilities";
import type { ClosedPatterns } from "./closed-patterns";
import { offerActions } from "./code-actions";
import { answerCodeLenses } from "./code-lens";
import { answerCompletions } from "./completion";
import type { Host, Server } from "./context";
import { type DiagnosticsChannel, pullChannel, pushChannel } from "./diagnostics-channels";
import { answerDocumentLinks } from "./document-links";
import { answerDrafts } from "./drafts";
import { answerFormatting } from "./formatting";
import { answerGrading } from "./grading-requests";
import { answerHovers } from "./hover";
import { answerInlayHints, refreshInlayHints } from "./inlay-hints";
import { answerInlineCompletions } from "./inline-completion";
import { answerMaterials } from "./materials";
import { answerNames } from "./names";
import { OpenDocument } from "./open-document";
import { answerOutline } from "./outline";
import { answerPublishing } from "./publishing";
import { answerQueries } from "./queries";
import { answerResizes } from "./resize-requests";
import { answerRewrites } from "./rewrite-requests";
import { answerRichText } from "./rich-text";
import { answerRowRequests } from "./row-requests";
import { answerSemanticTokens } from "./semantic-tokens";
import { sentencesFor } from "./sentences";
import { SettingsSource } from "./settings-source";
import { answerSignatureHelp } from "./signature-help";
import { answerPastedTerms, answerTerms } from "./terms";
import { answerWake } from "./wake";
import { checkFolders } from "./workspace-diagnostics";
import { answerYarnColours } from "./yarn-colours";

/** Serves one client over a connection; returns at once and works until the connection ends. */
export function startServer(connection: Connection, host: Host): void {
  connection.onInitialize(async (params) => {
    speak(await sentencesFor(params, host));
    const server = createServer(connection, host, params);
    server.documents.listen(connection);
    const channel = server.client.pullsDiagnostics ? pullChannel(server) : pushChannel(server);
    const closed = checkFolders(server, host, foldersOf(params));
    listenToDocuments(server, channel, closed);
    listenToSettings(server, channel, closed);
    connection.onInitialized(() => registerWith(server, closed));
    answerFormatting(server);
    answerHovers(server);
    answerCompletions(server);
    answerInlineCompletions(server);
    answerSignatureHelp(server);
    answerNames(server);
    answerSemanticTokens(server);
    answerOutline(server);
    answerYarnColours(server);
    answerCodeLenses(server);
    answerInlayHints(server);
    answerMaterials(server);
    answerRowRequests(server);
    answerRewrites(server);
    answerGrading(server);
    answerResizes(server);
    offerActions(server);
    answerPublishing(server);
    answerQueries(server);
    answerTerms(server);
    answerPastedTerms(server);
    answerDrafts(server);
    answerDocumentLinks(server);
    answerRichText(server);
    answerWake(server);
    return {
      capabilities: serverCapabilities(server.client, host),
      serverInfo: { name: "Loopledger", version: host.version },
    };
  });
  connection.listen();
}

function openDocuments(
  connection: Connection,
  { createChecker }: Host,
  { encoding }: ClientAbilities,
): TextDocuments<OpenDocument> {
  const log = (message: string) => connection.console.error(message);
  return new TextDocuments({
    create: (uri, languageId, version, text) =>
      new OpenDocument({ uri, languageId, version, text, encoding, createChecker, log }),
    update: (document, changes, version) => document.update(changes, version),
  });
}

function createServer(connection: Connection, host: Host, params: InitializeParams): Server {
  const client = clientAbilities(params.capabilities);
  const documents = openDocuments(connection, host, client);
  const settings = new SettingsSource(connection, client, params.initializationOptions);
  return { connection, documents, settings, client, nextTurn: host.nextTurn };
}

function foldersOf({ workspaceFolders, rootUri }: InitializeParams): string[] {
  return workspaceFolders?.map(({ uri }) => uri) ?? (rootUri ? [rootUri] : []);
}

function listenToDocuments(
  { documents, settings }: Server,
  channel: DiagnosticsChannel,
  closed: ClosedPatterns | null,
): void {
  documents.onDidOpen(({ document }) => closed?.touched(document.uri));
  const pauses = new TypingPauses<OpenDocument>(({ advice }) => {
    if (advice.paused()) channel.recheck();
  });
  documents.onDidChangeContent(({ document }) => {
    if (document.advice.isTyping) pauses.typed(document);
    channel.changed(document);
  });
  documents.onDidSave(({ document }) => {
    if (document.caretLeft()) channel.recheck();
  });
  documents.onDidClose(({ document }) => {
    settings.forget(document.uri);
    pauses.closed(document);
    channel.closed(document);
    closed?.touched(document.uri);
  });
}

function listenToSettings(server: Server, channel: DiagnosticsChannel, closed: ClosedPatterns | null): void {
  server.connection.onDidChangeConfiguration((change) => {
    server.settings.changed(change.settings);
    channel.recheck();
    refreshInlayHints(server);
    closed?.forget();
  });
}

/** Asks the client to tell of what it tells of only when asked. */
function registerWith({ connection, client }: Server, closed: ClosedPatterns | null): void {
  const asked = (what: string, asking: Promise<unknown>) =>
    asking.catch((fault) => connection.console.warn(`Changes of ${what} will not be seen: ${fault}`));
  const { registersForSettings, watchesFiles, hasFolders } = client;
  const settings = { section: "loopledger" };
  const patterns = { watchers: [{ globPattern: "**/*.crochet" }] };
  if (registersForSettings)
    asked("settings", connection.client.register(DidChangeConfigurationNotification.type, settings));
  if (closed && watchesFiles)
    asked("files", connection.client.register(DidChangeWatchedFilesNotification.type, patterns));
  if (closed && hasFolders) followFolders(connection, closed);
}

function followFolders({ workspace }: Connection, closed: ClosedPatterns): void {
  workspace.onDidChangeWorkspaceFolders(async () => {
    const folders = await workspace.getWorkspaceFolders();
    closed.setFolders(folders?.map(({ uri }) => uri) ?? []);
  });
}
