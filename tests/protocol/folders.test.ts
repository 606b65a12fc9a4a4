import { mkdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { describe, expect, onTestFinished, test } from "vitest";
import {
  CancellationTokenSource,
  type ClientCapabilities,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  DidChangeWorkspaceFoldersNotification,
  type FileChangeType,
  LSPErrorCodes,
  type PreviousResultId,
  type WorkspaceDiagnosticReport,
  WorkspaceDiagnosticRequest,
  WorkspaceFoldersRequest,
} from "vscode-languageserver-protocol/node";
import { addressKey } from "../../server/src/lsp/files/pattern-files";
import { Checker } from "../../server/src/workspace/checker";
import { bundle, bundleWorker, temporaryFolder } from "./bundles";
import { type Client, inProcess, overStdio, PULL, PULL_AND_SETTINGS, until } from "./client";
import { inWorker } from "./in-worker";

const RIGHT = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)";
const WRONG = RIGHT.replace("x6", "x5");
const [CREATED, CHANGED, DELETED] = [1, 2, 3] as const;

const WITH_FOLDERS: ClientCapabilities = {
  ...PULL,
  workspace: {
    ...PULL.workspace,
    workspaceFolders: true,
    didChangeWatchedFiles: { dynamicRegistration: true },
  },
};

/** A folder of files on disk, and a client that has it open. */
class Stall {
  readonly folder = temporaryFolder();
  /** The folders the client has open. */
  folders = [uriOf(this.folder)];

  constructor(readonly client: Client = inProcess(() => new Checker())) {
    client.connection.onRequest(WorkspaceFoldersRequest.type, () => this.workspaceFolders());
  }

  async start(capabilities: ClientCapabilities = WITH_FOLDERS): Promise<this> {
    await this.client.initialize(capabilities, undefined, this.workspaceFolders());
    return this;
  }

  uri(name: string): string {
    return uriOf(join(this.folder, name));
  }

  write(name: string, text: string | Uint8Array): this {
    const path = join(this.folder, name);
    mkdirSync(join(path, ".."), { recursive: true });
    writeFileSync(path, text);
    return this;
  }

  told(name: string, type: FileChangeType): Promise<void> {
    const changes = [{ uri: this.uri(name), type }];
    return this.client.connection.sendNotification(DidChangeWatchedFilesNotification.type, { changes });
  }

  pull(previousResultIds: PreviousResultId[] = []): Promise<WorkspaceDiagnosticReport> {
    return this.client.connection.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds });
  }

  workspaceFolders() {
    return this.folders.map((uri) => ({ uri, name: uri.split("/").at(-1) ?? "" }));
  }
}

function uriOf(path: string): string {
  return pathToFileURL(path).href;
}

/** The rules reported by file name. */
function found({ items }: WorkspaceDiagnosticReport): Record<string, unknown> {
  return Object.fromEntries(
    items.map((item) => [
      decodeURIComponent(item.uri).split("/").at(-1),
      item.kind === "full" ? item.items.map(({ code }) => code) : item.kind,
    ]),
  );
}

function ids({ items }: WorkspaceDiagnosticReport): PreviousResultId[] {
  return items.flatMap(({ uri, resultId }) => (resultId ? [{ uri, value: resultId }] : []));
}

