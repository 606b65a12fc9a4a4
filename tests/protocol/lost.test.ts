import { spawn } from "node:child_process";
import { once } from "node:events";
import { chmodSync, openSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, onTestFinished, test } from "vitest";
import {
  CancellationTokenSource,
  ConfigurationRequest,
  LSPErrorCodes,
} from "vscode-languageserver-protocol/node";
import { Checker } from "../../server/src/workspace/checker";
import { bundle, temporaryFolder } from "./bundles";
import { inProcess, overStdio, PULL, PULL_AND_SETTINGS } from "./client";
import { runCommand } from "./command";

const WRONG = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)";
const URI = "file:///buoy.crochet";
let server: string;
let commandLine: string;

beforeAll(async () => {
  [server, commandLine] = await Promise.all([bundle("lsp/main-node.ts"), bundle("cli/main.ts")]);
});

function started(script: string): ReturnType<typeof overStdio> {
  const running = overStdio(script, ["--stdio"]);
  running.server.stdin?.on("error", () => {});
  onTestFinished(() => {
    running.server.kill();
  });
  return running;
}

test("a server that is killed while someone types is replaced, and the next one finds what is in the text", async () => {
  const killed = started(server);
  await killed.client.initialize(PULL);
  await killed.client.open(URI, "");
  // What is typed once the server is gone arrives nowhere.
  for (const letter of WRONG.slice(0, 30)) killed.client.type(URI, letter).catch(() => {});
  const gone = once(killed.server, "exit");
  killed.server.kill("SIGKILL");
  expect(await gone).toEqual([null, "SIGKILL"]);
  const next = started(server);
  await next.client.initialize(PULL);
  await next.client.open(URI, WRONG);
  expect(await next.client.pullItems(URI)).toMatchObject([{ code: "does-not-fit" }]);
});

test("a server that runs out of memory ends, and the next one finds what is in the text", async () => {
  const { client, server: child } = overStdio("--max-old-space-size=24", [server, "--stdio"], "ignore");
  child.stdin?.on("error", () => {});
  const ended = once(child, "exit");
  await client.initialize(PULL);
  // Each row of each text is like no other: all of it has to be kept.
  const rows = (text: number) =>
    Array.from({ length: 3000 }, (_, row) => `Rnd ${row + 1}: (${text + row} sc, inc) x${row + 2} (9)`);
  for (let text = 0; text < 200 && child.exitCode === null && child.signalCode === null; text++) {
    client.open(`file:///${text}.crochet`, rows(text).join("\n")).catch(() => {});
    const answer = client.pull(`file:///${text}.crochet`).catch(() => {});
    await Promise.race([answer, ended]);
  }
  const [code, signal] = await ended;
  expect(signal === "SIGABRT" || code !== 0).toBe(true);
  const next = started(server);
  await next.client.initialize(PULL);
  await next.client.open(URI, WRONG);
  expect(await next.client.pullItems(URI)).toMatchObject([{ code: "does-not-fit" }]);
}, 120_000);

test("a server whose client stops listening ends, and does not go on for nobody", async () => {
  const { client, server: child } = overStdio(server, ["--stdio"], "ignore");
  child.stdin?.on("error", () => {});
  const ended = once(child, "exit");
  await client.initialize(PULL);
  await client.open(URI, WRONG);
  client.connection.dispose();
  child.stdout?.destroy();
  child.stdin?.end();
  await ended;
});

test("two clients of two servers do not see one another", async () => {
  const [one, other] = [inProcess(() => new Checker()), inProcess(() => new Checker())];
  await Promise.all([one.initialize(PULL), other.initialize(PULL)]);
  await Promise.all([one.open(URI, WRONG), other.open(URI, WRONG.replace("x5", "x6"))]);
  expect(await one.pullItems(URI)).toMatchObject([{ code: "does-not-fit" }]);
  expect(await other.pullItems(URI)).toEqual([]);
});

