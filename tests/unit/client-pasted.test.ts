import { beforeEach, expect, test, vi } from "vitest";
import { noticePastedTerms } from "../../client/src/pasted-terms";

/* What the editor offers after a paste. No published source. */

const pasted = "Row 2: 2 ch, turn, htr in each st across. (12)\n";

const editor = vi.hoisted(() => ({
  document: { languageId: "crochet", version: 5, getText: () => "", positionAt: () => ({}), uri: {} },
  told: [] as string[],
  changed: async (_: object): Promise<void> => undefined,
  pressed: (): void => undefined,
}));

vi.mock("vscode", () => ({
  InputBoxValidationSeverity: {},
  Range: class {},
  WorkspaceEdit: class {
    set() {}
  },
  l10n: { t: (message: string) => message },
  window: {
    get activeTextEditor() {
      return { document: editor.document };
    },
    showTextDocument: async () => ({ document: editor.document }),
    showInformationMessage: async (message: string, button?: string) => {
      editor.told.push(message);
      if (button) editor.pressed();
      return button;
    },
  },
  workspace: {
    applyEdit: async () => true,
    onDidChangeTextDocument: (listener: typeof editor.changed) => {
      editor.changed = listener;
    },
  },
}));

beforeEach(() => {
  editor.told.splice(0);
  editor.pressed = () => undefined;
});

/** Pastes rows in UK terms; `meanwhile` is called while the server is asked about them. */
async function paste(meanwhile: () => void): Promise<string[]> {
  const asked: string[] = [];
  noticePastedTerms({
    code2ProtocolConverter: { asTextDocumentIdentifier: () => ({}), asRange: () => ({}) },
    protocol2CodeConverter: { asTextEdits: async () => [] },
    sendRequest: async (name: string) => {
      asked.push(name);
      if (name === "loopledger/turnTerms") return { edits: [{}], left: [] };
      meanwhile();
      return { pattern: "US", pasted: "UK" };
    },
  } as never);
  const change = { range: { start: {} }, rangeOffset: 20, text: pasted };
  await editor.changed({ document: editor.document, contentChanges: [change] });
  return asked;
}

test("what was pasted is turned where it is offered and taken", async () => {
  expect(await paste(() => undefined)).toContain("loopledger/turnTerms");
  expect(editor.told.at(-1)).toMatch(/^Turned into/);
});

const typedOn = () => {
  editor.document.version++;
};

test.each([
  ["the server was asked", () => paste(typedOn)],
  [
    "the offer stood",
    () => {
      editor.pressed = typedOn;
      return paste(() => undefined);
    },
  ],
])("a pattern that was changed while %s is not turned, and that is told", async (_, pasting) => {
  expect(await pasting()).not.toContain("loopledger/turnTerms");
  expect(editor.told.at(-1)).toMatch(/changed meanwhile, so nothing was turned\. Select what you pasted/);
});
