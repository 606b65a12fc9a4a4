import { type ChildProcess, spawn } from "node:child_process";
import { PassThrough } from "node:stream";
import { setImmediate as nextTurn } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import {
  createConnection,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import {
  type ClientCapabilities,
  type CodeLens,
  CodeLensRequest,
  ConfigurationRequest,
  createProtocolConnection,
  type Diagnostic,
  DiagnosticRefreshRequest,
  DidChangeTextDocumentNotification,
  DidCloseTextDocumentNotification,
  DidOpenTextDocumentNotification,
  DidSaveTextDocumentNotification,
  type DocumentDiagnosticReport,
  DocumentDiagnosticRequest,
  type Hover,
  HoverRequest,
  InitializedNotification,
  InitializeRequest,
  type InitializeResult,
  LogMessageNotification,
  type Position,
  type ProtocolConnection,
  PublishDiagnosticsNotification,
  type PublishDiagnosticsParams,
  type Range,
  RegistrationRequest,
  type WorkspaceFolder,
} from "vscode-languageserver-protocol/node";
import type { Host } from "../../server/src/lsp/context";
import { nodeFiles } from "../../server/src/lsp/files/node-files";
import { sentencesIn } from "../../server/src/lsp/files/node-sentences";
import { startServer } from "../../server/src/lsp/server";
import { LineIndex } from "../../server/src/text/line-index";
import type { Span } from "../../server/src/text/span";
import { fakeChecker } from "./fake-checker";

export const PULL: ClientCapabilities = {
  textDocument: { diagnostic: { relatedInformation: true } },
  workspace: { diagnostics: { refreshSupport: true } },
};

/** A client that can show Markdown. */
export const PULL_AND_MARKDOWN: ClientCapabilities = {
  ...PULL,
  textDocument: { ...PULL.textDocument, hover: { contentFormat: ["markdown", "plaintext"] } },
};

export const PUSH: ClientCapabilities = {
  textDocument: { publishDiagnostics: { relatedInformation: true, versionSupport: true } },
};

export const PULL_AND_SETTINGS: ClientCapabilities = {
  ...PULL,
  workspace: {
    ...PULL.workspace,
    configuration: true,
    didChangeConfiguration: { dynamicRegistration: true },
  },
};

/** A client as an editor has one: it keeps its own text of every document and sends edits by range. */
export class Client {
  readonly published: PublishDiagnosticsParams[] = [];
  readonly logged: string[] = [];
  readonly registered: string[] = [];
  refreshes = 0;
  /** What the client has set under `loopledger`. */
  settings: unknown = null;
  private readonly texts = new Map<string, { text: string; version: number }>();

  constructor(readonly connection: ProtocolConnection) {
    connection.onNotification(PublishDiagnosticsNotification.type, (params) => {
      this.published.push(params);
    });
    connection.onNotification(LogMessageNotification.type, ({ message }) => {
      this.logged.push(message);
    });
    connection.onRequest(ConfigurationRequest.type, ({ items }) => items.map(() => this.settings));
    connection.onRequest(RegistrationRequest.type, ({ registrations }) => {
      this.registered.push(...registrations.map(({ method }) => method));
    });
    connection.onRequest(DiagnosticRefreshRequest.type, () => {
      this.refreshes += 1;
    });
    connection.listen();
  }

  async initialize(
    capabilities: ClientCapabilities,
    initializationOptions?: unknown,
    workspaceFolders: WorkspaceFolder[] | null = null,
    locale?: string,
  ): Promise<InitializeResult> {
    const asked = {
      workspaceFolders,
      capabilities,
      initializationOptions,
      ...(locale !== undefined && { locale }),
    };
    const params = { processId: null, rootUri: null, ...asked };
    const result = await this.connection.sendRequest(InitializeRequest.type, params);
    await this.connection.sendNotification(InitializedNotification.type, {});
    return result;
  }

  open(uri: string, text: string): Promise<void> {
    this.texts.set(uri, { text, version: 1 });
    return this.connection.sendNotification(DidOpenTextDocumentNotification.type, {
      textDocument: { uri, languageId: "crochet", version: 1, text },
    });
  }

  /** Replaces what is at some offsets, sending nothing but the edit. */
  edit(uri: string, { start, end }: Span, inserted: string): Promise<void> {
    const { text, version } = this.document(uri);
    this.texts.set(uri, { text: text.slice(0, start) + inserted + text.slice(end), version: version + 1 });
    return this.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri, version: version + 1 },
      contentChanges: [{ range: rangeOf(text, start, end), text: inserted }],
    });
  }

  /** Replaces the first occurrence of `old`. */
  replace(uri: string, old: string, inserted: string): Promise<void> {
    const start = this.document(uri).text.indexOf(old);
    if (start < 0) throw new Error(`"${old}" is not in the text.`);
    return this.edit(uri, { start, end: start + old.length }, inserted);
  }

  /** Types at the end of the text. */
  type(uri: string, inserted: string): Promise<void> {
    const { length } = this.document(uri).text;
    return this.edit(uri, { start: length, end: length }, inserted);
  }

  save(uri: string): Promise<void> {
    return this.connection.sendNotification(DidSaveTextDocumentNotification.type, { textDocument: { uri } });
  }

  close(uri: string): Promise<void> {
    this.texts.delete(uri);
    return this.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri } });
  }

  pull(uri: string, previousResultId?: string): Promise<DocumentDiagnosticReport> {
    const params = { textDocument: { uri }, ...(previousResultId ? { previousResultId } : {}) };
    return this.connection.sendRequest(DocumentDiagnosticRequest.type, params);
  }

  /** The findings of a full answer; fails on "unchanged". */
  async pullItems(uri: string): Promise<Diagnostic[]> {
    const report = await this.pull(uri);
    if (report.kind !== "full") throw new Error("The answer was expected to be full.");
    return report.items;
  }

  /** Where a part of the text is first found, as positions are given. */
  positionOf(uri: string, part: string): Position {
    const { text } = this.document(uri);
    return rangeOf(text, text.indexOf(part), text.indexOf(part)).start;
  }

  hover(uri: string, part: string): Promise<Hover | null> {
    const params = { textDocument: { uri }, position: this.positionOf(uri, part) };
    return this.connection.sendRequest(HoverRequest.type, params);
  }

  lenses(uri: string): Promise<CodeLens[] | null> {
    return this.connection.sendRequest(CodeLensRequest.type, { textDocument: { uri } });
  }

  /** Asks what only this extension's own client asks, of the row where a part of the text is first found. */
  ofRow<R>(question: "rowStatus" | "rowProof", uri: string, part: string): Promise<R | null> {
    const params = { textDocument: { uri }, position: this.positionOf(uri, part) };
    return this.connection.sendRequest(`loopledger/${question}`, params);
  }

  /** The next findings sent for a document after `count` had been sent in all. */
  async publishedAfter(count: number): Promise<PublishDiagnosticsParams> {
    return until(() => this.published[count]);
  }

  private document(uri: string): { text: string; version: number } {
    const document = this.texts.get(uri);
    if (!document) throw new Error(`${uri} is not open.`);
    return document;
  }
}