test("a storm of requests that are called off leaves a server that answers", async () => {
  const client = inProcess(() => new Checker());
  await client.initialize(PULL);
  await client.open(URI, WRONG);
  const methods = [
    "textDocument/diagnostic",
    "textDocument/hover",
    "loopledger/rowStatus",
    "loopledger/wake",
  ];
  const storm = Array.from({ length: 2000 }, (_, i) => {
    const stop = new CancellationTokenSource();
    const params = { textDocument: { uri: URI }, position: { line: 1, character: i % 20 } };
    const answer = client.connection.sendRequest(methods[i % methods.length] ?? "", params, stop.token);
    if (i % 3 === 0) stop.cancel();
    else setImmediate(() => stop.cancel());
    return answer.then(
      () => "answered",
      (fault: { code?: number }) => fault.code,
    );
  });
  const ends = new Set(await Promise.all(storm));
  ends.delete("answered");
  expect([...ends]).toEqual([LSPErrorCodes.RequestCancelled]);
  expect(await client.pullItems(URI)).toMatchObject([{ code: "does-not-fit" }]);
  expect(client.logged).toEqual([]);
});

test("a client that answers nothing at all gets findings all the same", async () => {
  const client = inProcess(() => new Checker());
  const never = () => new Promise<never>(() => {});
  for (const method of [
    "workspace/configuration",
    "workspace/workspaceFolders",
    "workspace/diagnostic/refresh",
    "workspace/inlayHint/refresh",
    "client/registerCapability",
  ])
    client.connection.onRequest(method, never);
  await client.initialize({
    ...PULL_AND_SETTINGS,
    workspace: {
      ...PULL_AND_SETTINGS.workspace,
      workspaceFolders: true,
      inlayHint: { refreshSupport: true },
      didChangeWatchedFiles: { dynamicRegistration: true },
    },
  });
  await client.open(URI, WRONG);
  expect(await client.pullItems(URI)).toMatchObject([{ code: "does-not-fit" }]);
  await client.replace(URI, "x5", "x6");
  expect(await client.pullItems(URI)).toEqual([]);
});

test("a client that never answers what its settings are gets findings all the same", async () => {
  const client = inProcess(() => new Checker());
  client.connection.onRequest(ConfigurationRequest.type, () => new Promise<never>(() => {}));
  await client.initialize(PULL_AND_SETTINGS);
  await client.open(URI, WRONG);
  expect(await client.pullItems(URI)).toMatchObject([{ code: "does-not-fit" }]);
});

describe("the command line", () => {
  test("reads what may only be read, and changes nothing", async () => {
    const folder = temporaryFolder();
    const file = join(folder, "buoy.crochet");
    writeFileSync(file, WRONG);
    const before = statSync(file);
    chmodSync(file, 0o444);
    chmodSync(folder, 0o555);
    const { status, out } = await runCommand(commandLine, ["check", file]);
    chmodSync(folder, 0o755);
    expect({ status, out }).toMatchObject({ status: 1, out: expect.stringContaining("Rnd 2") });
    expect(readFileSync(file, "utf8")).toBe(WRONG);
    expect(statSync(file)).toMatchObject({ mtimeMs: before.mtimeMs, size: before.size });
    expect(readdirSync(folder)).toEqual(["buoy.crochet"]);
  });

  test("tells that the disk is full, with the status of a run that failed", async () => {
    const file = join(temporaryFolder(), "buoy.crochet");
    writeFileSync(file, WRONG.replace("x5", "x6"));
    const full = openSync("/dev/full", "w");
    const child = spawn(process.execPath, [commandLine, "check", file], { stdio: ["ignore", full, "pipe"] });
    const told: Buffer[] = [];
    child.stderr?.on("data", (bytes: Buffer) => told.push(bytes));
    const [status] = await once(child, "close");
    expect(Buffer.concat(told).toString()).toBe(
      "loopledger: the output could not be written: the disk is full. What is there of it is not whole.\n",
    );
    expect(status).toBe(2);
    expect(readFileSync(file, "utf8")).toBe(WRONG.replace("x5", "x6"));
  });
});
