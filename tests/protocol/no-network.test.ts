import { once } from "node:events";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, onTestFinished, test } from "vitest";
import { ExitNotification, ShutdownRequest } from "vscode-languageserver-protocol/node";
import { bundle, temporaryFolder } from "./bundles";
import { overStdio, PULL } from "./client";
import { runCommand } from "./command";

const WRONG = [
  "Rnd 1: 6 sc in mr (6)",
  "Rnd 2: inc x5 (12)",
  "See https://example.com, ../../../etc/passwd and [the chart](file:///etc/passwd).",
  "![](file:///etc/passwd) $(cat /etc/passwd) `cat /etc/passwd` %2e%2e/etc/passwd",
].join("\n");
const URI = "file:///buoy.crochet";

let server: string;
let commandLine: string;
/**
 * Read before a program starts: whatever asks for a connection, a name, another program, or a file that only the
 * pattern speaks of, ends it with 99.
 */
let guard: string;

beforeAll(async () => {
  [server, commandLine] = await Promise.all([bundle("lsp/main-node.ts"), bundle("cli/main.ts")]);
  guard = join(temporaryFolder(), "guard.cjs");
  writeFileSync(
    guard,
    `
    const stop = (what) => () => { require("node:fs").writeSync(2, "NETWORK " + what + "\\n"); process.exit(99); };
    const net = require("node:net");
    net.Socket.prototype.connect = stop("connect");
    net.Server.prototype.listen = stop("listen");
    require("node:dgram").createSocket = stop("datagram");
    for (const name of ["lookup", "resolve"]) require("node:dns")[name] = stop("name");
    for (const name of ["spawn", "exec", "execFile", "fork", "spawnSync", "execSync", "execFileSync"])
      require("node:child_process")[name] = stop("program");
    globalThis.fetch = stop("fetch");
    const fs = require("node:fs");
    for (const of of [fs, fs.promises])
      for (const name of ["open", "openSync", "readFile", "readFileSync", "stat", "statSync", "readdir", "readdirSync"]) {
        const real = of[name];
        if (real) of[name] = (path, ...rest) =>
          String(path).includes("passwd") ? stop("file")() : real.call(of, path, ...rest);
      }
    `,
  );
});

test("the guard ends a program that opens a connection", async () => {
  const script = join(temporaryFolder(), "calls-home.cjs");
  writeFileSync(script, 'require("node:http").get("http://127.0.0.1:9/")');
  expect(await runCommand("--require", [guard, script])).toMatchObject({
    status: 99,
    err: "NETWORK connect\n",
  });
});

test("the guard ends a program that reads such a file", async () => {
  const script = join(temporaryFolder(), "reads.cjs");
  writeFileSync(script, 'require("node:fs").readFileSync("/etc/passwd")');
  expect(await runCommand("--require", [guard, script])).toMatchObject({ status: 99, err: "NETWORK file\n" });
});

test("the server opens no connection and starts no program, whatever it is asked", async () => {
  const { client, server: child } = overStdio("--require", [guard, server, "--stdio"]);
  onTestFinished(() => {
    child.kill();
  });
  await client.initialize(PULL);
  await client.open(URI, WRONG);
  expect(await client.pullItems(URI)).toMatchObject([{ code: "does-not-fit" }]);
  const ofText = { textDocument: { uri: URI } };
  const caret = { ...ofText, position: { line: 1, character: 8 } };
  const methods = [
    "materials",
    "publishingPage",
    "queries",
    "rowProof",
    "rowInWords",
    "wake",
    "gradingSheet",
  ];
  for (const method of methods) await client.connection.sendRequest(`loopledger/${method}`, caret);
  for (const method of ["hover", "completion", "documentSymbol", "codeLens"])
    await client.connection.sendRequest(`textDocument/${method}`, caret);
  const ended = once(child, "exit");
  await client.connection.sendRequest(ShutdownRequest.type);
  await client.connection.sendNotification(ExitNotification.type);
  expect(await ended).toEqual([0, null]);
});

test("the command line opens no connection and starts no program", async () => {
  const file = join(temporaryFolder(), "buoy.crochet");
  writeFileSync(file, WRONG);
  for (const command of ["check", "measure"]) {
    const { status, err } = await runCommand("--require", [guard, commandLine, command, file]);
    expect({ command, status, err }).toMatchObject({ status: command === "check" ? 1 : 0, err: "" });
  }
});
