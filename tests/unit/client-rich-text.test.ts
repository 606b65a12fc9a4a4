import { expect, test, vi } from "vitest";
import { copyRichText } from "../../client/src/copy-rich-text";

/* What is told when the page for a word processor was to be copied. No published source. */

const editor = vi.hoisted(() => ({
  told: [] as string[],
  answered: (_: { copied: boolean }): void => undefined,
}));

vi.mock("vscode", () => ({
  InputBoxValidationSeverity: {},
  ViewColumn: {},
  env: { language: "en" },
  l10n: { t: (message: string) => message },
  window: {
    activeTextEditor: { document: { languageId: "crochet" } },
    showInformationMessage: (message: string) => editor.told.push(message),
    createWebviewPanel: () => ({
      webview: {
        onDidReceiveMessage: (listener: typeof editor.answered) => {
          editor.answered = listener;
        },
      },
    }),
  },
}));

test("nothing is said before the button is pressed; then whether it was copied, and what to do where not", async () => {
  await copyRichText({
    code2ProtocolConverter: { asTextDocumentIdentifier: () => ({}) },
    sendRequest: async () => "<p>Rnd 1: 6 sc in mr (6)</p>",
  } as never);
  expect(editor.told).toEqual([]);
  editor.answered({ copied: true });
  expect(editor.told.at(-1)).toMatch(/^The pattern is copied/);
  editor.answered({ copied: false });
  expect(editor.told.at(-1)).toMatch(/^Nothing was copied\. Select what the page shows, and copy it/);
});
