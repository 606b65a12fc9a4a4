import { expect, test } from "vitest";
import {
  type ClientCapabilities,
  InlineCompletionRequest,
  SignatureHelpRequest,
} from "vscode-languageserver-protocol/node";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, PULL } from "./client";

const URI = "file:///coaster.crochet";
const TEXT = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)\n";

const SHOWS_NEXT: ClientCapabilities = {
  textDocument: { ...PULL.textDocument, inlineCompletion: {}, signatureHelp: {} },
};

async function opened(text: string, capabilities = SHOWS_NEXT) {
  const client = inProcess(() => new Checker());
  const { capabilities: offered } = await client.initialize(capabilities);
  await client.open(URI, text);
  return { client, offered };
}

/** At the end of the text. */
function caret(text: string) {
  const lines = text.split("\n");
  const position = { line: lines.length - 1, character: lines.at(-1)?.length ?? 0 };
  return { textDocument: { uri: URI }, position };
}

function shownAfter(client: Client, text: string) {
  const params = { ...caret(text), context: { triggerKind: 2 as const } };
  return client.connection.sendRequest(InlineCompletionRequest.type, params);
}

test.each([
  ["", 0],
  ["Rnd", 0],
  ["Rnd 4: ", 0],
  ["Rnd 4: (2 sc", 7],
])("behind %j the next row is shown, in whole", async (typed, character) => {
  const text = TEXT + typed;
  const { client } = await opened(text);
  // Arithmetic: six more each round, spaced one stitch further apart.
  const whole = "Rnd 4: (2 sc, inc) x6 (24)";
  const begins = { line: 3, character: character === 0 && typed.startsWith("Rnd 4") ? 7 : character };
  expect(await shownAfter(client, text)).toEqual([
    {
      insertText: whole.slice(begins.character),
      range: { start: begins, end: { line: 3, character: typed.length } },
    },
  ]);
});

test("what goes another way than the rows before is left alone", async () => {
  const text = `${TEXT}Rnd 4: sc in each`;
  const { client } = await opened(text);
  expect(await shownAfter(client, text)).toEqual([]);
});

test("a client that shows nothing before it is asked is offered none", async () => {
  const { offered } = await opened(TEXT, PULL);
  expect(offered).not.toHaveProperty("inlineCompletionProvider");
});

test("a repeat is told of while it is written", async () => {
  const text = `${TEXT}Rnd 4: (2 sc, inc`;
  const { client } = await opened(text);
  const help = await client.connection.sendRequest(SignatureHelpRequest.type, caret(text));
  expect(help).toMatchObject({
    signatures: [{ label: "2 sc, inc", parameters: [{ label: [0, 4] }, { label: [6, 9] }] }],
    activeParameter: 1,
  });
  expect(JSON.stringify(help)).toContain("As a repeat it fits 6 times.");
});

test("outside every repeat nothing is told", async () => {
  const { client } = await opened(`${TEXT}Rnd 4: sc`);
  expect(
    await client.connection.sendRequest(SignatureHelpRequest.type, caret(`${TEXT}Rnd 4: sc`)),
  ).toBeNull();
});
