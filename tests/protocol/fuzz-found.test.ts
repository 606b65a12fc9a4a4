import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { ABILITIES } from "../fuzz/abilities";
import type { Session } from "../fuzz/operations";
import { shapes } from "../fuzz/shapes";
import { failureOf, reduced } from "../fuzz/shrink";
import { inProcess } from "./client";

/** Sessions that broke a promise once, each as small as it could be made. */
const folder = new URL("../fuzz/found/", import.meta.url);
const found = readdirSync(folder).filter((file) => file.endsWith(".json"));

test.each(found)("%s does not come back", async (file) => {
  const kept = JSON.parse(readFileSync(new URL(file, folder), "utf8")) as Session;
  expect((await failureOf(kept))?.message ?? null).toBe(null);
});

/** Capabilities whose requests are called otherwise, and those that are no requests. */
const otherNames: Readonly<Record<string, readonly string[]>> = {
  colorProvider: ["textDocument/documentColor", "textDocument/colorPresentation"],
  diagnosticProvider: ["textDocument/diagnostic", "workspace/diagnostic"],
  documentFormattingProvider: ["textDocument/formatting"],
  documentOnTypeFormattingProvider: ["textDocument/onTypeFormatting"],
  documentRangeFormattingProvider: ["textDocument/rangeFormatting"],
  referencesProvider: ["textDocument/references"],
  workspaceSymbolProvider: ["workspace/symbol"],
  semanticTokensProvider: [
    "textDocument/semanticTokens/full",
    "textDocument/semanticTokens/full/delta",
    "textDocument/semanticTokens/range",
  ],
  positionEncoding: [],
  textDocumentSync: [],
};

test("whatever the server offers is asked in the random sessions", async () => {
  const { capabilities } = await inProcess().initialize(ABILITIES);
  const methods = Object.keys(capabilities).flatMap(
    (name) => otherNames[name] ?? [`textDocument/${name.replace(/Provider$/, "")}`],
  );
  expect(methods.length).toBeGreaterThan(20);
  expect(methods.filter((method) => !(method in shapes))).toEqual([]);
});

test("whatever the server answers to its own client is asked in the random sessions", () => {
  const hosts = new URL("../../server/src/lsp/", import.meta.url);
  const files = readdirSync(hosts).filter((file) => file.endsWith(".ts"));
  const methods = files.flatMap(
    (file) => readFileSync(new URL(file, hosts), "utf8").match(/"loopledger\/\w+"/g) ?? [],
  );
  expect(methods.length).toBeGreaterThan(8);
  expect(methods.filter((method) => !(JSON.parse(method) in shapes))).toEqual([]);
});

test("a list is brought down to what a failure needs", async () => {
  const needed = [3, 17, 18, 40];
  const list = Array.from({ length: 50 }, (_, i) => i);
  const holds = async (some: readonly number[]) => needed.every((one) => some.includes(one));
  expect(await reduced(list, holds)).toEqual(needed);
});
