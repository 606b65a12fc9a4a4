import { expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { inProcess, PULL } from "./client";

const uri = "file:///buoy.crochet";

test("the client gets the changes that turn a pattern, and what was left alone", async () => {
  const client = inProcess(() => new Checker());
  await client.initialize(PULL);
  await client.open(uri, "Terms: US\nRnd 1: 6 sc in mr (6)\nRnd 2: htr, sc 5 (6)");
  const ask = (to: string) =>
    client.connection.sendRequest("loopledger/turnTerms", { textDocument: { uri }, to });
  const at = (line: number, from: number, to: number) => ({
    start: { line, character: from },
    end: { line, character: to },
  });
  expect(await ask("UK")).toEqual({
    edits: [
      { range: at(0, 7, 9), newText: "UK" },
      { range: at(1, 9, 11), newText: "dc" },
      { range: at(2, 12, 14), newText: "dc" },
    ],
    left: ['"htr" (line 3): it is a UK name already'],
  });
  expect(await ask("US")).toEqual({ edits: null, left: [] });
  await client.close(uri);
  expect(await ask("UK")).toEqual({ edits: null, left: [] });
});

test("a pattern in another language is not turned, and the client gets the reason", async () => {
  const client = inProcess(() => new Checker());
  await client.initialize(PULL);
  await client.open(uri, "Language: German\nRd 1: 6 fM in einen Fadenring (6)");
  expect(
    await client.connection.sendRequest("loopledger/turnTerms", { textDocument: { uri }, to: "UK" }),
  ).toEqual({
    edits: null,
    left: [],
    reason: "The pattern is in German, which has names of its own: US and UK terms are for English patterns.",
  });
});
