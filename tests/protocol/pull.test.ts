import { describe, expect, test } from "vitest";
import {
  CancellationTokenSource,
  DiagnosticSeverity,
  DocumentDiagnosticRequest,
  LSPErrorCodes,
  TextDocumentSyncKind,
} from "vscode-languageserver-protocol/node";
import { inProcess, inProcessWithGate, PULL } from "./client";
import { countingChecker, fakeChecker } from "./fake-checker";

const URI = "file:///buoy.crochet";

describe("a client that asks for findings", () => {
  test("is told what the server can do", async () => {
    const { capabilities, serverInfo } = await inProcess().initialize(PULL);
    expect(capabilities.positionEncoding).toBe("utf-16");
    expect(capabilities.textDocumentSync).toMatchObject({
      openClose: true,
      change: TextDocumentSyncKind.Incremental,
    });
    expect(capabilities.diagnosticProvider).toMatchObject({
      interFileDependencies: false,
      workspaceDiagnostics: true,
    });
    expect(serverInfo).toEqual({ name: "Loopledger", version: "test" });
  });

  test("gets each finding with its place, rule, severity and related places", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: fine\r\nRnd 2: 🧶 misfit (12)");
    expect(await client.pullItems(URI)).toEqual([
      {
        range: { start: { line: 1, character: 10 }, end: { line: 1, character: 16 } },
        severity: DiagnosticSeverity.Error,
        code: "does-not-fit",
        source: "Loopledger",
        message: 'about "misfit"',
        relatedInformation: [
          {
            location: {
              uri: URI,
              range: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } },
            },
            message: "the first row",
          },
        ],
      },
    ]);
  });

  test("that shows no related places is sent none", async () => {
    const client = inProcess();
    await client.initialize({ textDocument: { diagnostic: {} } });
    await client.open(URI, "Rnd 1: misfit (12)");
    const [finding] = await client.pullItems(URI);
    expect(finding?.code).toBe("does-not-fit");
    expect(finding).not.toHaveProperty("relatedInformation");
  });

  test("sees findings follow its edits", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: fine (6)\nRnd 2: fine (12)\n");
    expect(await client.pullItems(URI)).toEqual([]);
    await client.replace(URI, "fine (12)", "misfit (12)");
    expect((await client.pullItems(URI)).map(({ range }) => range.start.line)).toEqual([1]);
    await client.replace(URI, "Rnd 1: fine (6)\n", "");
    expect((await client.pullItems(URI)).map(({ range }) => range.start.line)).toEqual([0]);
    await client.replace(URI, "misfit", "fine");
    expect(await client.pullItems(URI)).toEqual([]);
  });

  test("is told when nothing has changed", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: misfit (6)");
    const { resultId } = await client.pull(URI);
    expect(await client.pull(URI, resultId)).toEqual({ kind: "unchanged", resultId });
    await client.type(URI, "\n");
    const next = await client.pull(URI, resultId);
    expect(next.kind).toBe("full");
    expect(next.resultId).not.toBe(resultId);
  });

  test("is told that a clean pattern stayed clean over an edit", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: fine (6)");
    const { resultId } = await client.pull(URI);
    await client.type(URI, "\n");
    expect(await client.pull(URI, resultId)).toEqual({ kind: "unchanged", resultId });
  });

  test("is never told of no change by a result id of a document that was closed", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: misfit (6)");
    const { resultId } = await client.pull(URI);
    await client.close(URI);
    await client.open(URI, "Rnd 1: hm (6)");
    expect(await client.pull(URI, resultId)).toMatchObject({ kind: "full", items: [{ code: "ambiguous" }] });
  });

  test("gets an empty answer for a document that is not open", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    expect(await client.pullItems("file:///never-opened.crochet")).toEqual([]);
    await client.open(URI, "Rnd 1: misfit (6)");
    await client.close(URI);
    expect(await client.pullItems(URI)).toEqual([]);
  });

  test("causes one check with a burst of edits and requests", async () => {
    const checked: string[] = [];
    const { client, gate } = inProcessWithGate(countingChecker(checked));
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: ");
    await client.pull(URI);
    checked.length = 0;
    gate.close();
    const answers = [..."6 sc in mr, then misfit (6)"].map((letter) => {
      void client.type(URI, letter);
      return client.pull(URI);
    });
    await client.save(URI);
    gate.open();
    const last = (await Promise.all(answers)).at(-1);
    expect(last).toMatchObject({ kind: "full", items: [{ code: "does-not-fit" }] });
    expect(checked).toEqual(["Rnd 1: 6 sc in mr, then misfit (6)"]);
  });
});

describe("cancelling", () => {
  test("ends a request with the protocol's error, and the next one is answered", async () => {
    const checked: string[] = [];
    const client = inProcess(countingChecker(checked));
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: misfit (6)");
    const source = new CancellationTokenSource();
    const params = { textDocument: { uri: URI } };
    const cancelled = client.connection.sendRequest(DocumentDiagnosticRequest.type, params, source.token);
    source.cancel();
    await expect(cancelled).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
    expect(checked).toEqual([]);
    expect(await client.pullItems(URI)).toHaveLength(1);
  });
});

describe("a fault in checking", () => {
  test("is said in its document, logged, and touches no other document", async () => {
    const client = inProcess();
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: crash (6)");
    await client.open("file:///cord.crochet", "Rnd 1: misfit (6)");
    expect(await client.pullItems(URI)).toMatchObject([{ code: "not-checked", severity: 2 }]);
    expect(client.logged.join("\n")).toContain("invented fault");
    expect(await client.pullItems("file:///cord.crochet")).toMatchObject([{ code: "does-not-fit" }]);
    await client.replace(URI, "crash", "misfit");
    expect(await client.pullItems(URI)).toMatchObject([{ code: "does-not-fit" }]);
  });

  test("that only a long-used checker has is mended by a fresh one", async () => {
    let made = 0;
    const worksOnce = () => {
      made += 1;
      let isUsed = false;
      return {
        work(text: string) {
          if (isUsed) throw new Error("remembers something wrong");
          isUsed = true;
          return fakeChecker().work(text);
        },
      };
    };
    const client = inProcess(worksOnce);
    await client.initialize(PULL);
    await client.open(URI, "Rnd 1: misfit (6)");
    expect(await client.pullItems(URI)).toHaveLength(1);
    await client.type(URI, "\nRnd 2: misfit (6)");
    expect(await client.pullItems(URI)).toHaveLength(2);
    expect(made).toBe(2);
  });
});
