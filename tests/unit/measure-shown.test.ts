import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { hoverAt } from "../../server/src/features/hover/hover";
import { type HintChoice, inlayHints } from "../../server/src/features/inlay-hints";
import { pieceLenses } from "../../server/src/features/piece-lens";
import { toPlainText } from "../../server/src/features/shown/plain-text";
import { usualOptions } from "../../server/src/measure/materials";
import { Checker } from "../../server/src/workspace/checker";
import { marked } from "./marked-pattern";

const front =
  "Pouch\n\nMaterials\nWorsted wool, 100 g\n5 mm hook\n20 sc unravelled: 92 cm\n\nGauge: 16 sc and 18 rounds = 10 cm\n\n";
const rows = "Rnd 1: 6 sc in mr\nRnd 2: inc x6 (12)\nRnds 3-12: sc around\n";

function hintsOf(text: string, choice: Partial<HintChoice>): [string, string][] {
  const { worked } = new Checker().work(text);
  const all = { start: 0, end: text.length };
  const hints = inlayHints(worked, all, { count: false, yarn: false, time: false, ...choice }, usualOptions);
  return hints.map(({ offset, label }) => [text.slice(0, offset).split("\n").at(-1) ?? "", label]);
}

/** Screen readers come to a hover and not to a hint. */
test("whatever a hint says is in the hover of the row too, in all samples", () => {
  let hints = 0;
  for (const file of readdirSync("samples")) {
    const text = readFileSync(`samples/${file}`, "utf8").replace(/ [([]\d+[^)\]]*[)\]](?=\.?$)/gm, "");
    const { worked } = new Checker().work(text);
    const all = { start: 0, end: text.length };
    const rows = worked.pieces.flatMap((piece) => piece.rows.map(({ line }) => line));
    for (const { offset, label } of inlayHints(
      worked,
      all,
      { count: true, yarn: true, time: true },
      usualOptions,
    )) {
      const row = rows.find(({ span }) => span.end === offset);
      // Of a row without a head any word may tell.
      const from = row?.span.start ?? 0;
      const places = row?.head ? [from] : [...Array(offset - from).keys()].map((at) => from + at);
      const hovers = places.flatMap((at) => hoverAt(worked, at)?.blocks ?? []);
      const said = toPlainText(hovers);
      // Of many sizes a hint gives the first and the last, in brackets of their own.
      const words = label.match(/\d[\d.]*/g) ?? [];
      hints++;
      expect
        .soft(
          words.filter((word) => !said.includes(word)),
          `${file}: ${row?.headText}: ${label}\n${said}`,
        )
        .toEqual([]);
    }
  }
  expect(hints).toBeGreaterThan(100);
});

describe("hints behind rows", () => {
  test("the count, where the line does not state it", () => {
    expect(hintsOf(front + rows, { count: true })).toEqual([
      ["Rnd 1: 6 sc in mr", "6 sts"],
      ["Rnds 3-12: sc around", "12 sts"],
    ]);
  });

  test("yarn by the designer's own measure, without a range: 6 sc at 4.6 cm", () => {
    expect(hintsOf(front + rows, { yarn: true })[0]?.[1]).toBe("0.276 m");
  });

  test("yarn as a range where it is an estimate, and time", () => {
    const labels = hintsOf(front.replace(/20 sc.*\n/, "") + rows, { yarn: true, time: true });
    expect(labels[2]?.[1]).toMatch(/^[\d.]+–[\d.]+ m, 6 min$/);
  });

  test("nothing for rows that are not checked, and nothing at all where all is off", () => {
    expect(hintsOf("Rnd 1: 6 zigzags in mr", { count: true, yarn: true, time: true })).toEqual([]);
    expect(hintsOf(front + rows, {})).toEqual([]);
  });

  test("of four sizes the first and the last, and all of them where one looks", () => {
    const text = `${front}Sizes: S (M, L, XL)\nCh 11 (21, 31, 41).\nRow 1: sc in 2nd ch from hook and in each ch across`;
    const { worked } = new Checker().work(text);
    const hints = inlayHints(
      worked,
      { start: 0, end: text.length },
      { count: false, yarn: true, time: false },
      usualOptions,
    );
    const row = hints.at(-1);
    expect(row?.label).toBe("0.46 … 1.84 m");
    expect(row?.tooltip).toContain("0.46 (0.92, 1.38, 1.84) m");
  });

  test("one number a size", () => {
    const sizes = "Sizes: S (M)\nCh 11 (21).\nRow 1: sc in 2nd ch from hook and in each ch across";
    expect(hintsOf(sizes, { count: true })).toEqual([
      ["Row 1: sc in 2nd ch from hook and in each ch across", "10 (20) sts"],
    ]);
  });
});

describe("what a hover says of yarn and lie", () => {
  function hover(pattern: string): string {
    const { worked, offset } = marked(pattern);
    return toPlainText(hoverAt(worked, offset)?.blocks ?? []);
  }

  test("the yarn of the row, of the piece so far, and what it is worked out from", () => {
    const shown = hover(front + rows.replace("Rnd 1", "$0Rnd 1"));
    expect(shown).toContain("yarn: 0.276 m");
    expect(shown).toMatch(/yarn so far in Pouch: 0\.276 of [\d.]+ m/);
    expect(shown).toContain("Yarn by your own measure, 20 sc unravelled: 92 cm.");
  });

  test("whether a round lies flat, and with how many stitches it would", () => {
    expect(hover(front + rows.replace("Rnd 2", "$0Rnd 2"))).toContain("lies: flat");
    expect(hover(front + rows.replace("Rnds 3", "$0Rnds 3"))).toContain(
      "lies: cupped: 12 sts where 67 would lie flat",
    );
    const ruffle = `${front}Rnd 1: 6 sc in mr (6)\n$0Rnd 2: 4 sc in each st around (24)`;
    expect(hover(ruffle)).toContain("lies: ruffled: 24 sts where 11 would lie flat");
  });

  test("the heading of a piece: how it lies when it is done, its yarn and time", () => {
    const shown = hover(`${front}$0Leaf (make 2)\n${rows}`);
    expect(shown).toContain("measures: a cup about 2.5 cm (1 in) across");
    expect(shown).toMatch(/yarn: [\d.]+ m\ntime: about [\d½]+ minutes\n+Each of the 2 that are made\./);
  });

  test("how far a round lies, and each yarn of a row of several", () => {
    const shown = hover(
      `${front.replace("wool, 100 g", "wool: 50 g red (A), 50 g blue (B)")}${rows.replace(
        "Rnds 3-12: sc around",
        "$0Rnd 3: with A sc in next 6 sts, with B sc in next 6 sts (12)",
      )}`,
    );
    expect(shown).toContain(
      "measures: 7.5 cm (3 in) around, 4 cm (1½ in) laid flat; 1.5 cm (¾ in) from the middle",
    );
    expect(shown).toContain("red (A): 0.276 m\nblue (B): 0.276 m");
  });

  test("nothing of yarn where nothing tells it", () => {
    expect(hover(`$0${rows}`)).not.toContain("yarn");
  });
});

test("a piece's lens tells its yarn", () => {
  const { worked } = new Checker().work(`${front}Leaf (make 2)\n${rows}`);
  expect(pieceLenses(worked).map(({ title }) => title)).toEqual([
    expect.stringMatching(/^12 rounds, 138 sts, make 2: 276 sts, [\d.]+ m each$/),
  ]);
});