function rangeOf(text: string, start: number, end: number): Range {
  const lines = new LineIndex(text);
  const [from, to] = [lines.position(start), lines.position(end)];
  return {
    start: { line: from.line, character: from.column },
    end: { line: to.line, character: to.column },
  };
}

/** Waits for something to be there; the test's own time limit ends a wait in vain. */
export async function until<T>(get: () => T | undefined): Promise<T> {
  let value = get();
  while (value === undefined) {
    await nextTurn();
    value = get();
  }
  return value;
}

/** A server in this process, joined to a client by a pair of streams. */
export function inProcess(createChecker: Host["createChecker"] = fakeChecker): Client {
  return inProcessWithGate(createChecker).client;
}

/** As above, with a gate that lets what the client sends through all at once. */
export function inProcessWithGate(createChecker: Host["createChecker"]): { client: Client; gate: Gate } {
  const [up, down] = [new PassThrough(), new PassThrough()];
  const gate = new Gate();
  up.on("data", (bytes) => gate.pass(bytes));
  const connection = createConnection(
    ProposedFeatures.all,
    new StreamMessageReader(gate.output),
    new StreamMessageWriter(down),
  );
  startServer(connection, {
    createChecker,
    nextTurn: () => nextTurn(),
    version: "test",
    files: nodeFiles,
    sentences: sentencesIn(fileURLToPath(new URL("../../server/l10n", import.meta.url))),
  });
  const server = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  return { client: new Client(server), gate };
}

class Gate {
  readonly output = new PassThrough();
  private held: Buffer[] | undefined;

  pass(bytes: Buffer): void {
    if (this.held) this.held.push(bytes);
    else this.output.write(bytes);
  }

  close(): void {
    this.held = [];
  }

  open(): void {
    this.output.write(Buffer.concat(this.held ?? []));
    this.held = undefined;
  }
}

/** A server in a process of its own, as editors start it. */
export function overStdio(
  script: string,
  args: readonly string[],
  stderr: "inherit" | "ignore" = "inherit",
): { client: Client; server: ChildProcess } {
  const server = spawn(process.execPath, [script, ...args], { stdio: ["pipe", "pipe", stderr] });
  if (!server.stdin || !server.stdout) throw new Error("The server has no streams.");
  const reader = new StreamMessageReader(server.stdout);
  const writer = new StreamMessageWriter(server.stdin);
  return { client: new Client(createProtocolConnection(reader, writer)), server };
}
