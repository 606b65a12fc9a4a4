import { describe, expect, test } from "vitest";
import {
  addSizeAnswer,
  type GradingAnswer,
  gradingPage,
  sheetAnswer,
} from "../../server/src/features/grading/grading-sheet";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import { sceneOf } from "../mutants/promises";

/* Lists with a number for each size: as a sheet and back, and with one size more. Common practice, no source. */

const band = `Sizes: S (M, L)
To fit head: 48 (52, 56) cm

Gauge: 16 sc and 18 rows = 10 cm

Band
Ch 61 (65, 69).
Row 1: Sc in 2nd ch from hook and in each ch across. 60 (64, 68) sc.
Row 2: Ch 1, turn, [sc in next 3 sts, 2 sc in next st] 15 (16, 17) times. 75 (80, 85) sc.
Rows 3-8 (10, 12): Ch 1, turn, sc in each st. 75 (80, 85) sc.`;

const sheet = `| no. | line | what                   | S   | M   | L   |
| --- | ---- | ---------------------- | --- | --- | --- |
| 1   | 1    | Sizes                  | S   | M   | L   |
| 2   | 2    | To fit head            | 48  | 52  | 56  |
| 3   | 7    | Starting chain         | 61  | 65  | 69  |
| 4   | 8    | Row 1: count           | 60  | 64  | 68  |
| 5   | 9    | Row 2: times           | 15  | 16  | 17  |
| 6   | 9    | Row 2: count           | 75  | 80  | 85  |
| 7   | 10   | Rows 3-8: rows         | 8   | 10  | 12  |
| 8   | 10   | Rows 3-8: count        | 75  | 80  | 85  |`;

const page = (text: string): string => gradingPage(sceneOf(text).worked, "file:///band.crochet");
const loose = (table: string): string[] =>
  table.split("\n").map((line) => line.replace(/\s+/g, " ").replace(/-+/g, "-"));

function written(text: string, answer: GradingAnswer): string {
  expect(answer.fits, answer.says).toBe(true);
  return withEdits(text, answer.edits);
}

describe("a grading sheet", () => {
  test("has every list with one column a size", () => {
    const table = page(band)
      .split("\n")
      .filter((line) => line.startsWith("|"));
    expect(loose(table.join("\n"))).toEqual(loose(sheet));
  });

  test("written back as it is changes nothing, in all ways to write lists", () => {
    const forms = [band, band.replaceAll(/ \((\d+), (\d+)\)/g, "[$1:$2]"), band.replaceAll(", ", " , ")];
    for (const text of forms) {
      const answer = sheetAnswer(sceneOf(text), page(text));
      expect([answer.fits, answer.says]).toEqual([false, "The pattern has these numbers already."]);
    }
  });

  test("is edited back into the pattern, each list by itself", () => {
    const answer = sheetAnswer(sceneOf(band), page(band).replace(/\| 12 +\|/, "| 14 |"));
    expect(written(band, answer)).toBe(band.replace("8 (10, 12)", "8 (10, 14)"));
    expect(answer.edits.map(({ note }) => note?.label)).toEqual(["Line 10, Rows 3-8: rows"]);
    expect(answer.says).toBe("1 change. Every row comes out.");
  });

  test("with a column more adds a size, by the sign that each list has", () => {
    const more = ["XL", "60", "73", "72", "18", "90", "14", "90"];
    let i = 0;
    const wider = (text: string): string =>
      text.replace(
        /^(\| (?:no\.|\d+ ).*)$/gm,
        (line) => `${line} ${line.startsWith("| no.") ? "XL" : more[i++]} |`,
      );
    const done = written(band, sheetAnswer(sceneOf(band), wider(page(band))));
    expect(done).toContain("Sizes: S (M, L, XL)");
    expect(done).toContain("] 15 (16, 17, 18) times. 75 (80, 85, 90) sc.");
    expect(new Checker().check(done).findings).toEqual([]);
    const colons = band.replaceAll(/ \((\d+), (\d+)\)/g, "[$1:$2]");
    i = 0;
    const other = written(colons, sheetAnswer(sceneOf(colons), wider(page(colons))));
    expect(other).toContain("15[16:17:18] times. 75[80:85:90] sc.");
  });

  test("that does not fit the pattern changes nothing, and it is said why", () => {
    const says = (markdown: string) => sheetAnswer(sceneOf(band), markdown).says;
    expect(says("no table")).toBe(
      "Nothing is written back: this is no grading sheet: its table begins with the columns no., line and what.",
    );
    const full = page(band);
    expect(says(full.replace(/^\| 4 .*\n/m, ""))).toBe(
      "Nothing is written back: the sheet has 7 lists and the pattern 8: open the sheet again, and change only numbers in it.",
    );
    expect(says(full.replace(/\| 64 +\|/, "| many |"))).toBe(
      'Nothing is written back: Row 1: count, M: "many" is no number; a size that has none gets a dash.',
    );
    expect(says(full.replace("Row 2: times", "Row 3: times"))).toContain(
      'list 5 is "Row 2: times" in the pattern',
    );
    expect(says(full.replace(/^(\|.*\|)[^|]*\|$/gm, "$1"))).toContain("a column is missing");
  });

  test("is written back whatever stands before a colon, and with two sizes a third gets its comma", () => {
    const titled = band.replace("Sizes:", "Sizes :").replace("To fit head:", "To fit head\u00a0:");
    expect(sheetAnswer(sceneOf(titled), page(titled)).says).toBe("The pattern has these numbers already.");
    const two = band.replaceAll(/ \((\d+|M), (\d+|L)\)/g, " ($2)");
    const more = ["XL", "60", "73", "72", "18", "90", "14", "90"];
    const wider = page(two).replace(
      /^\| (no\.|\d+) .*$/gm,
      (line, n) => `${line} ${n === "no." ? "XL" : more[Number(n) - 1]} |`,
    );
    const done = written(two, sheetAnswer(sceneOf(two), wider));
    for (const list of ["Sizes: S (L, XL)", "48 (56, 60) cm", "Ch 61 (69, 73)", "15 (17, 18) times"])
      expect(done).toContain(list);
  });

  test("of one size says what is missing", () => {
    const answer =
      'This pattern has one size. Write a line such as "Sizes: S (M, L)" and a number for each in the rows.';
    expect(page("Rnd 1: 6 sc in mr (6)")).toBe(`${answer}\n`);
    expect(addSizeAnswer(sceneOf("Rnd 1: 6 sc in mr (6)"), "XL x1.1").says).toBe(answer);
  });
});

