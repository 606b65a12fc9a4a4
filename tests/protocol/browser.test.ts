import { readdirSync, readFileSync } from "node:fs";
import { beforeAll, expect, onTestFinished, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { bundleWorker, TEST_VERSION } from "./bundles";
import { type Client, inProcess, PULL, PUSH } from "./client";
import { HOSTILE_TEXTS } from "./hostile-texts";
import { inWorker } from "./in-worker";

const samples = new URL("../../samples/", import.meta.url);
const URI = "vscode-test-web://mount/buoy.crochet";
const WRONG = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)";

let script: string;

beforeAll(async () => {
  script = await bundleWorker();
});

/** A worker that ends with the test. */
function started(): Client {
  const { client, end } = inWorker(script);
  onTestFinished(end);
  return client;
}

test("a worker answers, follows edits and tells its version", async () => {
  const client = started();
  const { serverInfo, capabilities } = await client.initialize(PULL);
  expect(serverInfo?.version).toBe(TEST_VERSION);
  // Nothing to read files with: only what is open is checked.
  expect(capabilities.diagnosticProvider).toMatchObject({ workspaceDiagnostics: false });
  await client.open(URI, WRONG);
  expect(await client.pullItems(URI)).toMatchObject([
    { code: "does-not-fit", range: { start: { line: 1 } } },
  ]);
  await client.replace(URI, "x5", "x6");
  expect(await client.pullItems(URI)).toEqual([]);
  expect(JSON.stringify(await client.hover(URI, "Rnd 2"))).toContain("6 of 6");
});

test("a worker sends its findings to a client that cannot ask", async () => {
  const client = started();
  await client.initialize(PUSH);
  await client.open(URI, WRONG);
  expect((await client.publishedAfter(0)).diagnostics).toMatchObject([{ code: "does-not-fit" }]);
});

const patterns = readdirSync(samples).filter((name) => name.endsWith(".crochet"));

test.each(patterns)("%s: a worker finds and tells what the desktop's server does", async (name) => {
  const text = readFileSync(new URL(name, samples), "utf8");
  const [worker, desktop] = [started(), inProcess(() => new Checker())];
  const uri = `file:///${name}`;
  const told = async (client: Client) => {
    await client.initialize(PULL);
    await client.open(uri, text);
    return { findings: await client.pullItems(uri), lenses: await client.lenses(uri) };
  };
  const there = await told(desktop);
  expect(there.lenses?.length).toBeGreaterThan(0);
  expect(await told(worker)).toEqual(there);
});

test("the first draft is among them, and full of slips", async () => {
  const client = started();
  await client.initialize(PULL);
  await client.open(URI, readFileSync(new URL("first-draft.crochet", samples), "utf8"));
  expect((await client.pullItems(URI)).length).toBeGreaterThan(5);
});

test.each(HOSTILE_TEXTS)("a worker lives through %s", async (_, text) => {
  const client = started();
  await client.initialize(PULL);
  await client.open(URI, text);
  expect(await client.pull(URI)).toMatchObject({ kind: "full" });
  await client.close(URI);
  expect(client.logged).toEqual([]);
});