describe("patterns of a folder that are not open", () => {
  test("are checked when the client asks, with those in folders below", async () => {
    const stall = await new Stall().start();
    stall.write("buoy.crochet", WRONG).write("deep/er/hat (2).crochet", RIGHT).write("notes.txt", WRONG);
    stall.write("node_modules/theirs.crochet", WRONG).write(".hidden/own.crochet", WRONG);
    expect(found(await stall.pull())).toEqual({ "buoy.crochet": ["does-not-fit"], "hat (2).crochet": [] });
  });

  test("are not answered for while they are open: the open text is what counts", async () => {
    const stall = await new Stall().start();
    stall.write("buoy.crochet", WRONG).write("cord.crochet", WRONG);
    await stall.client.open(stall.uri("buoy.crochet"), RIGHT);
    expect(found(await stall.pull())).toEqual({ "cord.crochet": ["does-not-fit"] });
    expect(await stall.client.pullItems(stall.uri("buoy.crochet"))).toEqual([]);
  });

  test("are known again by the file when they are closed", async () => {
    const stall = (await new Stall().start()).write("buoy.crochet", WRONG);
    await stall.client.open(stall.uri("buoy.crochet"), RIGHT);
    const answer = stall.pull();
    await stall.client.close(stall.uri("buoy.crochet"));
    expect(found(await answer)).toEqual({ "buoy.crochet": ["does-not-fit"] });
  });

  test("that cannot be read are said to be unchecked, with the reason", async () => {
    const stall = await new Stall().start();
    stall.write("binary.crochet", new Uint8Array([0, 1, 2])).write("buoy.crochet", WRONG);
    symlinkSync("nowhere", join(stall.folder, "lost.crochet"));
    const answer = await stall.pull();
    expect(found(answer)).toEqual({
      "binary.crochet": ["not-checked"],
      "buoy.crochet": ["does-not-fit"],
      "lost.crochet": ["not-checked"],
    });
    const binary = answer.items.find(({ uri }) => uri.includes("binary"));
    expect(binary).toMatchObject({ items: [{ message: expect.stringContaining("binary file") }] });
  });

  test("that are in an older encoding are said to be unchecked, with the line", async () => {
    const stall = await new Stall().start();
    stall.write("old.crochet", Buffer.from("Rnd 1: 6 sc (6)\nRnd 2: caf\u00e9", "latin1"));
    const { items } = await stall.pull();
    expect(items).toMatchObject([{ items: [{ message: expect.stringMatching(/Line 2 .*UTF-8/) }] }]);
  });

  test("that vanish or change while they are read are told as they are then, and stop nothing", async () => {
    const stall = await new Stall().start();
    const names = Array.from({ length: 60 }, (_, i) => `${i}.crochet`);
    for (const name of names) stall.write(name, WRONG);
    const answer = stall.pull();
    for (const [i, name] of names.entries()) {
      await new Promise(setImmediate);
      if (i % 3 === 0) rmSync(join(stall.folder, name));
      if (i % 3 === 1) stall.write(name, RIGHT);
    }
    const first = await answer;
    // Each of those that stay is there, whichever of its texts was read.
    const told = Object.values(found(first)).map(String);
    for (const one of told) expect(["", "does-not-fit", "not-checked"]).toContain(one);
    expect(told.length).toBeGreaterThanOrEqual(40);
    for (const [i, name] of names.entries())
      if (i % 3 < 2) await stall.told(name, i % 3 === 0 ? DELETED : CHANGED);
    const stay = names.flatMap((name, i) =>
      i % 3 === 0 ? [] : [[name, i % 3 === 1 ? [] : ["does-not-fit"]]],
    );
    expect(found(await stall.pull())).toEqual(Object.fromEntries(stay));
  });

  test("that stop the checker are said so, and the others are checked", async () => {
    const stall = new Stall(
      inProcess(() => ({
        work: (text: string) => {
          if (text.includes("crash")) throw new Error("invented fault");
          return new Checker().work(text);
        },
      })),
    );
    (await stall.start()).write("a.crochet", "Rnd 1: crash").write("b.crochet", WRONG);
    expect(found(await stall.pull())).toEqual({
      "a.crochet": ["not-checked"],
      "b.crochet": ["does-not-fit"],
    });
  });
});

describe("the next answer", () => {
  async function checkedOnce(): Promise<{ stall: Stall; known: PreviousResultId[] }> {
    const stall = await new Stall().start();
    stall.write("buoy.crochet", WRONG).write("hat.crochet", WRONG);
    return { stall, known: ids(await stall.pull()) };
  }

  test("waits until a file is written, and tells only of that", async () => {
    const { stall, known } = await checkedOnce();
    const answer = stall.pull(known);
    stall.write("hat.crochet", RIGHT);
    await stall.told("hat.crochet", CHANGED);
    expect(found(await answer)).toEqual({ "buoy.crochet": "unchanged", "hat.crochet": [] });
  });

  test("tells of a file that came, and clears one that is gone", async () => {
    const { stall, known } = await checkedOnce();
    const first = stall.pull(known);
    stall.write("cord.crochet", WRONG);
    await stall.told("cord.crochet", CREATED);
    const came = await first;
    expect(found(came)).toMatchObject({ "buoy.crochet": "unchanged", "cord.crochet": ["does-not-fit"] });
    const second = stall.pull(ids(came));
    rmSync(join(stall.folder, "buoy.crochet"));
    await stall.told("buoy.crochet", DELETED);
    expect(found(await second)).toMatchObject({ "buoy.crochet": [] });
  });

  test("comes after a change of settings", async () => {
    const stall = await new Stall().start({
      ...PULL_AND_SETTINGS,
      workspace: { ...PULL_AND_SETTINGS.workspace, workspaceFolders: true },
    });
    stall.write("buoy.crochet", WRONG);
    const answer = stall.pull(ids(await stall.pull()));
    stall.client.settings = { rules: { "does-not-fit": "off" } };
    await stall.client.connection.sendNotification(DidChangeConfigurationNotification.type, {
      settings: null,
    });
    expect(found(await answer)).toEqual({ "buoy.crochet": [] });
  });

  test("comes when a folder is added or taken away", async () => {
    const { stall, known } = await checkedOnce();
    const other = new Stall(stall.client).write("toy.crochet", WRONG);
    const told = (folders: string[]) => {
      stall.folders = folders;
      other.folders = folders;
      const event = { added: [], removed: [] };
      return stall.client.connection.sendNotification(DidChangeWorkspaceFoldersNotification.type, { event });
    };
    const first = stall.pull(known);
    await told([uriOf(stall.folder), uriOf(other.folder)]);
    const both = await first;
    expect(found(both)).toEqual({
      "buoy.crochet": "unchanged",
      "hat.crochet": "unchanged",
      "toy.crochet": ["does-not-fit"],
    });
    const second = stall.pull(ids(both));
    await told([uriOf(other.folder)]);
    expect(found(await second)).toEqual({
      "buoy.crochet": [],
      "hat.crochet": [],
      "toy.crochet": "unchanged",
    });
  });

  test("that waits ends when the client no longer wants it", async () => {
    const { stall, known } = await checkedOnce();
    const source = new CancellationTokenSource();
    const answer = stall.client.connection.sendRequest(
      WorkspaceDiagnosticRequest.type,
      { previousResultIds: known },
      source.token,
    );
    await stall.client.pullItems(stall.uri("buoy.crochet"));
    source.cancel();
    await expect(answer).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
  });
});

