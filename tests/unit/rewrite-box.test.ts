import { expect, test, vi } from "vitest";
import type { TextEditor } from "vscode";
import { rewriteRow } from "../../client/src/rewrite-row";

/* The box that asks for a count. Common practice, no source. */

interface Box {
  readonly validateInput: (text: string) => Promise<{ readonly message: string } | undefined>;
}

const shown = vi.hoisted(() => ({ box: null as Box | null }));

vi.mock("vscode", () => ({
  InputBoxValidationSeverity: { Info: 1, Error: 3 },
  l10n: { t: (message: string) => message },
  window: {
    activeTextEditor: { document: {}, selection: { active: {} } } as TextEditor,
    showInputBox: async (box: Box) => {
      shown.box = box;
      return undefined;
    },
  },
}));

test("asks the server for what stands there when the typing pauses, not for each letter", async () => {
  const asked: (string | null)[] = [];
  const client = {
    code2ProtocolConverter: { asTextDocumentPositionParams: () => ({}) },
    sendRequest: async (_: string, { typed }: { typed: string | null }) => {
      asked.push(typed);
      return { row: "Rnd 4", now: "24", ways: "60", fits: true, says: `${typed} fits.`, edit: null };
    },
  };
  await rewriteRow(client as unknown as Parameters<typeof rewriteRow>[0]);
  const typed = ["1", "12", "120"].map((text) => shown.box?.validateInput(text));
  const told = (await Promise.all(typed)).map((one) => one?.message);
  expect(told).toEqual([undefined, undefined, "120 fits."]);
  expect(asked).toEqual([null, "120"]);
});
