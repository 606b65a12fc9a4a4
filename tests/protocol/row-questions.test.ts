import { describe, expect, test } from "vitest";
import { CancellationTokenSource, HoverRequest, LSPErrorCodes } from "vscode-languageserver-protocol/node";
import type { ProofText } from "../../server/src/features/proof/proof-text";
import type { RowStatus } from "../../server/src/features/row-status";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, inProcessWithGate, PULL, PULL_AND_MARKDOWN } from "./client";

const URI = "file:///buoy.crochet";
const BUOY = "Buoy (make 2)\r\nRnd 1: 6 sc in mr (6)\r\nRnd 2: 🧶 inc x6 (12)\r\nStuff.";

async function opened(text: string, capabilities = PULL_AND_MARKDOWN): Promise<Client> {
  const client = inProcess(() => new Checker());
  await client.initialize(capabilities);
  await client.open(URI, text);
  return client;
}

describe("a client that points at something", () => {
  test("is told that it may", async () => {
    const { capabilities } = await inProcess().initialize(PULL);
    expect(capabilities).toMatchObject({ hoverProvider: true, codeLensProvider: {} });
  });

  test("gets Markdown for the stretch it stands on", async () => {
    const client = await opened(BUOY);
    expect(await client.hover(URI, "inc x6")).toEqual({
      contents: {
        kind: "markdown",
        value: [
          "**inc: increase**",
          "- One of it is worked over 1 st and makes 2.",
          "| In the whole row |  |\n|:--|:--|\n| uses sts: | 6 of 6 |\n| makes: | 12 sts |",
        ].join("\n\n"),
      },
      range: { start: { line: 2, character: 10 }, end: { line: 2, character: 13 } },
    });
  });

  test("gets plain text where it cannot show Markdown", async () => {
    const client = await opened(BUOY, PULL);
    expect(await client.hover(URI, "(12)")).toMatchObject({
      contents: {
        kind: "plaintext",
        value: "(12)\n\nthe line says: 12\nthe row makes: 12\n\n- Counted: every stitch.",
      },
    });
  });

  test("gets nothing where there is nothing, behind the end, and in a document that is not open", async () => {
    const client = await opened(BUOY);
    expect(await client.hover(URI, "Stuff")).toBeNull();
    const beyond = { textDocument: { uri: URI }, position: { line: 99, character: 99 } };
    expect(await client.connection.sendRequest(HoverRequest.type, beyond)).toBeNull();
    const never = { textDocument: { uri: "file:///never.crochet" }, position: { line: 0, character: 0 } };
    expect(await client.connection.sendRequest(HoverRequest.type, never)).toBeNull();
  });

  test("sees its edits", async () => {
    const client = await opened(BUOY);
    await client.replace(URI, "6 sc in mr (6)", "7 sc in mr (7)");
    expect(JSON.stringify(await client.hover(URI, "Rnd 1"))).toContain("7 sc");
  });

  test("gets nothing where checking fails, and the fault is logged", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: crash (6)");
    expect(await client.hover(URI, "Rnd 1")).toBeNull();
    expect(client.logged.join("\n")).toContain("invented fault");
  });
});

test("each piece has a lens at its heading", async () => {
  const client = await opened(BUOY);
  expect(await client.lenses(URI)).toEqual([
    {
      range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
      command: { title: "2 rounds, 18 sts, make 2: 36 sts", command: "" },
    },
  ]);
  expect(await client.lenses("file:///never.crochet")).toEqual([]);
});

describe("the row at the caret", () => {
  test("is told in short, with details", async () => {
    const client = await opened(BUOY);
    const status = await client.ofRow<RowStatus>("rowStatus", URI, "x6");
    expect(status?.text).toBe("Rnd 2: 12 sts");
    expect(status?.details).toContain("worked over sts of Rnd 1: 6 of 6");
    expect((await client.ofRow<RowStatus>("rowStatus", URI, "Stuff"))?.text).toBe("after Rnd 2: 12 sts");
    expect(await client.ofRow("rowStatus", URI, "Buoy")).toBeNull();
  });

  test("is told once for a burst of letters, for the last of them", async () => {
    const checked: string[] = [];
    const { client, gate } = inProcessWithGate(() => {
      const checker = new Checker();
      return {
        work(text: string) {
          checked.push(text);
          return checker.work(text);
        },
      };
    });
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: 6 sc in mr (6)\nRnd 2: ");
    gate.close();
    const answers = [..."inc x6"].map((letter) => {
      void client.type(URI, letter);
      return client.ofRow<RowStatus>("rowStatus", URI, "Rnd 2");
    });
    gate.open();
    expect((await Promise.all(answers)).map((status) => status?.text)).toEqual(
      Array(6).fill("Rnd 2: 12 sts"),
    );
    expect(checked).toEqual(["Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6"]);
  });

  test("is not told once the caret has moved on", async () => {
    const client = await opened(BUOY);
    const source = new CancellationTokenSource();
    const params = { textDocument: { uri: URI }, position: client.positionOf(URI, "x6") };
    const asked = client.connection.sendRequest("loopledger/rowStatus", params, source.token);
    source.cancel();
    await expect(asked).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
  });

  test("is proved as plain text", async () => {
    const client = await opened(BUOY);
    const proof = await client.ofRow<ProofText>("rowProof", URI, "x6");
    expect(proof).toMatchObject({ row: "Rnd 2", reason: null });
    expect(proof?.text).toContain("1. sts 1-6: 2 sc in each (12 made so far)");
    expect(await client.ofRow("rowProof", URI, "Buoy")).toBeNull();
  });
});