test("what is to be told of is asked for", async () => {
  const { client } = await new Stall().start();
  expect(await until(() => client.registered.find((method) => method.includes("atched")))).toBe(
    "workspace/didChangeWatchedFiles",
  );
});

test("one pattern open in two windows is checked in each by its own text", async () => {
  const server = await bundle("lsp/main-node.ts");
  const windows = ["first", "second"].map(() => {
    const running = overStdio(server, ["--stdio"]);
    onTestFinished(() => void running.server.kill());
    return new Stall(running.client);
  });
  const [first, second] = windows as [Stall, Stall];
  first.write("buoy.crochet", WRONG);
  second.folders = first.folders;
  await Promise.all([first.start(), second.start()]);
  const uri = first.uri("buoy.crochet");
  await Promise.all([first.client.open(uri, WRONG), second.client.open(uri, WRONG)]);
  await first.client.replace(uri, "x5", "x6");
  expect(await first.client.pullItems(uri)).toEqual([]);
  expect(await second.client.pullItems(uri)).toMatchObject([{ code: "does-not-fit" }]);
  // Saved in the first window: the file has changed, but not the text that is open in the second.
  first.write("buoy.crochet", RIGHT);
  await Promise.all([
    first.told("buoy.crochet", CHANGED),
    second.client.connection.sendNotification(DidChangeWatchedFilesNotification.type, {
      changes: [{ uri, type: CHANGED }],
    }),
  ]);
  expect(await second.client.pullItems(uri)).toMatchObject([{ code: "does-not-fit" }]);
  const answer = second.pull();
  await second.client.close(uri);
  expect(found(await answer)).toEqual({ "buoy.crochet": [] });
});

test.each([
  ["file:///home/stall/hat%20%282%29.crochet", "file:///home/stall/hat%20(2).crochet"],
  ["file:///c%3A/stall/hat.crochet", "file:///C:/stall/hat.crochet"],
  ["file:///stall/100%.crochet", "file:///stall/100%.crochet"],
])("%s and %s are one address", (one, other) => {
  expect(addressKey(one)).toBe(addressKey(other));
});

describe("a folder that only the client can read", () => {
  const CLIENT_READS: ClientCapabilities = { ...WITH_FOLDERS, experimental: { readsPatterns: true } };
  const folder = "memfs:/stall";

  /** A client that holds files by their names. */
  async function started(files: Map<string, string>, worker: boolean) {
    const { client, end } = worker
      ? inWorker(await bundleWorker())
      : { client: inProcess(() => new Checker()), end: () => undefined };
    onTestFinished(end);
    const at = (name: string) => `${folder}/${name}`;
    client.connection.onRequest("loopledger/listPatterns", () => [...files.keys()].map(at));
    client.connection.onRequest("loopledger/readPattern", ({ uri }: { uri: string }): object => {
      const text = files.get(uri.slice(at("").length));
      return text === undefined ? { reason: "It is gone." } : { text };
    });
    client.connection.onRequest(WorkspaceFoldersRequest.type, () => [{ uri: folder, name: "stall" }]);
    await client.initialize(CLIENT_READS, undefined, [{ uri: folder, name: "stall" }]);
    const pull = () =>
      client.connection.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    return { client, pull, at };
  }

  test.each([
    ["this process", false],
    ["a browser's worker", true],
  ])("is checked by a server in %s", async (_, worker) => {
    const files = new Map([
      ["right.crochet", RIGHT],
      ["wrong.crochet", WRONG],
    ]);
    const { client, pull, at } = await started(files, worker);
    const codes = async () =>
      (await pull()).items.map((one) => [
        one.uri.slice(at("").length),
        one.kind === "full" ? one.items.map(({ code }) => code) : one.kind,
      ]);
    expect(await codes()).toEqual([
      ["right.crochet", []],
      ["wrong.crochet", ["does-not-fit"]],
    ]);
    files.set("new.crochet", WRONG);
    const changes = [{ uri: at("new.crochet"), type: CREATED }];
    await client.connection.sendNotification(DidChangeWatchedFilesNotification.type, { changes });
    expect(await codes()).toContainEqual(["new.crochet", ["does-not-fit"]]);
  });
});
