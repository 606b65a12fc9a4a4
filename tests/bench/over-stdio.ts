import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
  CodeActionRequest,
  CompletionRequest,
  createProtocolConnection,
  DiagnosticRefreshRequest,
  DidChangeTextDocumentNotification,
  DidOpenTextDocumentNotification,
  DocumentDiagnosticRequest,
  HoverRequest,
  InitializedNotification,
  InitializeRequest,
  type ProtocolConnection,
  PublishDiagnosticsNotification,
  type ServerCapabilities,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver-protocol/node";
import { serverFlags } from "../../client/src/server-flags";
import { LineIndex } from "../../server/src/text/line-index";
import { styleSheet } from "./css-text";
import { memoryOf } from "./hostile";
import { jsonText } from "./json-text";
import { longPattern, mixOf } from "./long-pattern";
import { median, quantile, type Times } from "./measure";
import { Random } from "./random";

export type ServerName = "loopledger" | "css" | "json" | "empty";
export const serverNames: readonly ServerName[] = ["loopledger", "css", "json", "empty"];

/** What was measured of one server on one text, in milliseconds. */
export interface OverStdio {
  readonly server: ServerName;
  readonly rows: number;
  /** From the start of the process to the answer to `initialize`. */
  readonly start: number;
  /** From the opening of the text to its findings. */
  readonly first: number;
  /** From a keystroke to the findings. */
  readonly keystrokes: Times;
  readonly hovers: Times;
  readonly completions: Times;
  /** Lists of what can be changed at the caret. */
  readonly actions: Times;
  /** Megabytes once the text was checked, and after all keystrokes; null where the system does not tell. */
  readonly atRest: number | null;
  readonly atEnd: number | null;
}

/** Whether a client asks for findings after each keystroke, or is sent them. */
export type Way = "pull" | "push";

/** The servers, bundled as they are shipped; gives how to start each, ours as the extension does. */
export function bundleServers(): (name: ServerName | "command line") => readonly string[] {
  const folder = mkdtempSync(join(tmpdir(), "loopledger-bench-"));
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  execFileSync(process.execPath, ["tests/bench/bundle-servers.mjs", folder], { stdio: "inherit" });
  return (name) => {
    if (name === "command line") return [join(folder, "dist/loopledger.js")];
    return name === "loopledger"
      ? [...serverFlags, join(folder, "dist/server.js"), "--stdio"]
      : [join(folder, "dist/yardstick.js"), name, "--stdio"];
  };
}

const uri = "file:///stall/text";

interface Sitting {
  readonly seed: number;
  readonly keystrokes: number;
  readonly way?: Way;
  /** After every so-manieth keystroke, something is asked besides the findings. */
  readonly askEvery?: number;
}

/** One session: start, open, and so many keystrokes, each followed by asking for the findings. */
export async function session(
  server: ServerName,
  command: readonly string[],
  rows: number,
  { seed, keystrokes, way = "pull", askEvery = 1 }: Sitting,
): Promise<OverStdio> {
  const begun = performance.now();
  const child = spawn(process.execPath, command, { stdio: ["pipe", "pipe", "inherit"] });
  const connection = connected(child);
  connection.onRequest(DiagnosticRefreshRequest.type, () => {});
  const { capabilities } = await connection.sendRequest(InitializeRequest.type, {
    processId: null,
    rootUri: null,
    // As VS Code has them.
    capabilities:
      way === "push"
        ? { textDocument: { publishDiagnostics: { relatedInformation: true, versionSupport: true } } }
        : {
            textDocument: {
              diagnostic: { relatedInformation: true },
              codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: [] } } },
            },
            workspace: { diagnostics: { refreshSupport: true } },
          },
  });
  const start = performance.now() - begun;
  await connection.sendNotification(InitializedNotification.type, {});
  const typist = new Typist(connection, textFor(server, rows, seed), new Random(seed), way);
  const first = await timed(() => typist.open(server === "loopledger" ? "crochet" : server));
  const atRest = memoryOf(child.pid, "VmRSS");
  const times = { keystrokes: [], hovers: [], completions: [], actions: [] } as Record<string, Times>;
  const asked = way === "push" ? [] : offeredBy(capabilities);
  for (let i = 0; i < keystrokes; i++) {
    times.keystrokes?.push(await timed(() => typist.type()));
    if (i % askEvery === 0) for (const what of asked) times[what]?.push(await timed(() => typist.ask(what)));
  }
  const atEnd = memoryOf(child.pid, "VmRSS");
  connection.dispose();
  child.kill();
  return { server, rows, start, first, ...(times as Pick<OverStdio, Asked | "keystrokes">), atRest, atEnd };
}

