import { beforeEach, expect, test, vi } from "vitest";
import { readFolders } from "../../client/src/folder-files";
import { followStyleFile, withStyleFile } from "../../client/src/style-file";

/* What the editor says where it cannot read a file, or all files. No published source. */

const editor = vi.hoisted(() => ({
  told: [] as string[],
  readFile: (): Uint8Array => new Uint8Array(),
  settingsOf: [] as unknown[],
  patterns: 0,
  saved: (_: { uri: unknown }): void => undefined,
}));

const FileSystemError = vi.hoisted(
  () =>
    class extends Error {
      constructor(readonly code: string) {
        super(`${code} (FileSystemError)`);
      }
    },
);

vi.mock("vscode", () => ({
  FileSystemError,
  InputBoxValidationSeverity: {},
  RelativePattern: class {},
  Uri: { parse: (path: string) => ({ path }), joinPath: (_: unknown, path: string) => ({ path }) },
  l10n: {
    t: (message: string, ...parts: unknown[]) => message.replace(/\{(\d)\}/g, (_, i) => `${parts[i]}`),
  },
  window: { showInformationMessage: (message: string) => editor.told.push(message) },
  workspace: {
    findFiles: async (_pattern: unknown, _without: unknown, atMost: number) =>
      Array.from({ length: Math.min(atMost, editor.patterns) }, (_, i) => ({ path: `/stall/${i}.crochet` })),
    fs: { readFile: async () => editor.readFile() },
    getWorkspaceFolder: () => ({ uri: { path: "/stall" } }),
    getConfiguration: (_: string, scope: unknown) => ({
      get: () => {
        editor.settingsOf.push(scope);
        return "house-style.json";
      },
    }),
    onDidSaveTextDocument: (listener: typeof editor.saved) => {
      editor.saved = listener;
    },
  },
}));

vi.mock("vscode-languageclient", () => ({
  DidChangeConfigurationNotification: { type: { method: "workspace/didChangeConfiguration" } },
}));

beforeEach(() => editor.told.splice(0));

/** What the server may ask. */
function server() {
  const answers = new Map<string, (params: object) => Promise<unknown>>();
  readFolders({
    code2ProtocolConverter: { asUri: ({ path }: { path: string }) => path },
    onRequest: (name: string, answer: never) => answers.set(name, answer),
  } as never);
  return async (name: string, params: object) => answers.get(name)?.(params);
}

const holding = (text: string) => () => new TextEncoder().encode(text);
const failing = (code: string) => () => {
  throw new FileSystemError(code);
};

/** Asks for the settings, as the server does, where rows are in a style of one's own. */
async function settings(): Promise<unknown> {
  const next = async () => [{ style: { rows: "own", file: "house-style.json" } }];
  return withStyleFile.configuration?.({ items: [{ scopeUri: "/stall/hat" }] }, null as never, next);
}

test("a style is read", async () => {
  editor.readFile = holding('{ "round": "Round" }');
  expect(await settings()).toMatchObject([{ style: { own: { round: "Round" } } }]);
  expect(editor.told).toEqual([]);
});

test.each([
  ['{ "round": "Round"', /A comma, quotation mark or bracket is missing or too many\. Mend it and save\.$/],
  [
    '{ "round": "Round", }',
    /A comma, quotation mark or bracket is missing or too many\. Mend it and save\.$/,
  ],
])("a style with a slip (%s) is told with what to do", async (text, said) => {
  editor.readFile = holding(text);
  await settings();
  expect(editor.told).toEqual([expect.stringMatching(said)]);
  expect(editor.told[0]).not.toMatch(/Error|token|JSON/);
});

test("a style that is not there is told with what to do", async () => {
  editor.readFile = failing("FileNotFound");
  await settings();
  expect(editor.told).toEqual([expect.stringMatching(/There is no file of this name\. Check the spelling/)]);
});

test("a folder of the workspace may name a style file of its own", () => {
  const sent: string[] = [];
  followStyleFile({ sendNotification: ({ method }: { method: string }) => sent.push(method) } as never);
  const uri = { path: "/stall/house-style.json" };
  editor.saved({ uri });
  expect(editor.settingsOf).toEqual([uri]);
  expect(sent).toEqual(["workspace/didChangeConfiguration"]);
});

test.each([
  ["one that is gone", failing("FileNotFound"), /There is no file of this name/],
  ["a locked one", failing("NoPermissions"), /You are not allowed to read it\. Change/],
  ["one that fails otherwise", failing("Unavailable"), /Open it to see/],
  ["one in an old encoding", () => new Uint8Array([0x66, 0xfc, 0x72]), /not saved as UTF-8\. Open it/],
])("a pattern that cannot be read is told with what to do: %s", async (_, readFile, said) => {
  editor.readFile = readFile;
  const ask = server();
  const answer = await ask("loopledger/readPattern", { uri: "/stall/hat" });
  expect(answer).toEqual({ reason: expect.stringMatching(said) });
  expect(JSON.stringify(answer)).not.toMatch(/Error/);
});

test("a folder with more patterns than are looked through is told of, once", async () => {
  const ask = server();
  editor.patterns = 5_000;
  expect(await ask("loopledger/listPatterns", { folder: "/stall" })).toHaveLength(5_000);
  expect(editor.told).toEqual([]);
  editor.patterns = 6_000;
  for (let i = 0; i < 2; i++)
    expect(await ask("loopledger/listPatterns", { folder: "/stall" })).toHaveLength(5_000);
  expect(editor.told).toEqual([
    expect.stringMatching(/^\/stall holds more than 5000 patterns, and only 5000 of them are checked\. Open/),
  ]);
});
