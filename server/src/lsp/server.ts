import {
  type Connection,
  DidChangeConfigurationNotification,
  type InitializeParams,
  TextDocuments,
} from "vscode-languageserver";
import { clientAbilities, serverCapabilities } from "./capabilities";
import { offerActions } from "./code-actions";
import { answerCodeLenses } from "./code-lens";
import type { Host, Server } from "./context";
import { type DiagnosticsChannel, pullChannel, pushChannel } from "./diagnostics-channels";
import { answerHovers } from "./hover";
import { OpenDocument } from "./open-document";
import { answerQueries } from "./queries";
import { answerRowRequests } from "./row-requests";
import { SettingsSource } from "./settings-source";
import { answerWake } from "./wake";

/** Serves one client over a connection; returns at once and works until the connection ends. */
export function startServer(connection: Connection, host: Host): void {
  const documents = openDocuments(connection, host);
  connection.onInitialize((params) => {
    const server = createServer(connection, documents, host, params);
    const channel = server.client.pullsDiagnostics ? pullChannel(server) : pushChannel(server);
    listenToDocuments(server, channel);
    listenToSettings(server, channel);
    answerHovers(server);
    answerCodeLenses(server);
    answerRowRequests(server);
    offerActions(server);
    answerQueries(server);
    answerWake(server);
    return {
      capabilities: serverCapabilities(server.client),
      serverInfo: { name: "Loopledger", version: host.version },
    };
  });
  documents.listen(connection);
  connection.listen();
}

function openDocuments(connection: Connection, host: Host): TextDocuments<OpenDocument> {
  const log = (message: string) => connection.console.error(message);
  return new TextDocuments({
    create: (uri, languageId, version, text) =>
      new OpenDocument({ uri, languageId, version, text, createChecker: host.createChecker, log }),
    update: (document, changes, version) => document.update(changes, version),
  });
}

function createServer(
  connection: Connection,
  documents: TextDocuments<OpenDocument>,
  host: Host,
  params: InitializeParams,
): Server {
  const client = clientAbilities(params.capabilities);
  const settings = new SettingsSource(connection, client, params.initializationOptions);
  return { connection, documents, settings, client, nextTurn: host.nextTurn };
}

function listenToDocuments({ documents, settings }: Server, channel: DiagnosticsChannel): void {
  documents.onDidChangeContent(({ document }) => channel.changed(document));
  documents.onDidSave(({ document }) => {
    if (document.caretLeft()) channel.recheck();
  });
  documents.onDidClose(({ document }) => {
    settings.forget(document.uri);
    channel.closed(document);
  });
}

function listenToSettings({ connection, client, settings }: Server, channel: DiagnosticsChannel): void {
  connection.onDidChangeConfiguration((change) => {
    settings.changed(change.settings);
    channel.recheck();
  });
  connection.onInitialized(() => {
    if (!client.registersForSettings) return;
    connection.client
      .register(DidChangeConfigurationNotification.type, { section: "loopledger" })
      .catch((fault) => connection.console.warn(`Changes of settings will not be seen: ${fault}`));
  });
}
