import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

// Trade practice: "Row numbers run on; repeated rows exist" is a line of the usual technical editor's checklist.

const start = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\n";

describe("row-skipped", () => {
  const skipped = `${start}Rnd 4: (sc, inc) x6 (18)\nRnds 5-7: sc in each st around (18)\nRnd 8: Rep Rnd 7. (18)\nEmbroider the eyes between Rnds 5 and 6.\n`;

  test("says which row is missing and where the number is", () => {
    const { on, message, severity, related } = onlyFinding("row-skipped", skipped);
    expect(on).toBe("Rnd 4");
    expect(severity).toBe("warning");
    expect(message).toBe(
      "Rnd 4 comes after Rnd 2: there is no row 3. If a row was lost, write it in; if not, renumber from here.",
    );
    expect(related.map((one) => one.message)).toEqual(["Rnd 2 is the one before it."]);
  });

  test("its fix renumbers the rows behind it and every mention of them", () => {
    const after = mended("row-skipped", skipped);
    expect(after).toBe(
      `${start}Rnd 3: (sc, inc) x6 (18)\nRnds 4-6: sc in each st around (18)\nRnd 7: Rep Rnd 6. (18)\nEmbroider the eyes between Rnds 4 and 5.\n`,
    );
    expectClean(after);
  });

  test("mentions of rows above it, and of other numbers, stay", () => {
    const text = `${start}Rnd 4: sc in each st around (12)\nRnd 5: Rep Rnd 2. (24)\nRnds 6-7: Rep Rnd 4, stuff with 5 g of filling. (24)\n`;
    expect(mended("row-skipped", text)).toBe(
      `${start}Rnd 3: sc in each st around (12)\nRnd 4: Rep Rnd 2. (24)\nRnds 5-6: Rep Rnd 3, stuff with 5 g of filling. (24)\n`,
    );
  });

  test("a number that stands alone among right ones is changed alone", () => {
    const text = `${start}Rnd 5: (sc, inc) x6 (18)\nRnd 4: sc in each st around (18)\n`;
    expect(onlyFinding("row-skipped", text).message).toBe(
      "Rnd 5 comes after Rnd 2, where row 3 is due. Did you mean 3?",
    );
    expect(mended("row-skipped", text)).toBe(
      `${start}Rnd 3: (sc, inc) x6 (18)\nRnd 4: sc in each st around (18)\n`,
    );
  });

  test("the numbers of a piece that runs on over a heading are changed too", () => {
    const text = `Base\n${start}Rnd 4: (sc, inc) x6 (18)\nSides\nRnd 5: sc in each st around (18)\n`;
    expect(mended("row-skipped", text)).toBe(
      `Base\n${start}Rnd 3: (sc, inc) x6 (18)\nSides\nRnd 4: sc in each st around (18)\n`,
    );
  });

  test("prose by the way hides no gap", () => {
    expect(
      foundBy("row-skipped", `${start}Change to red.\nStart stuffing.\nRnd 4: (sc, inc) x6 (18)`),
    ).toHaveLength(1);
  });

  test.each([
    [
      "behind a range",
      `${start}Rnds 3-4: sc in each st around (12)\nRnd 5: sc in each st around (12)\nRnd 7: dec x6 (6)`,
    ],
    ["before a range", `${start}Rnds 4-5: sc in each st around (12)`],
    ["over a sentence that works nothing", `${start}Finish stuffing.\nRnd 4: (sc, inc) x6 (18)`],
    ["where the yarn changes", `${start}Fasten off A, join B.\nRnd 4: (sc, inc) x6 (18)`],
    [
      "under a new heading that the work goes on below",
      `Base\n${start}\nSides\nRnd 4: sc in each st around (12)`,
    ],
  ])("a gap is found %s", (_, text) => {
    expect(foundBy("row-skipped", text)).toHaveLength(1);
  });

  test("under a new heading the number may come twice", () => {
    const text = `Base\n${start}\nSides\nRnd 2: sc in each st around (12)\nRnd 3: dec x6 (6)\n`;
    expect(onlyFinding("row-doubled", text).on).toBe("Rnd 2");
  });

  test.each([
    ["a new piece begins at 1 again", `Head\n${start}Ear\n${start}`],
    ["a piece that runs on over a heading", `Base\n${start}Sides\nRnds 3-5: sc in each st around (12)\n`],
    ["a range", `${start}Rnds 3-6: sc in each st around (12)\nRnd 7: sc in each st around (12)\n`],
    ["two rows in one", `${start}Rnds 3 & 4: sc in each st around (12)\nRnd 5: sc in each st around (12)\n`],
    ["two numbers", `${start}Rnds 3 and 5: sc in each st around (12)\nRnd 6: sc in each st around (12)\n`],
    [
      "rows that are repeated for a while",
      `${start}Rep Rnd 2 until you have 8 rounds.\nRnd 9: sc in each st around\n`,
    ],
    [
      "rows that are copied to a number",
      `${start}Rnd 3: Rep Rnd 2 to Rnd 6. (24)\nRnd 7: sc in each st around\n`,
    ],
    [
      "rows without a number",
      `${start}Next 2 rnds: sc in each st around (12)\nRnd 5: sc in each st around (12)\n`,
    ],
    [
      "all even rows",
      "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across, turn (10)\nRow 2 and all even rows: ch 1, sc in each st across, turn (10)\nRow 3: ch 1, sc in each st across, turn (10)\nRow 5: ch 1, sc in each st across, turn (10)\n",
    ],
    [
      "a note on the rows that are not written out",
      "Notes\nAll WS rows: ch 1, sc in each st, turn.\n\nCh 11.\nRow 1: sc in 2nd ch from hook and in each ch across, turn (10)\nRow 3: ch 1, sc in each st across, turn (10)\n",
    ],
    [
      "only every other row written out",
      "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across (10)\nRow 3: ch 1, sc in each st across (10)\nRow 5: ch 1, sc in each st across (10)\n",
    ],
    ["prose that works rows", `${start}Work 4 rounds even.\nRnd 7: sc in each st around (12)\n`],
    [
      "the end of a range is one a size",
      "Sizes: S (M, L)\n\nRnd 1: 6 (7, 8) sc in mr. 6 (7, 8) sc\nRnds 2-5 (6, 7): sc in each st around. 6 (7, 8) sc\nRnd 8: sc in each st around. 6 (7, 8) sc\n",
    ],
    [
      "each size has rows of its own before a heading",
      "Size: S (L)\nToe\nRnd 1: 6 (8) sc in mr. 6 (8) sts\nRnds 2-5 (6): Sc around. 6 (8) sts\nHeel\nRow 6 (7): Sc in next 3 (4) sts, turn, leaving rem sts unworked. 3 (4) sts\n",
    ],
    [
      "a numbered line in another language",
      "1. Runde: 7 sc in mr (7)\n2. Runde: jede M verd = 14 Maschen\n3. Runde: sc in each st around (14)\n",
    ],
    [
      "rows of one size only",
      "Sizes: S (M)\n\nRnd 1: 6 (7) sc in mr. 6 (7) sc\nSize M only:\nRnd 2: sc in each st around. 7 sc\nAll sizes:\nRnd 4: sc in each st around. 6 (7) sc\n",
    ],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("row-skipped", text)).toEqual([]);
  });
});

