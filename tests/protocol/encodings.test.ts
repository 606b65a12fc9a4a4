import { expect, test } from "vitest";
import {
  type ClientCapabilities,
  DidChangeTextDocumentNotification,
  HoverRequest,
  SemanticTokensRequest,
} from "vscode-languageserver-protocol/node";
import { Checker } from "../../server/src/workspace/checker";
import { inProcess, PULL } from "./client";

const URI = "file:///buoy.crochet";

// Before the row of interest on its line: two bytes each in UTF-8 (é), four for the buoy of two UTF-16 units.
const TEXT = "Bouée 🛟\nRnd 1: 6 sc in mr (6)\nRnd 2 (“bouée 🛟”): inc x5 (12)\n";

const wanting = (...positionEncodings: string[]): ClientCapabilities => ({
  ...PULL,
  general: { positionEncodings },
});

async function opened(capabilities: ClientCapabilities) {
  const client = inProcess(() => new Checker());
  const { capabilities: offered } = await client.initialize(capabilities);
  await client.open(URI, TEXT);
  return { client, encoding: offered.positionEncoding };
}

test.each([
  [[], "utf-16"],
  [["utf-16"], "utf-16"],
  [["utf-8", "utf-32", "utf-16"], "utf-8"],
  [["utf-32", "utf-16", "utf-8"], "utf-16"],
  [["utf-32"], "utf-16"],
])("of %j the first known one is taken: %s", async (wanted, taken) => {
  expect((await opened(wanting(...wanted))).encoding).toBe(taken);
});

/** What a column says of a line in an encoding, by Node's own counting. */
function before(line: string, column: number, encoding: "utf8" | "utf16le"): string {
  const bytes = Buffer.from(line, encoding);
  return bytes.subarray(0, encoding === "utf8" ? column : 2 * column).toString(encoding);
}

test.each([
  ["utf-8", "utf8"],
  ["utf-16", "utf16le"],
] as const)("findings are marked in %s, and edits heard", async (wanted, counted) => {
  const { client } = await opened(wanting(wanted));
  const [finding] = await client.pullItems(URI);
  const line = TEXT.split("\n")[2] ?? "";
  const { start, end } = finding?.range ?? {
    start: { line: 0, character: 0 },
    end: { line: 0, character: 0 },
  };
  expect(start.line).toBe(2);
  expect(before(line, start.character, counted)).toBe("Rnd 2 (“bouée 🛟”): ");
  expect(before(line, end.character, counted)).toBe("Rnd 2 (“bouée 🛟”): inc x5");

  // The multiplier is changed at the client's own column; then the é before it, which changes no number.
  const five = Buffer.from("Rnd 2 (“bouée 🛟”): inc x", counted).length / (counted === "utf8" ? 1 : 2);
  const accent = Buffer.from("Rnd 2 (“bou", counted).length / (counted === "utf8" ? 1 : 2);
  const width = counted === "utf8" ? 2 : 1;
  const at = (from: number, to: number, text: string) => ({
    range: { start: { line: 2, character: from }, end: { line: 2, character: to } },
    text,
  });
  await client.connection.sendNotification(DidChangeTextDocumentNotification.type, {
    textDocument: { uri: URI, version: 2 },
    contentChanges: [at(accent, accent + width, "e"), at(five - (width - 1), five - (width - 1) + 1, "6")],
  });
  expect(await client.pullItems(URI)).toEqual([]);
  const position = { line: 2, character: five - width };
  const hover = await client.connection.sendRequest(HoverRequest.type, {
    textDocument: { uri: URI },
    position,
  });
  expect(JSON.stringify(hover)).toContain("12 sts");
});

test("what words mean is coloured over as many bytes as they have", async () => {
  const { client } = await opened(wanting("utf-8"));
  const tokens = await client.connection.sendRequest(SemanticTokensRequest.type, {
    textDocument: { uri: URI },
  });
  const data = tokens?.data ?? [];
  const lines = TEXT.split("\n").map((line) => Buffer.from(line));
  let [line, column] = [0, 0];
  for (let i = 0; i < data.length; i += 5) {
    column = data[i] === 0 ? column + (data[i + 1] ?? 0) : (data[i + 1] ?? 0);
    line += data[i] ?? 0;
    const word = lines[line]?.subarray(column, column + (data[i + 2] ?? 0)).toString() ?? "";
    expect(word).toMatch(/^[\p{L}\p{N}“”()🛟 ]+$/u);
    expect(word).not.toContain("\ufffd");
  }
  expect(data.length).toBeGreaterThan(0);
});

test.each([["utf-16"], ["utf-8"]])(
  "a column beyond the end of its line is that end, in %s",
  async (encoding) => {
    const { client } = await opened(wanting(encoding));
    await client.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri: URI, version: 2 },
      contentChanges: [
        {
          range: { start: { line: 2, character: 0 }, end: { line: 2, character: 9999 } },
          text: "Rnd 2: inc x6 (12)",
        },
        {
          range: { start: { line: 3, character: 0 }, end: { line: 3, character: 0 } },
          text: "Rnd 3: 12 sc (11)\n",
        },
      ],
    });
    const [slip, ...others] = await client.pullItems(URI);
    expect(others).toEqual([]);
    expect(slip?.range.start.line).toBe(3);
  },
);
