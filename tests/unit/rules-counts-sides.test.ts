import { describe, expect, test } from "vitest";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

// "Count present" is a line of the usual technical editor's checklist; counts are what makers most ask for.
describe("count-missing: the first row under a heading", () => {
  const hat = (count: string): string =>
    `Body\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)\n\nBrim\nRnd 4: (2 sc, inc) x6${count}\nRnd 5: sc in each st around (24)\n`;

  test("its change of the count is told", () => {
    expect(onlyFinding("count-missing", hat("")).on).toContain("Rnd 4");
    expect(mended("count-missing", hat(""))).toBe(hat(" (24)"));
    expect(foundBy("count-missing", hat(" (24)"))).toEqual([]);
  });
});

describe("count-missing", () => {
  const round = (count: string, stop = ""): string =>
    [
      `Rnd 1: 6 sc in mr${stop}${count.replace("18", "6")}`,
      `Rnd 2: inc x6${stop}${count.replace("18", "12")}`,
      `Rnd 3: (sc, inc) x6${stop}${count}`,
      `Rnd 4: (2 sc, inc) x6${stop}`,
      `Rnd 5: (3 sc, inc) x6${stop}${count.replace("18", "30")}`,
    ].join("\n");

  test("says what the row makes, and of what", () => {
    const { message, severity, on } = onlyFinding("count-missing", round(" (18)"));
    expect(on).toBe("Rnd 4: (2 sc, inc) x6");
    expect(severity).toBe("information");
    expect(message).toBe(
      "Rnd 4 makes 24 of the 18 of Rnd 3, and no count says so. Add it: makers check themselves where the number changes.",
    );
  });

  test.each([[" (18)"], [" [18 sc]"], [" = 18"], [" <18>"], [" {18 sc}"], [" (18 sts)"]])(
    "its fix writes the count as the pattern does: %s",
    (count) => {
      const after = mended("count-missing", round(count));
      expect(after).toContain(`Rnd 4: (2 sc, inc) x6${count.replace("18", "24")}\n`);
      expectClean(after);
    },
  );

  test("stops before and behind the count are the pattern's own", () => {
    const text = round(" 18 sc.", ".").replaceAll("x6.", "x6.");
    const after = mended("count-missing", text);
    expect(after).toContain("Rnd 4: (2 sc, inc) x6. 24 sc.\n");
    expectClean(after);
  });

  test("one number a size", () => {
    const text =
      "Sizes: S (M, L)\n\nRnd 1: 6 (7, 8) hdc in mr. 6 (7, 8) hdc.\nRnd 2: 2 hdc in each st. 12 (14, 16) hdc.\nRnd 3: *hdc in next st, 2 hdc in next st; rep from * around. 18 (21, 24) hdc.\nRnd 4: *hdc in next 2 sts, 2 hdc in next st; rep from * around.\n";
    const after = mended("count-missing", text);
    expect(after).toContain("rep from * around. 24 (28, 32) hdc.\n");
    expectClean(after);
  });

  test("spaces are counted apart", () => {
    const text =
      "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. (12 sc)\nRow 3: Ch 1, turn, *sc in next st, ch 1, sk 1; rep from * across.\nRow 4: Ch 1, turn, sc in each st and sp across. (12 sc)\n";
    const after = mended("count-missing", text);
    expect(after).toContain("rep from * across. (6 sc, 6 ch-1 sps)\n");
    expectClean(after);
  });

  test("the one row of a piece that gives no count, where the number seldom changes", () => {
    const plain = (from: number): string =>
      [0, 1, 2].map((n) => `Row ${from + n}: Ch 1, turn, sc in each st across. (10 sc)\n`).join("");
    const text = `Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n${plain(2)}Row 5: Ch 1, turn, *sc in next st, ch 1, sk 1; rep from * across.\nRow 6: Ch 1, turn, *sc in next ch-1 sp, sc in next sc; rep from * across. (10 sc)\n${plain(7)}`;
    expect(onlyFinding("count-missing", text).on).toContain("Row 5");
    expect(foundBy("count-missing", text.replaceAll(/(Row [23].*) \(10 sc\)/g, "$1"))).toEqual([]);
  });

  const rounds = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)\n";
  test.each([
    [
      "a pattern that gives no counts",
      "Rnd 1: 6 sc in mr\nRnd 2: inc x6\nRnd 3: (sc, inc) x6\nRnd 4: (2 sc, inc) x6 (24)\n",
    ],
    ["a row that changes nothing", `${rounds}Rnd 4: sc in each st around\n`],
    ["a row that is its own count", `${rounds}Rnd 4: BLO 18 sc\n`],
    [
      "a row that repeats one with a count",
      "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\nRow 2: Ch 1, turn, *sc in next st, ch 1, sk 1; rep from * across. (5 sc, 5 ch-1 sps)\nRow 3: Ch 1, turn, sc in each st and sp across. (10)\nRow 4: Rep Row 2.\nRow 5: Rep Row 3.\n",
    ],
    ["slip stitches that finish an edge", `${rounds}Rnd 4: Sl st in each st around. Fasten off.\n`],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("count-missing", text)).toEqual([]);
  });
});