describe("a row that repeats one row is one row", () => {
  const repeating = (what: string): string =>
    `${start}Rnd 3: sc in each st around (12)\nRnd 4: ${what} (12)\nRnd 6: sc in each st around (12)\n`;

  test("the number behind it is due", () => {
    expect(onlyFinding("row-skipped", repeating("Repeat Rnd 3.")).on).toBe("Rnd 6");
  });

  test.each(["Repeat Rnd 3 twice.", "Repeat Rnds 2 and 3.", "Repeat Rnd 3 until it is as wide as a hand."])(
    "not so: %s",
    (what) => {
      expect(foundBy("row-skipped", repeating(what))).toEqual([]);
    },
  );
});

describe("a range against how often it repeats others", () => {
  const lace = (last: string): string =>
    `${start}Rnd 3: sc in each st around (12)\nRnd 4: sc in each st around (12)\n${last}\n`;

  test.each([
    ["Rnds 5-10: Rep Rnds 3-4 four more times. (12)", "four", "three more"],
    ["Rnds 5-8: Repeat Rnds 3 and 4, 3 times. (12)", "3", "4, 2 times"],
    ["Rnds 5-8: Rep Rnd 4 (3 times). (12)", "3", "(4 times"],
    ["Rnds 5-8: Rep Rnd 4. (9 rnds in total)", "9", "(4 rnds in total"],
  ])("%s", (row, on, right) => {
    expect(onlyFinding("wrong-number-of-rows", lace(row)).on).toBe(on);
    expect(mended("wrong-number-of-rows", lace(row))).toContain(right);
    expectClean(mended("wrong-number-of-rows", lace(row)));
  });

  test.each([
    "Rnds 5-10: Rep Rnds 3-4 three more times. (12)",
    "Rnds 5-10: Rep Rnds 3-4. (12)",
    "Rnds 5-8: Rep Rnd 4. (4 rnds in total)",
    "Rnds 5-8: Rep Rnd 4. (8 rnds in total)",
    "Rnds 5-8: Rep Rnds 3-4 twice. (12)",
    "Rnds 5-9: Rep Rnds 3-4 twice, then Rnd 3 once more. (12)",
    "Rnds 5-8: Rep Rnds 3-4 for a total of 3 times in all. (12)",
  ])("is silent: %s", (row) => expect(foundBy("wrong-number-of-rows", lace(row))).toEqual([]));

  test("a remark before the count", () => {
    const text = `${start}Rnds 3-7: sc in each st around (6 rounds) [12]\n`;
    expect(onlyFinding("wrong-number-of-rows", text).on).toBe("6");
  });
});

