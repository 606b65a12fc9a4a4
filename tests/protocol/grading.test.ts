import { expect, test } from "vitest";
import type { GradingReply } from "../../server/src/lsp/grading-requests";
import { Checker } from "../../server/src/workspace/checker";
import { inProcess, PULL } from "./client";

const URI = "file:///band.crochet";
const BAND = `Sizes: S (M, L)

Band
Ch 21 (25, 29).
Row 1: Sc in 2nd ch from hook and in each ch across. 20 (24, 28) sc.`;

async function asked<T>(method: string, more: object = {}): Promise<T> {
  const client = inProcess(() => new Checker());
  const annotated = { documentChanges: true, changeAnnotationSupport: {} };
  await client.initialize({ ...PULL, workspace: { workspaceEdit: annotated } });
  await client.open(URI, BAND);
  return client.connection.sendRequest(`loopledger/${method}`, { textDocument: { uri: URI }, ...more });
}

test("a grading sheet names its pattern, and is written back with a note for each list", async () => {
  const sheet = await asked<string>("gradingSheet");
  expect(sheet.startsWith(`<!-- Grading sheet of ${URI} -->`)).toBe(true);
  const changed = sheet.replace(/\| 29 +\|/, "| 33 |").replace(/\| 28 +\|/, "| 32 |");
  const reply = await asked<GradingReply>("applyGradingSheet", { sheet: changed });
  expect(reply).toMatchObject({ fits: true, says: "2 changes. Every row comes out.", notes: [] });
  expect(Object.keys(reply.edit?.changeAnnotations ?? {})).toEqual([
    "Line 4, Starting chain",
    "Line 5, Row 1: count",
    "Untick what is to stay as it is",
  ]);
});

test("a size is added, or it is said why not", async () => {
  expect(await asked<GradingReply>("addSize", { typed: "XL x1.2" })).toMatchObject({
    fits: true,
    says: "XL in 3 lists. Every row comes out.",
  });
  expect(await asked<GradingReply>("addSize", { typed: "L x1.2" })).toMatchObject({
    fits: false,
    says: "There is a size L already.",
    edit: null,
  });
});
