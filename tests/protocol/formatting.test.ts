import { expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { inProcess, PULL } from "./client";

const uri = "file:///buoy.crochet";
const options = { tabSize: 2, insertSpaces: true };

async function opened(settings?: unknown) {
  const client = inProcess(() => new Checker());
  const answer = await client.initialize(PULL, settings);
  await client.open(uri, "R1: 6 sc in mr [6]\nR2: inc x6 [12]");
  return { client, answer };
}

const at = (line: number, from: number, to: number) => ({
  start: { line, character: from },
  end: { line, character: to },
});

test("rows are brought into the style that is set, all or those of a range", async () => {
  const { client } = await opened({ style: { rows: "compact" } });
  const ask = (method: string, more: object) =>
    client.connection.sendRequest(method, { textDocument: { uri }, options, ...more });
  const second = { range: at(1, 1, 15), newText: "nd 2: inc x6 (12)" };
  expect(await ask("textDocument/formatting", {})).toEqual([
    { range: at(0, 1, 18), newText: "nd 1: 6 sc in mr (6)" },
    second,
  ]);
  expect(await ask("textDocument/rangeFormatting", { range: at(1, 0, 15) })).toEqual([second]);
});

test("nothing is changed where no style is set", async () => {
  const { client } = await opened();
  expect(
    await client.connection.sendRequest("textDocument/formatting", { textDocument: { uri }, options }),
  ).toEqual([]);
});

test("the row that Enter ends is brought into the style, and no other", async () => {
  const { client } = await opened({ style: { rows: "compact" } });
  const params = { textDocument: { uri }, options, position: { line: 1, character: 0 }, ch: "\n" };
  expect(await client.connection.sendRequest("textDocument/onTypeFormatting", params)).toEqual([
    { range: at(0, 1, 18), newText: "nd 1: 6 sc in mr (6)" },
  ]);
});

test("a style of one's own is taken from the settings, and what it cannot be is told", async () => {
  const { client } = await opened({ style: { rows: "own", own: { round: "Round", repeats: "stars" } } });
  const answer = await client.connection.sendRequest("textDocument/formatting", {
    textDocument: { uri },
    options,
  });
  expect(answer).toEqual([
    { range: at(0, 1, 18), newText: "ound 1: 6 sc in mr (6)" },
    { range: at(1, 1, 15), newText: "ound 2: inc x6 (12)" },
  ]);
});
