import { expect, test } from "vitest";
import { inProcess, inProcessWithGate, PUSH } from "./client";
import { countingChecker } from "./fake-checker";

const URI = "untitled:Untitled-1";

test("a client that cannot ask is not told that it could", async () => {
  const { capabilities } = await inProcess().initialize(PUSH);
  expect(capabilities).not.toHaveProperty("diagnosticProvider");
});

test("findings are sent on opening and after edits, and cleared on closing", async () => {
  const client = inProcess();
  await client.initialize(PUSH);
  await client.open(URI, "Rnd 1: misfit (6)");
  const opened = await client.publishedAfter(0);
  expect(opened).toMatchObject({ uri: URI, version: 1, diagnostics: [{ code: "does-not-fit" }] });
  expect(opened.diagnostics[0]?.relatedInformation).toHaveLength(1);
  await client.replace(URI, "misfit", "hm");
  expect(await client.publishedAfter(1)).toMatchObject({ version: 2, diagnostics: [{ code: "ambiguous" }] });
  await client.close(URI);
  expect(await client.publishedAfter(2)).toEqual({ uri: URI, diagnostics: [] });
});

test("a client that takes no versions and no related places is sent none", async () => {
  const client = inProcess();
  await client.initialize({});
  await client.open(URI, "Rnd 1: misfit (6)");
  const sent = await client.publishedAfter(0);
  expect(sent).not.toHaveProperty("version");
  expect(sent.diagnostics[0]).not.toHaveProperty("relatedInformation");
});

test("a burst of edits is checked once, as it is at its end", async () => {
  const checked: string[] = [];
  const { client, gate } = inProcessWithGate(countingChecker(checked));
  await client.initialize(PUSH);
  gate.close();
  await client.open(URI, "");
  for (const letter of "Rnd 1: misfit (6)") await client.type(URI, letter);
  gate.open();
  expect(await client.publishedAfter(0)).toMatchObject({
    version: 18,
    diagnostics: [{ code: "does-not-fit" }],
  });
  expect(checked).toEqual(["Rnd 1: misfit (6)"]);
});

test("a document closed in the same breath ends with no findings", async () => {
  const client = inProcess();
  await client.initialize(PUSH);
  void client.open(URI, "Rnd 1: misfit (6)");
  await client.close(URI);
  await client.open("untitled:Untitled-2", "Rnd 1: hm (6)");
  await client.publishedAfter(1);
  expect(client.published.filter(({ uri }) => uri === URI).at(-1)?.diagnostics).toEqual([]);
});

test("a fault in checking is said in the document", async () => {
  const client = inProcess();
  await client.initialize(PUSH);
  await client.open(URI, "Rnd 1: crash (6)");
  expect((await client.publishedAfter(0)).diagnostics).toMatchObject([{ code: "not-checked" }]);
});