describe("one size more", () => {
  test("goes on where the lists go together, so that every row comes out", () => {
    const answer = addSizeAnswer(sceneOf(band), "XL x1.06");
    expect(answer.says).toBe("XL in 8 lists. Every row comes out.");
    const done = written(band, answer);
    for (const list of [
      "S (M, L, XL)",
      "48 (52, 56, 60) cm",
      "61 (65, 69, 73)",
      "15 (16, 17, 18) times",
      "8 (10, 12, 14):",
    ])
      expect(done).toContain(list);
    expect(new Checker().check(done).findings).toEqual([]);
  });

  test("may be told by what it measures at the gauge", () => {
    // 16 stitches to 10 cm: 60 cm are 96, and the counts of the widest rows go by 5.
    expect(written(band, addSizeAnswer(sceneOf(band), "2XL 60 cm"))).toContain("75 (80, 85, 95) sc.");
    expect(addSizeAnswer(sceneOf(band.replace(/Gauge.*\n/, "")), "2XL 60 cm").says).toBe(
      'A size needs the gauge. Add a line to the pattern, such as "Gauge: 18 sc and 20 rows = 10 cm".',
    );
  });

  test("that does not come out in some row is told with the queries", async () => {
    const { readFileSync } = await import("node:fs");
    const hat = readFileSync(new URL("../../samples/stall-hat.crochet", import.meta.url), "utf8");
    const answer = addSizeAnswer(sceneOf(hat), "2XL x1.1");
    expect(answer.fits).toBe(true);
    expect(answer.says).toMatch(/^2XL in 21 lists\. \d quer(?:y|ies) to look at then\.$/);
    // The crown of a wider hat needs one round more, "Size XL only" is not for it.
    expect(answer.notes.join(" ")).toContain("Rnd 11");
  });

  test.each([
    ["", "Type a name and by how much it is wider than the last size: 2XL x1.1, or 2XL 62 cm."],
    ["2XL", "Type a name and by how much it is wider than the last size: 2XL x1.1, or 2XL 62 cm."],
    ["L x1.1", "There is a size L already."],
    ["X, Y x1.1", '"X, Y" is no name for a size: leave out brackets and commas.'],
    ["XL x0", "A new size is between half and three times as wide as the last one."],
    ["XL x99", "A new size is between half and three times as wide as the last one."],
  ])("%j is answered with what is wrong", (typed, says) => {
    expect(addSizeAnswer(sceneOf(band), typed)).toMatchObject({ fits: false, says, edits: [] });
  });

  test("is not made up where no count rises with the sizes, nor where a list would come to nothing", () => {
    const level = band
      .replaceAll("60 (64, 68) sc", "60 (60, 60) sc")
      .replaceAll("75 (80, 85) sc", "75 (75, 75) sc");
    for (const typed of ["XL x1.1", "XL 60 cm"])
      expect(addSizeAnswer(sceneOf(level), typed)).toMatchObject({
        fits: false,
        says: "No count of the pattern rises with its sizes.",
        edits: [],
      });
    const falling = (list: string) => addSizeAnswer(sceneOf(`${band}\nSew on ${list} buttons.`), "XL x1.06");
    expect(falling("5 (4, 3)").says).toMatch(/^XL in 9 lists/);
    for (const [list, n] of [
      ["3 (2, 1)", 0],
      ["5 (3, 1)", -1],
    ] as const)
      expect(falling(list)).toMatchObject({
        fits: false,
        says: `Line 11, Sew on: ${n} in the new size. Add the size as a column of the grading sheet, with numbers of your own.`,
        edits: [],
      });
    expect(falling("0 (0, 0)").fits).toBe(true);
    const shorter = band.replace("Rows 3-8 (10, 12)", "Rows 3-8 (6, 4)");
    expect(addSizeAnswer(sceneOf(shorter), "XL x1.06").says).toMatch(
      /^Line 10, Rows 3-8: rows: 2 in the new size\./,
    );
  });

  test("may be narrower than the last one: then its lists go back", () => {
    for (const typed of ["ML x0.94", "ML x0.99"])
      expect(written(band, addSizeAnswer(sceneOf(band), typed))).toContain(
        "16, 17, 16) times. 75 (80, 85, 80) sc.",
      );
  });
});