const questions = {
  hovers: HoverRequest.method,
  completions: CompletionRequest.method,
  actions: CodeActionRequest.method,
} as const;
type Asked = keyof typeof questions;

function offeredBy(capabilities: ServerCapabilities): Asked[] {
  const offered: Readonly<Record<Asked, unknown>> = {
    hovers: capabilities.hoverProvider,
    completions: capabilities.completionProvider,
    actions: capabilities.codeActionProvider,
  };
  return (Object.keys(questions) as Asked[]).filter((what) => offered[what]);
}

function textFor(server: ServerName, rows: number, seed: number): string {
  const pattern = longPattern(rows, seed);
  const { lines, bytes } = mixOf(pattern);
  if (server === "css") return styleSheet(lines, bytes, seed);
  return server === "json" ? jsonText(lines, bytes, seed) : pattern;
}

function connected({ stdout, stdin }: ChildProcess): ProtocolConnection {
  if (!stdout || !stdin) throw new Error("The server has no standard streams.");
  const connection = createProtocolConnection(
    new StreamMessageReader(stdout),
    new StreamMessageWriter(stdin),
  );
  connection.listen();
  return connection;
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/** Types in the middle of a text: a character goes in, and at the next keystroke it is taken out again. */
class Typist {
  private version = 1;
  private published: () => void = () => {};
  private typedAt: number | null = null;
  private readonly lines: LineIndex;

  constructor(
    private readonly connection: ProtocolConnection,
    private readonly text: string,
    private readonly random: Random,
    private readonly way: Way,
  ) {
    this.lines = new LineIndex(text);
    connection.onNotification(PublishDiagnosticsNotification.type, ({ version = 0 }) => {
      if (version >= this.version) this.published();
    });
  }

  async open(languageId: string): Promise<unknown> {
    const textDocument = { uri, languageId, version: this.version, text: this.text };
    const found = this.found();
    await this.connection.sendNotification(DidOpenTextDocumentNotification.type, { textDocument });
    return found();
  }

  async type(): Promise<unknown> {
    const goesIn = this.typedAt === null;
    const at = this.typedAt ?? this.random.between(Math.floor(this.text.length / 20), this.text.length - 1);
    this.typedAt = goesIn ? at : null;
    const start = this.place(at);
    const end = goesIn ? start : { ...start, character: start.character + 1 };
    this.version++;
    const found = this.found();
    await this.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri, version: this.version },
      contentChanges: [
        { range: { start, end }, text: goesIn ? this.random.oneOf(["1", "2", "s", "c", ","]) : "" },
      ],
    });
    return found();
  }

  ask(what: Asked): Promise<unknown> {
    const position = this.place(this.random.between(0, this.text.length - 1));
    const range = { start: position, end: position };
    const params = { textDocument: { uri }, position, range, context: { diagnostics: [] } };
    return this.connection.sendRequest(questions[what], params);
  }

  /** The findings of the version that is there now: asked for once it is known, or waited for from now on. */
  private found(): () => Promise<unknown> {
    if (this.way === "pull")
      return () => this.connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri } });
    const sent = new Promise<void>((resolve) => {
      this.published = resolve;
    });
    return () => sent;
  }

  private place(at: number): { line: number; character: number } {
    const { line, column } = this.lines.position(at);
    return { line, character: column };
  }
}

/** A Markdown table of sessions, the servers side by side. */
export function stdioTable(sessions: readonly OverStdio[]): string {
  const rows = [...sessions]
    .sort((a, b) => a.rows - b.rows || serverNames.indexOf(a.server) - serverNames.indexOf(b.server))
    .map(({ server, rows, start, first, keystrokes, hovers }) => {
      const pair = (times: Times) =>
        times.length === 0 ? "–" : `${median(times).toFixed(1)}, ${quantile(times, 0.95).toFixed(1)}`;
      return `| ${[rows, server, start.toFixed(0), first.toFixed(0), pair(keystrokes), pair(hovers)].join(" | ")} |`;
    });
  return [
    "| rows | server | start, ms | opened to findings, ms | keystroke to findings, ms: median, p95 | hover, ms: median, p95 |",
    "|---|---|---|---|---|---|",
    ...rows,
  ].join("\n");
}
