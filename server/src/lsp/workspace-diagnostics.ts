import {
  type CancellationToken,
  type Diagnostic,
  DocumentDiagnosticReportKind,
  FileChangeType,
  type ResultProgressReporter,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  type WorkspaceDiagnosticReportPartialResult,
  type WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver";
import { type ClosedPattern, ClosedPatterns, type Found } from "./closed-patterns";
import type { Host, Server } from "./context";
import { diagnosticsOf, faultDiagnostic, unreadableDiagnostic } from "./diagnostics";
import { clientFiles, eitherFiles } from "./files/client-files";
import { addressKey, type PatternFiles } from "./files/pattern-files";
import { guarded, stopIfCancelled } from "./handler";
import { Snapshot } from "./open-document";

type Progress = ResultProgressReporter<WorkspaceDiagnosticReportPartialResult>;
type Report = WorkspaceDocumentDiagnosticReport;

/** Checks the patterns of folders that are not open, when the client asks for them; null where no files are read. */
export function checkFolders(server: Server, host: Host, folders: readonly string[]): ClosedPatterns | null {
  const files = filesFor(server, host);
  if (!files || !server.client.pullsDiagnostics) return null;
  const closed = new ClosedPatterns(files, folders, (message) => server.connection.console.error(message));
  const folder = new FolderDiagnostics(server, host, files, closed);
  server.connection.languages.diagnostics.onWorkspace((params, token, _work, progress) =>
    folder.answer(params, token, progress),
  );
  server.connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri } of changes) closed.touched(uri);
    if (changes.some(({ type }) => type !== FileChangeType.Changed)) closed.listAnew();
  });
  return closed;
}

/** The host's own files, and those that only the client can read, if it offers to. */
function filesFor({ connection, client }: Server, { files }: Host): PatternFiles | undefined {
  if (!client.readsFiles) return files;
  return files ? eitherFiles(files, clientFiles(connection)) : clientFiles(connection);
}

class FolderDiagnostics {
  private readonly session = Date.now().toString(36);
  private count = 0;

  constructor(
    private readonly server: Server,
    private readonly host: Host,
    private readonly files: PatternFiles,
    private readonly closed: ClosedPatterns,
  ) {}

  /** Answers when there is news: clients ask again as soon as they are answered. */
  async answer(
    { previousResultIds }: WorkspaceDiagnosticParams,
    token: CancellationToken,
    progress?: Progress,
  ): Promise<WorkspaceDiagnosticReport> {
    const known = new Map(previousResultIds.map(({ uri, value }) => [addressKey(uri), { uri, value }]));
    for (;;) {
      const seen = this.closed.changes;
      const reports = await this.reports(known, token, progress);
      if (reports.some(isNews)) return { items: progress ? [] : reports };
      // A token that was cancelled before anyone looked at it tells nobody of it.
      stopIfCancelled(token);
      await this.closed.changedSince(seen, (stop) => token.onCancellationRequested(stop));
      stopIfCancelled(token);
    }
  }

  private async reports(
    known: ReadonlyMap<string, { readonly uri: string; readonly value: string }>,
    token: CancellationToken,
    progress?: Progress,
  ): Promise<Report[]> {
    const left = new Map(known);
    const open = new Set(this.server.documents.keys().map(addressKey));
    const reports: Report[] = [];
    for (const pattern of await this.closed.all()) {
      const key = addressKey(pattern.uri);
      const { value } = left.get(key) ?? {};
      left.delete(key);
      if (open.has(key)) continue;
      const report = reportOf(pattern.uri, await this.found(pattern), value);
      stopIfCancelled(token);
      reports.push(report);
      if (isNews(report)) progress?.report({ items: [report] });
    }
    const gone = [...left].filter(([key]) => !open.has(key)).map(([, { uri }]) => fullReport(uri, []));
    if (gone.length > 0) progress?.report({ items: gone });
    return [...reports, ...gone];
  }

  private async found(pattern: ClosedPattern): Promise<Found> {
    if (pattern.found) return pattern.found;
    const { edition } = pattern;
    // One pattern a turn: whoever types meanwhile is not kept waiting.
    await this.host.nextTurn();
    const items = await this.look(pattern);
    const found = { id: `${this.session}-${++this.count}`, items };
    if (pattern.edition === edition) pattern.found = found;
    return found;
  }

  private async look({ uri, folder }: ClosedPattern): Promise<Diagnostic[]> {
    const content = await this.files.read(uri);
    if ("reason" in content) return [unreadableDiagnostic(content.reason)];
    const settings = await this.server.settings.of(folder);
    const { createChecker } = this.host;
    const { encoding } = this.server.client;
    const snapshot = new Snapshot(
      { uri, version: 0, text: content.text, caret: null, encoding },
      (text) => createChecker().work(text),
      createChecker,
    );
    return guarded(
      this.server,
      `Checking ${uri}`,
      () => diagnosticsOf(snapshot, settings, this.server.client),
      () => [faultDiagnostic()],
    );
  }
}

function reportOf(uri: string, { id, items }: Found, known: string | undefined): Report {
  if (id === known) return { kind: DocumentDiagnosticReportKind.Unchanged, uri, version: null, resultId: id };
  return { ...fullReport(uri, items), resultId: id };
}

function fullReport(uri: string, items: Diagnostic[]): Report & { kind: "full" } {
  return { kind: DocumentDiagnosticReportKind.Full, uri, version: null, items };
}

function isNews({ kind }: Report): boolean {
  return kind === DocumentDiagnosticReportKind.Full;
}
