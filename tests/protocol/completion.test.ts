import { describe, expect, test } from "vitest";
import {
  type ClientCapabilities,
  type CompletionItem,
  type CompletionList,
  CompletionRequest,
  CompletionResolveRequest,
} from "vscode-languageserver-protocol/node";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, PULL } from "./client";

const URI = "file:///coaster.crochet";
const TEXT = "Rnd 1: 6 sc in mr (6)\r\nRnd 2: inc x6 (12)\r\n";

const MARKDOWN: ClientCapabilities = {
  textDocument: {
    ...PULL.textDocument,
    completion: { completionItem: { documentationFormat: ["markdown"] } },
  },
};

async function opened(capabilities: ClientCapabilities = MARKDOWN, text = TEXT): Promise<Client> {
  const client = inProcess(() => new Checker());
  await client.initialize(capabilities);
  await client.open(URI, text);
  return client;
}

async function asked(
  client: Client,
  line: number,
  character: number,
  mark?: string,
): Promise<CompletionItem[]> {
  const list = (await client.connection.sendRequest(CompletionRequest.type, {
    textDocument: { uri: URI },
    position: { line, character },
    ...(mark ? { context: { triggerKind: 2, triggerCharacter: mark } } : {}),
  })) as CompletionList;
  return list.items;
}

describe("what could be written", () => {
  test("is offered, by itself behind a line end and an opening bracket, and told of when looked at", async () => {
    const { capabilities } = await inProcess().initialize(MARKDOWN);
    expect(capabilities.completionProvider).toEqual({
      triggerCharacters: ["\n", "(", "["],
      resolveProvider: true,
    });
  });

  test("is the next row, which may be put in as it is", async () => {
    const client = await opened();
    const [row, number] = await asked(client, 2, 0, "\n");
    const range = { start: { line: 2, character: 0 }, end: { line: 2, character: 0 } };
    expect(row).toMatchObject({
      label: "Rnd 3: (sc, inc) x6 (18)",
      textEdit: { range, newText: "Rnd 3: (sc, inc) x6 (18)" },
      preselect: true,
    });
    expect(number).toMatchObject({ label: "Rnd 3:", textEdit: { newText: "Rnd 3: " } });
    await client.type(URI, row?.textEdit?.newText ?? "");
    expect(await client.pullItems(URI)).toEqual([]);
  });

  test("is told of when it is looked at, in the form that the client shows", async () => {
    const client = await opened();
    const [row] = await asked(client, 2, 0);
    expect(row).not.toHaveProperty("documentation");
    const resolved = await client.connection.sendRequest(
      CompletionResolveRequest.type,
      row as CompletionItem,
    );
    expect(resolved.documentation).toMatchObject({ kind: "markdown" });
    expect(JSON.stringify(resolved.documentation)).toContain("Rnd 2 has 12 sts, this row makes 18");
    const plain = await opened(PULL);
    const [other] = await asked(plain, 2, 0);
    const told = await plain.connection.sendRequest(CompletionResolveRequest.type, other as CompletionItem);
    expect(told.documentation).toMatchObject({ kind: "plaintext" });
  });

  test("comes back as it is where the text has changed since, or is closed", async () => {
    const client = await opened();
    const [row] = await asked(client, 2, 0);
    await client.type(URI, "Rnd");
    expect(await client.connection.sendRequest(CompletionResolveRequest.type, row as CompletionItem)).toEqual(
      row,
    );
    await client.close(URI);
    expect(await client.connection.sendRequest(CompletionResolveRequest.type, row as CompletionItem)).toEqual(
      row,
    );
    expect(await asked(client, 2, 0)).toEqual([]);
  });

  test("is known to the client by what is typed of it", async () => {
    const client = await opened(MARKDOWN, "R1: 6 sc in MR [6]\nR2: inc x6 (");
    const [count] = await asked(client, 1, 12, "(");
    expect(count).toMatchObject({ label: "[12]", filterText: "([12]", textEdit: { newText: "[12]" } });
  });
});
