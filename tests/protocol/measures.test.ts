import { describe, expect, test } from "vitest";
import { InlayHintRefreshRequest, InlayHintRequest } from "vscode-languageserver-protocol/node";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, PULL } from "./client";

const uri = "file:///mat.crochet";
const mat = "Mat\n\nMaterials\nWorsted wool, 100 g\n5 mm hook\n\nRnd 1: 6 sc in mr\nRnd 2: inc x6 (12)\n";

async function opened(): Promise<Client> {
  const client = inProcess(() => new Checker());
  const { capabilities } = await client.initialize(PULL);
  expect(capabilities.inlayHintProvider).toBe(true);
  await client.open(uri, mat);
  return client;
}

describe("a client that asks for measures", () => {
  test("gets the count behind a row that states none, within the lines it shows", async () => {
    const client = await opened();
    const hintsIn = (from: number, to: number) =>
      client.connection.sendRequest(InlayHintRequest.type, {
        textDocument: { uri },
        range: { start: { line: from, character: 0 }, end: { line: to, character: 0 } },
      });
    expect(await hintsIn(0, 8)).toMatchObject([
      { label: "6 sts", position: { line: 6, character: 17 }, paddingLeft: true },
    ]);
    expect(await hintsIn(7, 8)).toEqual([]);
  });

  test("gets the page of materials; none for a pattern that is not open", async () => {
    const client = await opened();
    const page = (asked: string) =>
      client.connection.sendRequest<string | null>("loopledger/materials", { textDocument: { uri: asked } });
    expect(await page(uri)).toMatch(
      /^# Mat\n\nWorked out from the usual stitch of a 5 mm hook\.\n\n## Yarn\n/,
    );
    expect(await page("file:///closed.crochet")).toBeNull();
  });
});

test("a client that can is told to ask for hints again when settings change", async () => {
  const client = inProcess(() => new Checker());
  await client.initialize({ ...PULL, workspace: { ...PULL.workspace, inlayHint: { refreshSupport: true } } });
  await client.open(uri, mat);
  const asked = new Promise<void>((resolve) =>
    client.connection.onRequest(InlayHintRefreshRequest.type, () => resolve()),
  );
  await client.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
  await asked;
});