describe("wrong-number-of-rows", () => {
  const ranged = (row: string): string => `${start}${row}\n`;

  test.each([
    [
      "Rnds 3-7: sc in each st around (12) (6 rnds)",
      "6",
      "Rnds 3-7 are 5 rounds, and the line says 6. Which is meant?",
    ],
    [
      "Rnds 3-10. sc in each st around (12) - 9 rnds",
      "9",
      "Rnds 3-10 are 8 rounds, and the line says 9. Which is meant?",
    ],
  ])("%s", (row, on, message) => {
    const found = onlyFinding("wrong-number-of-rows", ranged(row));
    expect([found.on, found.message]).toEqual([on, message]);
    expectClean(mended("wrong-number-of-rows", ranged(row)));
  });

  test.each([
    "Rnds 3-7: sc in each st around (12) (5 rnds)",
    "Rnds 3-7: sc in each st around (12) - 5 rounds",
    "Rnds 3 and 7: sc in each st around (12) (2 rnds)",
    "Rnd 3: sc in each st around (12) (repeat for 5 rnds)",
  ])("is silent on %s", (row) => {
    expect(foundBy("wrong-number-of-rows", ranged(row))).toEqual([]);
  });
});

describe("row-doubled", () => {
  const doubled = `${start}Rnd 2: (sc, inc) x6 (18)\nRnd 3: sc in each st around (18)\nRnd 4: Rep Rnd 3. (18)\n`;

  test("says which number is due and where it was used", () => {
    const { on, message, related, severity } = onlyFinding("row-doubled", doubled);
    expect(on).toBe("Rnd 2");
    expect(severity).toBe("warning");
    expect(message).toBe("Rnd 2 comes after Rnd 2: the number 2 is there already. Did you mean 3?");
    expect(related.map((one) => one.message)).toEqual(["The number 2 is used here."]);
  });

  test("its fix renumbers the rows behind it and every mention of them", () => {
    const after = mended("row-doubled", doubled);
    expect(after).toBe(
      `${start}Rnd 3: (sc, inc) x6 (18)\nRnd 4: sc in each st around (18)\nRnd 5: Rep Rnd 4. (18)\n`,
    );
    expectClean(after);
  });

  test("a row that begins where a range ends", () => {
    const text = `${start}Rnds 3-5: sc in each st around (12)\nRnd 5: (sc, inc) x6 (18)\nRnd 6: sc in each st around (18)\n`;
    expect(onlyFinding("row-doubled", text).message).toBe(
      "Rnd 5 comes after Rnds 3-5: the number 5 is there already. Did you mean 6?",
    );
    expectClean(mended("row-doubled", text));
  });

  test("where only one number is off, only that one is changed", () => {
    const text = `${start}Rnd 2: (sc, inc) x6 (18)\nRnd 4: sc in each st around (18)\n`;
    expect(mended("row-doubled", text)).toBe(
      `${start}Rnd 3: (sc, inc) x6 (18)\nRnd 4: sc in each st around (18)\n`,
    );
  });

  test.each([
    ["a second thing that begins anew", `${start}Fasten off.\n${start}`],
    ["a second thing under the same heading, on a ring of its own", `Ears\n${start}${start}`],
    [
      "rows in turn",
      "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across (10)\nRow 2: ch 1, turn, sc in each st (10)\nRows 3 & 5: ch 1, turn, dc in each st (10)\nRows 4 & 6: ch 1, turn, sc in each st (10)\nRow 7: ch 1, turn, sc in each st (10)\n",
    ],
    [
      "the second side of a neck",
      "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across (10)\nRow 2: ch 1, turn, sc in next 4 sts, leave remaining 6 sts unworked (4)\nRejoin the yarn for the other side.\nRow 2: sc in next 4 sts (4)\n",
    ],
    [
      "rows that are told for each size",
      "Sizes: S (M)\n\nRnd 1: 6 (7) sc in mr. 6 (7) sc\nSize S only:\nRnd 2: sc in each st around. 6 sc\nSize M only:\nRnd 2: sc in each st around. 7 sc\n",
    ],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("row-doubled", text)).toEqual([]);
  });
});

