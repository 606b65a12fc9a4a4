import { describe, expect, test } from "vitest";
import type { RewriteReply } from "../../server/src/lsp/rewrite-requests";
import { Checker } from "../../server/src/workspace/checker";
import { inProcess, PULL } from "./client";

const URI = "file:///pouch.crochet";
const POUCH = `Pouch
Ch 49.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (48 sc)
Row 2: Ch 1, *sc in next 3 sts, ch 1, sk next st; rep from * across, turn. (36 sc, 12 ch-1 sps)
Stuff.`;

async function asked(line: number, typed?: string, text = POUCH): Promise<RewriteReply | null> {
  const client = inProcess(() => new Checker());
  await client.initialize({ ...PULL, workspace: { workspaceEdit: { documentChanges: true } } });
  await client.open(URI, text);
  const position = { line, character: 4 };
  return client.connection.sendRequest("loopledger/rewriteRow", {
    textDocument: { uri: URI },
    position,
    ...(typed === undefined ? {} : { typed }),
  });
}

describe("a count for the row at the caret", () => {
  test("is asked for with the one that it has", async () => {
    expect(await asked(2)).toEqual({
      row: "Row 1",
      now: "48",
      ways: "60, x1.5 or, at your gauge, 50 cm",
      fits: true,
      says: "",
      edit: null,
    });
  });

  test("that fits is told with the text, and the change brings the rows below with it", async () => {
    const reply = await asked(2, "60");
    expect(reply).toMatchObject({
      fits: true,
      says: "60 sts fit: Sc in 2nd ch from hook and in each ch across, turn. (60 sc) (1 line below changes too)",
    });
    expect(reply?.edit?.documentChanges).toMatchObject([
      { edits: [{ newText: "61" }, { newText: "60" }, { newText: "45" }, { newText: "15" }] },
    ]);
  });

  test("that a row below cannot be worked on is told with the row and the nearest that fit", async () => {
    expect(await asked(2, "54")).toMatchObject({
      fits: false,
      says: "Row 2 cannot follow: it is worked over a multiple of 4: 52 or 56, and there are 54. The nearest that fit: 52 and 56.",
      edit: null,
    });
  });

  test.each([
    ["", "Type a number of stitches."],
    ["many", '"many" is no number of stitches.'],
    ["4.5", "A number of stitches is whole."],
    ["0", "A row has one stitch or more."],
    ["-6", "A row has one stitch or more."],
    ["48 (54)", "Type one number: a row is rewritten for one count."],
    ["100001", "No row has more than 100000 stitches."],
  ])("%j is answered with what is wrong", async (typed, says) => {
    expect(await asked(2, typed)).toMatchObject({ fits: false, says, edit: null });
  });

  test("may be told as a share of what there is", async () => {
    expect((await asked(2, "x1.5"))?.says).toMatch(/^72 sts fit: /);
    expect((await asked(2, "50 %"))?.says).toMatch(/^24 sts fit: /);
  });

  test("may be told as a size at the gauge of the pattern", async () => {
    // A flat pouch of 3.5 in at 6 sts to the inch has 42 sts around, one of 5 in 60: arithmetic, no source.
    const sized = `Gauge: 24 sc and 28 rnds = 4 in\n\nPouch\nRnd 1: 42 sc in magic ring (42)\nRnd 2: sc in each st around (42)`;
    expect((await asked(3, "10 in", sized))?.says).toMatch(/^60 sts \(10 in\) fit: /);
    expect((await asked(3, "25.4 cm", sized))?.says).toMatch(/^60 sts \(25.4 cm\) fit: /);
    const without = await asked(2, "10 in");
    expect(without?.says).toBe(
      'A size needs the gauge. Enter puts in a line for it, "Gauge: __ sts and __ rows = 10 cm": fill in its numbers and ask again.',
    );
    expect(JSON.stringify(without?.edit)).toContain("Gauge: __ sts and __ rows = 10 cm");
  });

  test("is not asked for where there is no row", async () => {
    expect(await asked(4)).toMatchObject({
      row: null,
      fits: false,
      says: "There is no row at the caret. Put the caret on a row and try again.",
    });
  });
});
