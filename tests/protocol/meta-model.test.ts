import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import {
  ConfigurationRequest,
  PublishDiagnosticsNotification,
  RegistrationRequest,
} from "vscode-languageserver-protocol/node";
import { Checker } from "../../server/src/workspace/checker";
import { ABILITIES } from "../fuzz/abilities";
import { faultIn, methods, protocolVersion } from "../fuzz/protocol/valid";
import { shapes } from "../fuzz/shapes";
import { inProcess, PULL_AND_SETTINGS, PUSH, until } from "./client";

const URI = "file:///buoy.crochet";
const WRONG = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)";

test("what messages are held against is of the version of the protocol that is used", () => {
  const manifest = new URL("../../node_modules/vscode-languageserver-protocol/package.json", import.meta.url);
  expect(JSON.parse(readFileSync(manifest, "utf8"))).toMatchObject({ version: protocolVersion });
});

/** Each lacks something or has something that the protocol does not allow. */
describe("what the protocol does not allow is told", () => {
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 3 } };
  test.each([
    ["textDocument/hover", { range }],
    ["textDocument/hover", { contents: { kind: "html", value: "" } }],
    ["textDocument/definition", [{ uri: URI }]],
    ["textDocument/foldingRange", [{ startLine: -1, endLine: 2 }]],
    ["textDocument/foldingRange", [{ startLine: 0.5, endLine: 2 }]],
    ["textDocument/diagnostic", { kind: "full" }],
    ["textDocument/publishDiagnostics", { uri: URI, diagnostics: [{ range }] }],
    ["textDocument/rename", { documentChanges: [{ edits: [] }] }],
    ["textDocument/semanticTokens/full", { data: ["1"] }],
  ])("%s %j", (method, message) => {
    expect(faultIn(method, message)).toMatch(/must/);
  });

  test("of every request that random sessions make", () => {
    const asked = Object.keys(shapes).filter((method) => !method.startsWith("loopledger/"));
    expect(asked.filter((method) => !methods.some((known) => known === method))).toEqual([]);
  });

  test("of every method that is known", () => {
    for (const method of methods) expect([method, faultIn(method, 7)]).toEqual([method, expect.any(String)]);
  });
});

describe("what the server says of itself and sends unasked is valid", () => {
  test.each([
    ["a client that asks", ABILITIES],
    ["a client that is told", PUSH],
  ])("what it offers to %s", async (_, abilities) => {
    const answer = await inProcess(() => new Checker()).initialize(abilities);
    expect(faultIn("initialize", answer)).toBeNull();
  });

  test("findings that are sent", async () => {
    const client = inProcess(() => new Checker());
    const sent: unknown[] = [];
    client.connection.onNotification(PublishDiagnosticsNotification.type, (params) => {
      sent.push(params);
    });
    await client.initialize(PUSH);
    await client.open(URI, WRONG);
    const params = await until(() => sent[0]);
    expect(params).toMatchObject({ diagnostics: [{ code: "does-not-fit" }] });
    expect(faultIn("textDocument/publishDiagnostics", params)).toBeNull();
  });

  test("questions for settings, and what it wants to be told", async () => {
    const client = inProcess(() => new Checker());
    const sent = new Map<string, unknown>();
    client.connection.onRequest(ConfigurationRequest.type, (params) => {
      sent.set(ConfigurationRequest.method, params);
      return params.items.map(() => null);
    });
    client.connection.onRequest(RegistrationRequest.type, (params) => {
      sent.set(RegistrationRequest.method, params);
    });
    await client.initialize(PULL_AND_SETTINGS);
    await client.open(URI, WRONG);
    await client.pullItems(URI);
    await until(() => (sent.size > 1 ? sent : undefined));
    for (const [method, params] of sent) expect([method, faultIn(method, params)]).toEqual([method, null]);
  });
});
