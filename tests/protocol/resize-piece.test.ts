import { expect, test } from "vitest";
import type { ResizeReply } from "../../server/src/lsp/resize-requests";
import { Checker } from "../../server/src/workspace/checker";
import { inProcess, PULL } from "./client";

const URI = "file:///float.crochet";
const FLOAT = `Float
Rnd 1: 5 sc in magic ring (5)
Rnd 2: inc x5 (10)
Rnd 3: 10 sc (10)
Rnd 4: dec x5 (5)
Stuff a little before closing.`;

async function asked(line: number, typed?: string): Promise<ResizeReply | null> {
  const client = inProcess(() => new Checker());
  const annotated = { documentChanges: true, changeAnnotationSupport: {} };
  await client.initialize({ ...PULL, workspace: { workspaceEdit: annotated } });
  await client.open(URI, FLOAT);
  return client.connection.sendRequest("loopledger/resizePiece", {
    textDocument: { uri: URI },
    position: { line, character: 2 },
    ...(typed === undefined ? {} : { typed }),
  });
}

test("a piece is asked for with the width that it has", async () => {
  expect(await asked(2)).toEqual({
    piece: "Float",
    now: "10",
    ways: "60, x1.5, start 8 or, at your gauge, 40 cm, 16 in across, 20 cm high",
    where: "at its widest",
    fits: true,
    says: "",
    notes: [],
    edit: null,
  });
});

test("a size that fits is told, with the change, each line of it noted, and what else is to be looked at", async () => {
  const reply = await asked(2, "15");
  expect(reply).toMatchObject({ fits: true, says: "15 sts fit: 7 rounds for 4. 4 lines change." });
  expect(reply?.notes).toContain("Stuffing: about 3.94 times as much.");
  expect(Object.keys(reply?.edit?.changeAnnotations ?? {})).toEqual([
    "New: 3",
    "Rnd 3: now 4-5, told anew",
    "New: 6",
    "Rnd 4: now 7",
    "Untick what is to stay as it is",
  ]);
});

test("a size that cannot be had changes nothing", async () => {
  expect(await asked(2, "0")).toMatchObject({
    fits: false,
    says: "A row has one stitch or more.",
    edit: null,
  });
});
