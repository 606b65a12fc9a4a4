import { describe, expect, test } from "vitest";
import { foundBy, onlyFinding } from "./rule-cases";

// Trade practice: "pieces meeting at a seam agree" and "make 2 agrees with the assembly" are lines of the usual technical editor's checklist.
const square = (heading: string) => `${heading}
Rnd 1: 12 dc in magic ring (12)
Fasten off.
`;

describe("pieces that are shared out", () => {
  const bag = (heading: string, finish: string) => `Bag\n${square(heading)}Assembly\n${finish}\n`;

  test.each([
    ["in the heading", "Square (make 8: 4 with B and 3 with C)", "Sew the squares together.", "4 + 3 is 7"],
    [
      "in sentences",
      "Square (make 8)",
      "Lay out 6 squares two by three. Sew the other 4 in the same way.",
      "6 + 4 is 10",
    ],
    [
      "in one sentence",
      "Square (make 8)",
      "Sew 5 squares into a strip and the other 4 into a ring.",
      "5 + 4 is 9",
    ],
  ])("%s", (_, heading, finish, sum) => {
    const { message } = onlyFinding("wrong-number-of-pieces", bag(heading, finish));
    expect(message).toBe(`${sum}, and 8 are made under "Square". Make the numbers agree.`);
  });

  test.each([
    ["Square (make 8: 4 with B and 4 with C)", "Sew the squares together."],
    ["Square (make 8)", "Lay out 4 squares two by two. Sew the other 4 in the same way."],
    ["Square (make 2, 1 in each colour)", "Sew the squares together."],
    ["Square (make 8)", "Sew 4 squares together. Join the other two sides."],
  ])("silent on %s: %s", (heading, finish) => {
    expect(foundBy("wrong-number-of-pieces", bag(heading, finish))).toEqual([]);
  });

  test("one to each of several", () => {
    const text = bag("Square (make 3)", "Sew a square to each of the four corners.");
    expect(foundBy("wrong-number-of-pieces", text)).toHaveLength(1);
    expect(foundBy("wrong-number-of-pieces", text.replace("make 3", "make 4"))).toEqual([]);
  });
});

describe("edges-differ, by numbers that are told", () => {
  const thumb = (n: number) => `Hand
Rnd 1: 30 sc in magic ring (30)
Rnd 2: Skip first 8 sts for the thumb, sc in each st to end. (22)
Fasten off.
Thumb
Rnd 1: Sc in each of the ${n} skipped sts. (${n})
Fasten off.
`;

  test("stitches that were skipped", () => {
    expect(onlyFinding("edges-differ", thumb(10)).on).toBe("10");
    expect(foundBy("edges-differ", thumb(8))).toEqual([]);
  });

  const wing = (closing: string) => `Wing
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
${closing} Fasten off.
`;

  test.each([
    "Press flat and crochet 7 sc through both sides to shut it.",
    "Flatten; through both thicknesses work seven sc.",
    "Flatten; sc through both layers across (8).",
  ])("a flat closing: %s", (closing) => {
    expect(foundBy("edges-differ", wing(closing))).toHaveLength(1);
    expect(foundBy("edges-differ", wing(closing.replace(/7|8|seven/, "6")))).toEqual([]);
  });

  const vest = (shoulder: string) => `Back
Ch 31.
Row 1: Sc in 2nd ch from hook and in each ch across. (30)
Fasten off.
Left front
Ch 15.
Row 1: Sc in 2nd ch from hook and in each ch across. (14)
Shape neck
Row 2: Ch 1, turn, sc in first 8 sts, leaving rem sts unworked. (8)
Fasten off.
Finishing
Sew the ${shoulder} shoulder sts of each front to the back.
`;

  test("the shoulder of a front", () => {
    expect(onlyFinding("edges-differ", vest("10")).on).toBe("10");
    expect(foundBy("edges-differ", vest("8"))).toEqual([]);
  });

  const scarf = (chains: number) => `Scarf
Ch 22.
Row 1: Sc in 2nd ch from hook and in each ch across. (21)
Fasten off.
Edging
Join yarn and work 1 sc in each of the ${chains} chs of the foundation edge. Fasten off.
`;

  test("the chains of a foundation", () => {
    expect(onlyFinding("edges-differ", scarf(31)).on).toBe("31");
    expect(foundBy("edges-differ", scarf(21))).toEqual([]);
  });

  const hat = (n: number) => `Brim
Ch 6.
Row 1: Sc in 2nd ch from hook and in each ch across. (5)
Rows 2-30: Ch 1, turn, sc in BLO of each st across. (5)
Hat
Rnd 1: Ch 1, sc in each row end around, join. (${n})
`;

  test("one in each row end", () => {
    expect(foundBy("edges-differ", hat(36))).toHaveLength(1);
    expect(foundBy("edges-differ", hat(30))).toEqual([]);
  });
});
