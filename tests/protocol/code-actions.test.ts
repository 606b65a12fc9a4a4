import { describe, expect, test } from "vitest";
import {
  type ClientCapabilities,
  type CodeAction,
  CodeActionRequest,
  CodeActionResolveRequest,
  LSPErrorCodes,
} from "vscode-languageserver-protocol/node";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, PULL } from "./client";

const URI = "file:///buoy.crochet";
const WRONG = "Rnd 1: 6 sc in mr (6)\r\nRnd 2: inc x5 (12)\r\nRnd 3: (sc, inc) x6 (18)";

const LAZY: ClientCapabilities = {
  textDocument: {
    ...PULL.textDocument,
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } },
      dataSupport: true,
      isPreferredSupport: true,
      resolveSupport: { properties: ["edit"] },
    },
  },
  workspace: { workspaceEdit: { documentChanges: true } },
};
const EAGER: ClientCapabilities = {
  textDocument: { codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } } } },
};

async function opened(capabilities: ClientCapabilities, text = WRONG): Promise<Client> {
  const client = inProcess(() => new Checker());
  await client.initialize(capabilities);
  await client.open(URI, text);
  return client;
}

function asked(client: Client, line: number, only?: string[]): Promise<CodeAction[]> {
  const at = { line, character: 3 };
  return client.connection.sendRequest(CodeActionRequest.type, {
    textDocument: { uri: URI },
    range: { start: at, end: at },
    context: { diagnostics: [], ...(only ? { only } : {}) },
  }) as Promise<CodeAction[]>;
}

function resolved(client: Client, action: CodeAction | undefined): Promise<CodeAction> {
  if (!action) throw new Error("There is no action to resolve.");
  return client.connection.sendRequest(CodeActionResolveRequest.type, action);
}

describe("changes that are offered", () => {
  test("are told of at the start, with their kinds", async () => {
    const client = inProcess();
    const { capabilities } = await client.initialize(LAZY);
    expect(capabilities.codeActionProvider).toEqual({
      codeActionKinds: ["quickfix", "refactor.rewrite", "source.fixAll.loopledger"],
      resolveProvider: true,
    });
  });

  test("are not for a client that cannot show them", async () => {
    const { capabilities } = await inProcess().initialize(PULL);
    expect(capabilities.codeActionProvider).toBeUndefined();
  });

  test("name what they mend, and come without edits until they are chosen", async () => {
    const client = await opened(LAZY);
    const [first] = await asked(client, 1);
    expect(first).toMatchObject({ title: 'Change "x5" to "x6"', kind: "quickfix", isPreferred: true });
    expect(first?.diagnostics).toEqual(await client.pullItems(URI));
    expect(first).not.toHaveProperty("edit");
    const range = { start: { line: 1, character: 12 }, end: { line: 1, character: 13 } };
    expect((await resolved(client, first)).edit).toEqual({
      documentChanges: [{ textDocument: { uri: URI, version: 1 }, edits: [{ range, newText: "6" }] }],
    });
  });

  test("come with their edits where the client does not ask again", async () => {
    const client = await opened(EAGER);
    const [first] = await asked(client, 1);
    expect(first?.edit?.changes?.[URI]).toMatchObject([{ newText: "6" }]);
    expect(first).not.toHaveProperty("data");
  });

  test("mend the text they were made for", async () => {
    const client = await opened(LAZY);
    const [first] = await asked(client, 1);
    await resolved(client, first);
    await client.replace(URI, "x5", "x6");
    expect(await client.pullItems(URI)).toEqual([]);
    expect(await asked(client, 1)).toEqual([]);
  });

  test.each([
    ["was edited", (client: Client) => client.type(URI, "\r\n")],
    ["was closed", (client: Client) => client.close(URI)],
  ])("are refused when the pattern %s meanwhile", async (_, happen) => {
    const client = await opened(LAZY);
    const [first] = await asked(client, 1);
    await happen(client);
    await expect(resolved(client, first)).rejects.toMatchObject({ code: LSPErrorCodes.ContentModified });
  });

  test.each([undefined, null, 7, {}, { uri: URI, version: 1, index: 99 }])(
    "that this server did not offer (%j) are refused",
    async (data) => {
      const client = await opened(LAZY);
      const action = { title: "Not ours", data } as CodeAction;
      await expect(resolved(client, action)).rejects.toMatchObject({ code: LSPErrorCodes.ContentModified });
    },
  );

  test("are none where nothing is found, outside the text and in a document that is not open", async () => {
    const client = await opened(LAZY);
    expect(await asked(client, 0)).toEqual([]);
    expect(await asked(client, 99)).toEqual([]);
    await client.close(URI);
    expect(await asked(client, 1)).toEqual([]);
  });

  test("are of the kinds that are asked for", async () => {
    const text = WRONG.replace("x5", "x6").replace("(12)", "(13)");
    const client = await opened(LAZY, text);
    const kinds = async (only?: string[]) => (await asked(client, 1, only)).map(({ kind }) => kind);
    expect(new Set(await kinds())).toEqual(new Set(["quickfix"]));
    expect(await kinds(["source"])).toEqual(["source.fixAll.loopledger"]);
    expect(await kinds(["source.fixAll"])).toEqual(["source.fixAll.loopledger"]);
    expect(await kinds(["source.fixAll.other"])).toEqual([]);
    expect(new Set(await kinds(["refactor"]))).toEqual(new Set(["refactor.rewrite"]));
    expect(await kinds(["quick"])).toEqual([]);
  });

  test("of rows that follow carry notes, so that each can be left out", async () => {
    const text = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)";
    const notes = { groupsOnLabel: false };
    const client = await opened(
      { ...LAZY, workspace: { workspaceEdit: { documentChanges: true, changeAnnotationSupport: notes } } },
      text,
    );
    const offers = await asked(client, 0, ["refactor"]);
    const offer = offers.find(
      ({ title }) => title === "Rewrite Rnd 1 for 7 sts and update the rounds that follow",
    );
    expect((await resolved(client, offer)).edit).toMatchObject({
      documentChanges: [
        {
          edits: [
            { newText: "7" },
            { newText: "7" },
            { newText: "7 (14", annotationId: "Rnd 2: spaced anew" },
            { newText: "7 (21", annotationId: "Rnd 3: spaced anew" },
            { newText: "", annotationId: "Untick what is to stay as it is" },
          ],
        },
      ],
      changeAnnotations: {
        "Rnd 2: spaced anew": { label: "Rnd 2: spaced anew", needsConfirmation: false },
        "Untick what is to stay as it is": { needsConfirmation: true },
      },
    });
  });

  test("at saving correct what can only be a slip", async () => {
    const client = await opened(LAZY, WRONG.replace("x5", "x6").replace("(12)", "(13)"));
    const [all] = await asked(client, 0, ["source.fixAll"]);
    expect((await resolved(client, all)).edit?.documentChanges).toMatchObject([
      { edits: [{ newText: "12" }] },
    ]);
  });

  test("are not for a rule that is turned off", async () => {
    const client = inProcess(() => new Checker());
    await client.initialize(LAZY, { rules: { "does-not-fit": "off" } });
    await client.open(URI, WRONG);
    expect(await asked(client, 1)).toEqual([]);
  });
});
