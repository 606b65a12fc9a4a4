import { expect, test } from "vitest";
import {
  type SemanticTokensDelta,
  SemanticTokensDeltaRequest,
  SemanticTokensRangeRequest,
  SemanticTokensRequest,
} from "vscode-languageserver-protocol/node";
import { tokenTypes } from "../../server/src/features/semantic-tokens";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, PULL } from "./client";

const URI = "file:///cup.crochet";
const TEXT =
  "Wave: 5 dc in one st.\n\nCup\nRnd 1: fsc 12, join (12)\nRnd 2: *sk 2 sts, wave in next st, sk 2 sts, sc in next st; rep from * around. (2 waves, 2 sc)";
const document = { textDocument: { uri: URI } };

async function opened(): Promise<Client> {
  const client = inProcess(() => new Checker());
  await client.initialize(PULL);
  await client.open(URI, TEXT);
  return client;
}

/** `function sc`, from the protocol's five numbers a token. */
function shown(data: readonly number[], text: string): string[] {
  const lines = text.split("\n");
  let [line, from] = [0, 0];
  const tokens: string[] = [];
  for (let i = 0; i < data.length; i += 5) {
    const [down = 0, right = 0, length = 0, type = 0] = data.slice(i, i + 4);
    from = down > 0 ? right : from + right;
    line += down;
    tokens.push(`${tokenTypes[type]} ${lines[line]?.slice(from, from + length)}`);
  }
  return tokens;
}

test("words are coloured by what they mean: own stitches are told from those of the trade", async () => {
  const { connection } = await opened();
  const all = await connection.sendRequest(SemanticTokensRequest.type, document);
  const tokens = shown(all?.data ?? [], TEXT);
  expect(tokens).toEqual(
    expect.arrayContaining([
      "class Cup",
      "type Rnd 2",
      "macro wave",
      "function sc",
      "number 2",
      "keyword rep",
    ]),
  );
  const range = { start: { line: 3, character: 0 }, end: { line: 3, character: 5 } };
  const stretch = await connection.sendRequest(SemanticTokensRangeRequest.type, { ...document, range });
  const inRange = shown(stretch?.data ?? [], TEXT);
  expect(inRange).toContain("function fsc");
  expect(inRange).not.toContain("macro wave");
});

test("after an edit only what has changed is told, and comes to the same as all anew", async () => {
  const client = await opened();
  const { connection } = client;
  const before = await connection.sendRequest(SemanticTokensRequest.type, document);
  await client.replace(URI, "fsc 12, join (12)", "fsc 24, turn, ch 1 (24)");
  const previousResultId = before?.resultId ?? "";
  const delta = (await connection.sendRequest(SemanticTokensDeltaRequest.type, {
    ...document,
    previousResultId,
  })) as SemanticTokensDelta;
  const data = [...(before?.data ?? [])];
  for (const { start, deleteCount, data: put = [] } of [...delta.edits].reverse())
    data.splice(start, deleteCount, ...put);
  const anew = await connection.sendRequest(SemanticTokensRequest.type, document);
  expect(delta.edits.length).toBeGreaterThan(0);
  expect(data).toEqual(anew?.data);
});

test("a row is read in words", async () => {
  const { connection } = await opened();
  const at = (line: number) => ({ ...document, position: { line, character: 2 } });
  expect(await connection.sendRequest("loopledger/rowInWords", at(4))).toMatchObject({ row: "Round 2" });
  expect(await connection.sendRequest("loopledger/rowInWords", at(0))).toBeNull();
});
