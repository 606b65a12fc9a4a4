import {
  type Diagnostic,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from "vscode-languageserver";
import type { Server } from "./context";
import { diagnosticsOf, faultDiagnostic } from "./diagnostics";
import { answering, guarded, type Request, stopIfCancelled } from "./handler";
import type { OpenDocument } from "./open-document";
import { ResultIds } from "./result-ids";
import { settled } from "./settled";

/** How findings reach the client: it asks for them, or they are sent to it. */
export interface DiagnosticsChannel {
  /** A document was opened or edited. */
  changed(document: OpenDocument): void;
  /** Findings may differ although no text has changed. */
  recheck(): void;
  closed(document: OpenDocument): void;
}

interface PullParams {
  readonly textDocument: { readonly uri: string };
  readonly previousResultId?: string;
}

/** For clients that ask: answers carry a result id, and "unchanged" is said where nothing has changed. */
export function pullChannel(server: Server): DiagnosticsChannel {
  const { connection, client } = server;
  const ids = new ResultIds();
  connection.languages.diagnostics.on(
    answering<PullParams, DocumentDiagnosticReport>(server, {
      name: "Checking",
      work: (request) => pulled(server, ids, request),
      empty: () => fullReport([]),
      failed: () => fullReport([faultDiagnostic()]),
    }),
  );
  const refresh = () => connection.languages.diagnostics.refresh();
  return {
    changed: () => {},
    recheck: () => {
      if (client.refreshesDiagnostics) guarded(server, "Asking the client to refresh", refresh, () => {});
    },
    closed: (document) => ids.forget(document),
  };
}

async function pulled(
  server: Server,
  ids: ResultIds,
  { document, params, token }: Request<PullParams>,
): Promise<DocumentDiagnosticReport> {
  await settled(server, document);
  const settings = await server.settings.of(document.uri);
  stopIfCancelled(token);
  const { snapshot } = document;
  // To a client that cannot be told to ask again, everything is said at once.
  const advice = server.client.refreshesDiagnostics ? document.advice : undefined;
  const items = diagnosticsOf(snapshot, settings, server.client, advice);
  const resultId = ids.idOf(document, snapshot.version, items);
  if (resultId === params.previousResultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
  return { ...fullReport(items), resultId };
}

function fullReport(items: Diagnostic[]): DocumentDiagnosticReport & { kind: "full" } {
  return { kind: DocumentDiagnosticReportKind.Full, items };
}

/** For clients that do not ask: every settled version is checked once and its findings are sent. */
export function pushChannel(server: Server): DiagnosticsChannel {
  const settling = new Set<OpenDocument>();
  const push = async (document: OpenDocument) => {
    if (settling.has(document)) return;
    settling.add(document);
    try {
      await settled(server, document);
    } finally {
      settling.delete(document);
    }
    await publish(server, document);
  };
  const clear = ({ uri }: OpenDocument) => server.connection.sendDiagnostics({ uri, diagnostics: [] });
  const sending = (document: OpenDocument, send: (document: OpenDocument) => Promise<void>) =>
    guarded(
      server,
      `Sending the findings of ${document.uri}`,
      () => send(document),
      () => {},
    );
  return {
    changed: (document) => sending(document, push),
    recheck: () => {
      for (const document of server.documents.all()) sending(document, push);
    },
    closed: (document) => sending(document, clear),
  };
}

async function publish(server: Server, document: OpenDocument): Promise<void> {
  const { connection, client, documents } = server;
  const { uri } = document;
  const settings = await server.settings.of(uri);
  if (documents.get(uri) !== document) return;
  const { snapshot } = document;
  const diagnostics = await guarded(
    server,
    `Checking ${uri}`,
    () => diagnosticsOf(snapshot, settings, client, document.advice),
    () => [faultDiagnostic()],
  );
  const version = client.takesVersions ? { version: snapshot.version } : {};
  await connection.sendDiagnostics({ uri, ...version, diagnostics });
}
