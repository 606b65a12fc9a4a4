import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, PULL } from "./client";

const URI = "file:///buoy.crochet";

async function opened(text: string, settings?: unknown): Promise<Client> {
  const client = inProcess(() => new Checker());
  await client.initialize(PULL, settings);
  await client.open(URI, text);
  return client;
}

function queries(client: Client): Promise<string[]> {
  return client.connection.sendRequest("loopledger/queries", { textDocument: { uri: URI } });
}

const WRONG = "Body\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)\nRnd 3: lotus x6";

describe("the queries of a pattern", () => {
  test("are a numbered list with piece, line and what would mend each; notes are not in it", async () => {
    expect(await queries(await opened(WRONG))).toEqual([
      '1. Body, line 3: Rnd 2 needs 5 stitches; Rnd 1 has 6: 1 left over. Did you mean x6? To mend it: Change "x5" to "x6".',
    ]);
  });

  test("are those the designer has not turned off or made notes", async () => {
    expect(await queries(await opened(WRONG, { rules: { "does-not-fit": "hint" } }))).toEqual([]);
    expect(await queries(await opened(WRONG, { rules: { "does-not-fit": "off" } }))).toEqual([]);
    expect(await queries(await opened(WRONG, { rules: { "not-understood": "warning" } }))).toHaveLength(2);
  });

  test("are none of a pattern that is not open", async () => {
    const client = await opened(WRONG);
    await client.close(URI);
    expect(await queries(client)).toEqual([]);
  });

  test("are all there where there are a thousand of them", async () => {
    const piece = (n: number) =>
      `Float ${Math.floor(n / 100)}-${n % 100}\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (13)\n`;
    const text = Array.from({ length: 1_000 }, (_, n) => piece(n)).join("\n");
    const client = await opened(text);
    const all = await queries(client);
    expect(all).toHaveLength(1_000);
    expect(all.at(-1)).toMatch(/^1000\. Float 9-99, line 3999: Rnd 2 makes 12 /);
    expect(await client.pullItems(URI)).toHaveLength(1_000);
  });
});

test("the page to read before publishing is made from what is shown", async () => {
  const ask = async (client: Client) =>
    client.connection.sendRequest("loopledger/publishingPage", { textDocument: { uri: URI } });
  expect(await ask(await opened(WRONG))).toContain("1 open query; 2 of 3 rows checked.");
  const quiet = await opened(WRONG, { rules: { "does-not-fit": "off" } });
  expect(await ask(quiet)).toContain("- does-not-fit: turned off in the settings");
  await quiet.close(URI);
  expect(await ask(quiet)).toBeNull();
});