describe("row-skipped, for the first row of a piece", () => {
  test.each([
    ["each", "Rnd 2: 2 sc in each st around (12)"],
    ["a number", "Rnd 2: inc x6 (12)"],
  ])("a piece that begins with its row 2: %s", (_, second) => {
    const text = `Body\n${second}\nRnd 3: (sc, inc) x6 (18)\n`;
    expect(onlyFinding("row-skipped", text).message).toBe(
      "Rnd 2 is the first row here, and nothing tells what it is worked on. Was row 1 left out?",
    );
  });

  test.each([
    ["words stand before it", "Body\nBegin with a small ring as you like.\nRnd 2: inc x6 (12)\n"],
    ["it goes on from the piece before", "Rnd 1: 6 sc in mr (6)\n\nBody\nRnd 2: inc x6 (12)\n"],
    ["it has a ring of its own", "Body\nRnd 2: 6 sc in mr (6)\n"],
    [
      "it stands for rows of another piece",
      `Left strap\n${start}Fasten off.\n\nRight strap\nRnds 2-5: Work as Left strap.\n`,
    ],
    ["it stands for a row that is not there", "Body\nRnd 2: Rep Rnd 7.\nRnd 3: inc x6 (12)\n"],
    ["it is told for another reason", "Body\nRnd 2: Work as Left strap.\n"],
    ["it is several rows", "Body\nRnds 2-5: sc in each st around (12)\n"],
  ])("silent where %s", (_, text) => {
    expect(foundBy("row-skipped", text)).toEqual([]);
  });
});

test("no-such-row: a first row may repeat one of the piece above, a later one only what stands there", () => {
  const cuff =
    "Cuff\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: sc in each st around (12)\nFasten off.\n";
  const sleeve = (third: string) =>
    `${cuff}Sleeve\nRnd 1: Rep Rnd 3. (12)\nRnd 2: sc in each st around (12)\nRnd 3: ${third}`;
  expect(foundBy("no-such-row", sleeve("Rep Rnd 2. (12)"))).toEqual([]);
  expect(foundBy("no-such-row", sleeve("Rep Rnd 9. (12)"))).toHaveLength(1);
});

test("row-skipped: a first row that was lost is told where it stands after an edit above", () => {
  const kept = new Checker();
  const whereIn = (text: string) => {
    const found = kept.check(text).findings.find(({ rule }) => rule === "row-skipped");
    return found && text.slice(found.span.start, found.span.end);
  };
  const body = "Body\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)\n";
  expect(whereIn(`A buoy.\n\n${body}`)).toBe("Rnd 2");
  expect(whereIn(`A small buoy.\n\n${body}`)).toBe("Rnd 2");
});
