import { type ChildProcess, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import {
  createProtocolConnection,
  DidOpenTextDocumentNotification,
  DocumentDiagnosticRequest,
  InitializedNotification,
  InitializeRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver-protocol/node";
import { HOSTILE_TEXTS } from "../protocol/hostile-texts";

/** What one text that nobody writes costs a server that has checked a pattern before. */
export interface Suffered {
  readonly name: string;
  /** From opening the text to its findings, in milliseconds of the clock and of the processor. */
  readonly took: number;
  readonly worked: number;
  /** The most memory the server ever had, in megabytes; null where the system does not tell. */
  readonly memory: number | null;
  readonly findings: number;
}

const pattern = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x5 (18)\n";

/** Every such text, each in a server of its own, as after some minutes of work. */
export async function sufferAll(command: readonly string[]): Promise<Suffered[]> {
  const all: Suffered[] = [];
  for (const [name, text] of HOSTILE_TEXTS) all.push(await suffer(name, text, command));
  return all;
}

async function suffer(name: string, text: string, command: readonly string[]): Promise<Suffered> {
  const child = spawn(process.execPath, command, { stdio: ["pipe", "pipe", "inherit"] });
  const ask = await asker(child);
  for (let i = 0; i < 40; i++) await ask(`file:///warm/${i}`, pattern.replaceAll("6", `${6 + (i % 3)}`));
  const [started, worked] = [performance.now(), processorTime(child)];
  const items = await ask("file:///hostile", text);
  const told = {
    name,
    took: performance.now() - started,
    worked: processorTime(child) - worked,
    memory: mostMemory(child),
    findings: items.length,
  };
  child.kill();
  return told;
}

async function asker({ stdout, stdin }: ChildProcess) {
  if (!stdout || !stdin) throw new Error("The server has no standard streams.");
  const connection = createProtocolConnection(
    new StreamMessageReader(stdout),
    new StreamMessageWriter(stdin),
  );
  connection.listen();
  const capabilities = { textDocument: { diagnostic: {} } };
  await connection.sendRequest(InitializeRequest.type, { processId: null, rootUri: null, capabilities });
  await connection.sendNotification(InitializedNotification.type, {});
  return async (uri: string, text: string) => {
    const textDocument = { uri, languageId: "crochet", version: 1, text };
    await connection.sendNotification(DidOpenTextDocumentNotification.type, { textDocument });
    const report = await connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument });
    return report.kind === "full" ? report.items : [];
  };
}

/** Linux tells it in hundredths of a second; elsewhere the clock has to do. */
function processorTime({ pid }: ChildProcess): number {
  try {
    const [, behindName = ""] = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ");
    const parts = behindName.split(" ").map(Number);
    return ((parts[11] ?? 0) + (parts[12] ?? 0)) * 10;
  } catch {
    return performance.now();
  }
}

export function mostMemory({ pid }: ChildProcess): number | null {
  return memoryOf(pid, "VmHWM");
}

/** Megabytes, as Linux tells of a process; null elsewhere. */
export function memoryOf(pid: number | undefined, what: "VmHWM" | "VmRSS"): number | null {
  try {
    const line = new RegExp(`^${what}:\\s*(\\d+) kB$`, "m").exec(readFileSync(`/proc/${pid}/status`, "utf8"));
    return line ? Number(line[1]) / 1024 : null;
  } catch {
    return null;
  }
}

export const hostileGoals = { milliseconds: 200, megabytes: 150 };

export function hostileTable(all: readonly Suffered[]): string {
  const rows = all.map(({ name, took, worked, memory, findings }) => {
    const most = memory === null ? "–" : memory.toFixed(0);
    return `| ${[name, took.toFixed(0), worked.toFixed(0), most, findings].join(" | ")} |`;
  });
  return [
    "| text | to findings, ms | of the processor, ms | most memory, MB | findings |",
    "|---|---|---|---|---|",
    ...rows,
  ].join("\n");
}
