import { fork, spawn } from "node:child_process";
import { once } from "node:events";
import { beforeAll, describe, expect, onTestFinished, test } from "vitest";
import {
  createProtocolConnection,
  ExitNotification,
  IPCMessageReader,
  IPCMessageWriter,
  ShutdownRequest,
} from "vscode-languageserver-protocol/node";
import { bundle, TEST_VERSION } from "./bundles";
import { Client, overStdio, PULL, PUSH } from "./client";
import { HOSTILE_TEXTS } from "./hostile-texts";

const WRONG = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)";
const URI = "file:///buoy.crochet";

let server: string;
let commandLine: string;

beforeAll(async () => {
  [server, commandLine] = await Promise.all([bundle("lsp/main-node.ts"), bundle("cli/main.ts")]);
});

/** Starts a server that ends with the test at the latest. */
function started([script = "", ...args]: readonly string[]): ReturnType<typeof overStdio> {
  const running = overStdio(script, args);
  onTestFinished(() => {
    running.server.kill();
  });
  return running;
}

describe.each([
  ["the server's own script", () => [server, "--stdio"]],
  ["loopledger lsp --stdio", () => [commandLine, "lsp", "--stdio"]],
])("%s", (_, command) => {
  test("finds what does not fit, and ends when told to", async () => {
    const { client, server: process } = started(command());
    const { serverInfo } = await client.initialize(PULL);
    expect(serverInfo?.version).toBe(TEST_VERSION);
    await client.open(URI, WRONG);
    const findings = await client.pullItems(URI);
    expect(findings).toMatchObject([{ code: "does-not-fit", range: { start: { line: 1 } } }]);
    await client.replace(URI, "x5", "x6");
    expect(await client.pullItems(URI)).toEqual([]);
    expect(JSON.stringify(await client.hover(URI, "Rnd 2"))).toContain("6 of 6");
    expect((await client.lenses(URI))?.[0]?.command?.title).toBe("2 rounds, 18 sts");
    expect(await client.ofRow("rowStatus", URI, "Rnd 2")).toMatchObject({ text: "Rnd 2: 12 sts" });
    expect(await client.ofRow("rowProof", URI, "Rnd 2")).toMatchObject({ row: "Rnd 2", reason: null });
    const ended = once(process, "exit");
    await client.connection.sendRequest(ShutdownRequest.type);
    await client.connection.sendNotification(ExitNotification.type);
    expect(await ended).toEqual([0, null]);
  });
});

test("a client that cannot ask is sent what does not fit", async () => {
  const { client } = started([server, "--stdio"]);
  await client.initialize(PUSH);
  await client.open(URI, WRONG);
  const { diagnostics } = await client.publishedAfter(0);
  expect(diagnostics).toMatchObject([{ code: "does-not-fit", range: { start: { line: 1 } } }]);
});

test("the server ends with its client", async () => {
  const { client, server: process } = started([server, "--stdio"]);
  await client.initialize(PULL);
  const ended = once(process, "exit");
  process.stdin?.end();
  expect(await ended).toEqual([1, null]);
});

test("over the channel Node has between processes, the server answers and ends with its client", async () => {
  const process = fork(server, ["--node-ipc"]);
  onTestFinished(() => {
    process.kill();
  });
  const client = new Client(
    createProtocolConnection(new IPCMessageReader(process), new IPCMessageWriter(process)),
  );
  await client.initialize(PULL);
  await client.open(URI, "Hello");
  expect(await client.pullItems(URI)).toEqual([]);
  const ended = once(process, "exit");
  process.disconnect();
  expect(await ended).toEqual([expect.any(Number), null]);
});

test("the server lives through messages that are none", async () => {
  const { client, server: process } = started([server, "--stdio"]);
  await client.initialize(PULL);
  const body = "{ this is no JSON";
  process.stdin?.write(`Content-Length: ${body.length}\r\n\r\n${body}`);
  await client.connection.sendNotification("textDocument/didOpen", { textDocument: null });
  await client.connection.sendNotification("textDocument/didChange", {});
  await expect(client.connection.sendRequest("textDocument/diagnostic", {})).rejects.toThrow();
  await client.open(URI, "Hello");
  expect(await client.pull(URI)).toMatchObject({ kind: "full" });
});

test.each(HOSTILE_TEXTS)("the server lives through %s", async (_, text) => {
  const { client, server: process } = started([server, "--stdio"]);
  await client.initialize(PULL);
  await client.open(URI, text);
  expect(await client.pull(URI)).toMatchObject({ kind: "full" });
  await client.type(URI, "\nRnd 9: ]\u0000\ud800");
  expect(await client.hover(URI, "]")).toBeDefined();
  expect(await client.lenses(URI)).toBeInstanceOf(Array);
  expect(await client.ofRow("rowStatus", URI, "]")).toBeDefined();
  expect(await client.pull(URI)).toMatchObject({ kind: "full" });
  await client.close(URI);
  expect(await client.pullItems(URI)).toEqual([]);
  expect(client.logged).toEqual([]);
  expect(process.exitCode).toBe(null);
});

test("no server is started without a way to talk to it", async () => {
  const process = spawn(globalThis.process.execPath, [commandLine, "lsp"], { stdio: "ignore" });
  expect(await once(process, "exit")).toEqual([2, null]);
});
