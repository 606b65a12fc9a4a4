import { beforeAll, expect, onTestFinished, test } from "vitest";
import {
  type ClientCapabilities,
  DefinitionRequest,
  DocumentColorRequest,
  DocumentHighlightRequest,
  DocumentLinkRequest,
  DocumentSymbolRequest,
  FoldingRangeRequest,
  LSPErrorCodes,
  PrepareRenameRequest,
  type Range,
  ReferencesRequest,
  RenameRequest,
  SelectionRangeRequest,
  WorkspaceSymbolRequest,
} from "vscode-languageserver-protocol/node";
import { bundle } from "./bundles";
import { type Client, overStdio, PULL } from "./client";

const URI = "file:///pouch.crochet";
const TEXT = [
  "Materials",
  "Cotton: 20 g navy (A), 10 g red (B)",
  "",
  "Special stitches",
  "Wave: 5 dc in one st.",
  "",
  "Body",
  "With A:",
  "Rnd 1: fsc 12, join (12)",
  "Rnd 2: *sk 2 sts, wave in next st, sk 2 sts, sc in next st; rep from * around. (2 waves, 2 sc)",
  "Fasten off.",
].join("\r\n");
const CAPABILITIES: ClientCapabilities = {
  textDocument: { ...PULL.textDocument, rename: { prepareSupport: true } },
};

let script: string;
beforeAll(async () => {
  script = await bundle("lsp/main-node.ts");
});

async function opened(): Promise<Client> {
  const { client, server } = overStdio(script, ["--stdio"]);
  onTestFinished(() => {
    server.kill();
  });
  await client.initialize(CAPABILITIES);
  await client.open(URI, TEXT);
  return client;
}

function at(client: Client, part: string) {
  return { textDocument: { uri: URI }, position: client.positionOf(URI, part) };
}

function textIn({ start, end }: Range): string {
  expect(start.line).toBe(end.line);
  return (TEXT.split("\r\n")[start.line] ?? "").slice(start.character, end.character);
}

test("over stdio a stitch is found where it is explained and where it is used, and gets another name", async () => {
  const client = await opened();
  const { connection } = client;
  const used = at(client, "wave in next");
  const defined = await connection.sendRequest(DefinitionRequest.type, used);
  expect(defined).toEqual([
    { uri: URI, range: { start: { line: 4, character: 0 }, end: { line: 4, character: 4 } } },
  ]);
  const context = { includeDeclaration: true };
  const found = await connection.sendRequest(ReferencesRequest.type, { ...used, context });
  expect(found?.map(({ range }) => textIn(range))).toEqual(["Wave", "wave", "wave"]);
  const marks = await connection.sendRequest(DocumentHighlightRequest.type, used);
  expect(marks?.map(({ kind }) => kind)).toEqual([3, 2, 2]);
  expect(await connection.sendRequest(PrepareRenameRequest.type, used)).toMatchObject({
    placeholder: "wave",
  });
  const edit = await connection.sendRequest(RenameRequest.type, { ...used, newName: "ripple" });
  const edits = edit?.changes?.[URI] ?? [];
  expect(edits.map(({ newText }) => newText)).toEqual(["Ripple", "ripple", "ripple"]);
  for (const { range, newText } of [...edits].reverse()) {
    expect(textIn(range).toLowerCase()).toBe("wave");
    expect(newText.toLowerCase()).toBe("ripple");
  }
});

test("over stdio a name that the trade uses is refused, with the reason", async () => {
  const client = await opened();
  const { connection } = client;
  const asked = connection.sendRequest(RenameRequest.type, { ...at(client, "wave in"), newName: "popcorn" });
  await expect(asked).rejects.toMatchObject({
    code: LSPErrorCodes.RequestFailed,
    message: expect.stringContaining('The trade uses "popcorn" already'),
  });
  const nothing = connection.sendRequest(PrepareRenameRequest.type, at(client, "Fasten off"));
  await expect(nothing).rejects.toMatchObject({ code: LSPErrorCodes.RequestFailed });
});

test("over stdio a pattern has an outline, folds, selections that grow, and colours", async () => {
  const client = await opened();
  const { connection } = client;
  const document = { textDocument: { uri: URI } };
  const symbols = await connection.sendRequest(DocumentSymbolRequest.type, document);
  const body = symbols?.find(({ name }) => name === "Body");
  expect(body).toMatchObject({ children: [{ name: "Rnd 1", detail: "12 sts" }, { name: "Rnd 2" }] });
  const parts = await connection.sendRequest(WorkspaceSymbolRequest.type, { query: "wav" });
  expect(parts?.map(({ name }) => name)).toEqual(["Wave"]);
  expect(await connection.sendRequest(FoldingRangeRequest.type, document)).toContainEqual({
    startLine: 6,
    endLine: 10,
  });
  const positions = [client.positionOf(URI, "next st, sk")];
  const [grown] =
    (await connection.sendRequest(SelectionRangeRequest.type, { ...document, positions })) ?? [];
  expect(textIn(grown?.range as Range)).toBe("next");
  expect(textIn(grown?.parent?.range as Range)).toContain("wave in next st");
  const colours = await connection.sendRequest(DocumentColorRequest.type, document);
  expect(colours?.map(({ range }) => textIn(range))).toEqual(["navy", "red", "A"]);
  expect(colours?.[1]?.color).toEqual({ red: 1, green: 0, blue: 0, alpha: 1 });
});

test("the numbers that name rows are links to them, in rows and in prose", async () => {
  const { client, server } = overStdio(script, ["--stdio"]);
  onTestFinished(() => {
    server.kill();
  });
  await client.initialize(CAPABILITIES);
  const rows = ["Rnd 1: fsc 12, join (12)", "Rnd 2: sc around (12)", "Rnd 3: Rep Rnd 2. (12)"];
  await client.open(URI, ["Body", ...rows, "Sew the wave on between Rnds 1 and 3."].join("\n"));
  const links = await client.connection.sendRequest(DocumentLinkRequest.type, { textDocument: { uri: URI } });
  expect(links?.map(({ range, target }) => [range.start.line, range.start.character, target])).toEqual([
    [3, "Rnd 3: Rep Rnd ".length, `${URI}#L3`],
    [4, "Sew the wave on between Rnds ".length, `${URI}#L2`],
    [4, "Sew the wave on between Rnds 1 and ".length, `${URI}#L4`],
  ]);
});