describe("sides-not-alternating", () => {
  const rows = (...heads: readonly string[]): string =>
    [
      "Ch 11.",
      `${heads[0]}: Sc in 2nd ch from hook and in each ch across, turn. (10)`,
      ...heads.slice(1).map((head) => `${head}: Ch 1, sc in each st across, turn. (10)`),
      "",
    ].join("\n");

  test("two rows with the same side", () => {
    const text = rows("Row 1 (RS)", "Row 2 (RS)");
    const { message, on, related } = onlyFinding("sides-not-alternating", text);
    expect(on).toBe("RS");
    expect(message).toBe(
      "Row 2 is marked RS and Row 1 is marked RS; the work is turned once between them, so Row 2 shows the WS.",
    );
    expect(related.map((one) => one.message)).toEqual(["Row 1 is marked RS."]);
    const after = mended("sides-not-alternating", text);
    expect(after).toBe(rows("Row 1 (RS)", "Row 2 (WS)"));
    expectClean(after);
  });

  test("sides further apart", () => {
    const text = rows("Row 1 (RS)", "Row 2", "Rows 3-5", "Row 6 (RS)");
    expect(onlyFinding("sides-not-alternating", text).message).toContain("turned 5 times between them");
    expectClean(mended("sides-not-alternating", text));
  });

  test("one slip is told once", () => {
    expect(
      foundBy("sides-not-alternating", rows("Row 1 (RS)", "Row 2 (WS)", "Row 3 (WS)", "Row 4 (WS)")),
    ).toHaveLength(1);
    expect(
      foundBy("sides-not-alternating", rows("Row 1 (RS)", "Row 2 (RS)", "Row 3 (WS)", "Row 4 (RS)")),
    ).toHaveLength(1);
  });

  test("words as the pattern writes them", () => {
    const text = rows("Row 1 (wrong side)", "Row 2 (wrong side)");
    expect(mended("sides-not-alternating", text)).toContain("Row 2 (right side)");
  });

  test.each([
    ["sides that alternate", rows("Row 1 (RS)", "Row 2 (WS)", "Row 3", "Row 4 (WS)")],
    [
      "rounds that are not turned",
      "Rnd 1 (RS): 6 sc in mr, join. (6)\nRnd 2 (RS): Ch 1, 2 sc in each st, join. (12)\n",
    ],
    [
      "turned rounds with their own sides",
      "Rnd 1 (RS): 6 sc in mr, join, turn. (6)\nRnd 2 (WS): Ch 1, 2 sc in each st, join, turn. (12)\n",
    ],
    [
      "a row that says not to turn",
      rows("Row 1 (RS)", "Row 2 (RS)").replace("across, turn", "across, do not turn"),
    ],
    [
      "yarn that is joined anew",
      rows("Row 1 (RS)", "Row 2 (RS)").replace("Row 2 (RS): Ch 1", "Row 2 (RS): Join B, ch 1"),
    ],
    ["rows that do not say that they are turned", rows("Row 1 (RS)", "Row 2 (RS)").replaceAll(", turn", "")],
    [
      "a sentence that turns the work",
      rows("Row 1 (RS)", "Row 2 (RS)").replace("\nRow 2", "\nFasten off. With RS facing, join B.\nRow 2"),
    ],
    [
      "rows that repeat others",
      rows("Row 1 (RS)", "Row 2 (WS)").concat(
        "Rows 3-6: Rep Rows 1-2.\nRow 7 (WS): Ch 1, sc in each st across, turn. (10)\n",
      ),
    ],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("sides-not-alternating", text)).toEqual([]);
  });
});
