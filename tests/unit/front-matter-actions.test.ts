import { describe, expect, test } from "vitest";
import { actionsAt, actionsOnRequest } from "../../server/src/features/actions/all-actions";
import { withEdits } from "../../server/src/text/span";
import { sceneOf } from "../mutants/promises";

/** All that is offered on the line marked with `|`, with what becomes of the text. */
function offered(marked: string): Map<string, string> {
  const text = marked.replace("|", "");
  const at = { start: marked.indexOf("|"), end: marked.indexOf("|") };
  const all = [...actionsAt(sceneOf(text), at), ...actionsOnRequest(sceneOf(text), at)];
  return new Map(all.map(({ title, edits }) => [title, withEdits(text, edits())]));
}

describe("the list of abbreviations", () => {
  const rows = "Rnd 1: 6 sc in mr (6)\nRnd 2: Hdc in each st around, join with sl st. (6)";

  test("is written where there is none, with those that are used and need explaining", () => {
    // Meanings: stitch4ever.com/2012/01/30/abbreviations-in-crochet-patterns; mr from memory.
    expect(offered(`|Buoy\n\nBody\n${rows}`).get("Write a list of the 4 abbreviations that are used")).toBe(
      `Buoy\n\nAbbreviations\nhdc - half double crochet\nmr - magic ring\nsc - single crochet\nsl st - slip stitch\n\nBody\n${rows}`,
    );
  });

  test("is in the terms of the pattern", () => {
    const uk = "Terms: UK\n\nBody\nRnd 1: 6 dc in mr (6)\nRnd 2: Htr in each st around (6)";
    expect([...offered(`|${uk}`).values()].join()).toContain(
      "dc - double crochet\nhtr - half treble crochet\nmr - magic ring",
    );
  });

  test("is brought up to date: what is missing goes in, what is idle comes out", () => {
    const list = (entries: string) => `Abbreviations\n${entries}\n\nBody\n${rows}`;
    const before = list("tr - treble crochet\nsc - single crochet\nmr - magic ring");
    expect(offered(`|${before}`).get("Bring what is listed up to date with the rows: 3 entries")).toBe(
      list("sc - single crochet\nmr - magic ring\nhdc - half double crochet\nsl st - slip stitch"),
    );
  });

  test("is not offered in the rows, nor where all is as it should be", () => {
    const list = "Abbreviations\nsc - single crochet\nmr - magic ring\n";
    expect(titlesOn(`${list}\nBody\n|Rnd 1: 6 sc in mr (6)`)).toEqual([]);
    expect(titlesOn(`|${list}\nBody\nRnd 1: 6 sc in mr (6)`)).toEqual([]);
  });
});

function titlesOn(marked: string): string[] {
  return [...offered(marked).keys()].filter((title) => /list/.test(title));
}

describe("the line that declares the terms", () => {
  const rows = "Ch 11.\nRow 1: Htr in 3rd ch from hook and in each ch across. (9)";

  test("is changed where every stitch denies it", () => {
    expect(
      offered(`Terms: US\n\n${rows.replace("Row", "|Row")}`).get("Say that the pattern is in UK terms"),
    ).toBe(`Terms: UK\n\n${rows}`);
  });

  test("is left where some stitches bear it out", () => {
    const both = `Terms: US\n\n${rows.replace("Row", "|Row")}\nRow 2: Ch 2, turn, hdc in each st across. (9)`;
    expect(offered(both).has("Say that the pattern is in UK terms")).toBe(false);
  });
});

describe("pieces and notions", () => {
  const body = "Body\nRnd 1: 6 sc in mr (6)\nRnd 2: sc around (6)\nFasten off.";
  const cord =
    "Cord (make 2)\nCh 11.\nRow 1: Sl st in 2nd ch from hook and in each ch across. (10 sl sts)\nFasten off.";

  test("the pieces are listed in the order of the text, with how many of each", () => {
    const text = `Pouch\n\nMaterials\nWool\n\n${body}\n\n${cord}`;
    const after = offered(`|${text}`).get("Write a list of the 2 pieces");
    expect(after).toBe(text.replace("\nBody", "\nPieces: Body, Cord (make 2)\n\nBody"));
  });

  test("the list of pieces is brought up to date", () => {
    const text = (list: string) => `Pouch\n\n${list}\n\n${body}\n\n${cord}`;
    const after = offered(`|${text("Pieces: Body, Cord (make 1)")}`).get(
      "Bring the list of pieces up to date",
    );
    expect(after).toBe(text("Pieces: Body, Cord (make 2)"));
    expect(
      [...offered(`|${text("Pieces: Body, Cord (make 2)")}`).keys()].filter((one) => /pieces/.test(one)),
    ).toEqual([]);
  });

  test("what the text asks for and no list has is added to the materials", () => {
    const text = `Materials\nWool: 50 g\n\n${body}\n\nAssembly\nStuff the body and sew the opening closed.`;
    const after = offered(`|${text}`).get("List what the text needs: stuffing, yarn needle");
    expect(after).toBe(text.replace("Wool: 50 g", "Wool: 50 g\nStuffing, yarn needle"));
    const listed = text.replace("Wool: 50 g", "Wool: 50 g, fibrefill, darning needle");
    expect([...offered(`|${listed}`).keys()].filter((one) => /needs/.test(one))).toEqual([]);
  });
});
