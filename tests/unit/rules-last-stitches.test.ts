import { describe, expect, test } from "vitest";
import { foundBy, mended, onlyFinding } from "./rule-cases";

// Common practice, no source: what stands behind "to last N sts" is worked in those N.
describe("does-not-fit, for the last stitches of a repeat", () => {
  const row = (last: number, end: string) => `Ch 34.
Row 1: Sc in 2nd ch from hook and in each ch across. (33)
Row 2: Sc in first st, *sc in next 3 sts, dc in next st; rep from * to last ${last} sts, ${end}. (33)
`;

  test("more are worked than are left", () => {
    const text = row(2, "sc in next 3 sts, sc in last st");
    const { on, message } = onlyFinding("does-not-fit", text);
    expect(on).toBe("2");
    expect(message).toBe(
      "Row 2 stops its repeat before the last 2, and 4 are worked behind it. Did you mean 4?",
    );
    expect(mended("does-not-fit", text)).toBe(row(4, "sc in next 3 sts, sc in last st"));
  });

  test("fewer are worked, and the last stitch is where the row ends", () => {
    const text = `Rnd 1: 24 sc in mr (24)
Rnd 2: Ch 1, sc in first st, *ch 5, sk 2 sts, sc in next st; rep from * to last 2 sts, ch 2, sk 1 st, dc in last st.`;
    expect(foundBy("does-not-fit", text)).toEqual([]);
    const { on, message } = onlyFinding("does-not-fit", text.replace("sk 1 st, ", ""));
    expect(on).toBe("2");
    expect(message).toMatch(/^Rnd 2: this stops short, .* Say which are skipped\.$/);
  });

  test.each(["", "sk 0 sts, "])("stops before stitches that the next words pass over: %j", (skipped) => {
    const corner = "(2 dc, ch 2, 2 dc) in ch-2 sp";
    const side = (words: string) => `dc in each st to 1 st before ch-2 sp, ${words}${corner}`;
    const text = (
      words: string,
    ) => `Rnd 1: Ch 3 (counts as dc), 2 dc in mr, ch 2, (3 dc in mr, ch 2) 3 times, join. (12 dc)
Rnd 2: Ch 3 (counts as dc), ${side("sk 1 st, ")}, *${side(words)}; rep from * twice more, join. (24 dc)`;
    expect(foundBy("does-not-fit", text("sk 1 st, "))).toEqual([]);
    expect(onlyFinding("does-not-fit", text(skipped)).on).toBe("dc in each st to 1 st before ch-2 sp");
  });

  test("silent where they agree", () => {
    expect(foundBy("does-not-fit", row(4, "sc in next 3 sts, sc in last st"))).toEqual([]);
    expect(foundBy("does-not-fit", row(4, "sc in last 4 sts"))).toEqual([]);
  });
});

// Trade practice: "Colours, hooks, notions listed = used" is a line of the usual technical editor's checklist.
describe("wrong-number-of-pieces, for notions", () => {
  const cowl = (n: string) => `Materials
Worsted wool: 200 g
3 buttons, 25 mm across

Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)
Fasten off.
Finishing
Sew the ${n} buttons to the short edge.
`;

  test("buttons", () => {
    expect(onlyFinding("wrong-number-of-pieces", cowl("four")).message).toBe(
      "This speaks of 4 buttons, and the materials list 3. Make the numbers agree.",
    );
    expect(foundBy("wrong-number-of-pieces", cowl("3"))).toEqual([]);
  });

  // Common practice, no source: a list counts all, and a sentence those of one place.
  const vest = (listed: string, sewn: string) => `Materials
Worsted wool: 200 g
${listed}

Back
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)
Fasten off.
Front (make 2)
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)
Fasten off.
Finishing
${sewn}
`;

  test.each([
    ["4 buttons, 15 mm", "Sew the 2 buttons on each front."],
    ["6 buttons, 15 mm", "Sew the three buttons on the front."],
    ["12 beads", "Sew the 3 beads onto each front."],
    ["2 buttons, 15 mm", "Sew the 3 buttons to both fronts."],
    ["6 buttons, 15 mm", "Sew the 6 buttons on the front."],
  ])("silent where %s are listed: %s", (listed, sewn) => {
    expect(foundBy("wrong-number-of-pieces", vest(listed, sewn))).toEqual([]);
  });

  test("more than are listed", () => {
    const sewn = vest("4 buttons, 15 mm", "Sew the 5 buttons on the front.");
    expect(onlyFinding("wrong-number-of-pieces", sewn).on).toBe("5");
  });
});

describe("edges-differ, for the sides of a motif", () => {
  const throw_ = (n: number) => `Hexagon (make 7)
Rnd 1: 12 sc in magic ring (12)
Rnd 2: 2 sc in each st (24)
Fasten off.
Joining
Crochet the hexagons together with ${n} sc along each side.
`;

  test("is told where six sides come to another number", () => {
    expect(onlyFinding("edges-differ", throw_(5)).on).toBe("5");
    expect(foundBy("edges-differ", throw_(4))).toEqual([]);
  });

  // Common practice, no source: the stitch at a corner belongs to two sides, and is told apart.
  const square = (edging: string) => `Square (make 4)
Rnd 1: 8 sc in magic ring (8)
Rnd 2: 2 sc in each st (16)
Rnd 3: (sc, inc) x8 (24)
Rnd 4: (2 sc, inc) x8 (32)
Fasten off.
Joining
To join the squares, ${edging}.
`;

  test.each([
    ["corners are told apart", "work 7 sc along each side of the square with 3 sc in each corner st"],
    ["corners are told to be skipped", "work 5 sc along each side of the square, missing the corner sts"],
    ["one stitch a corner is left out", "work 7 sc along each side of the square"],
    ["the sides have all", "work 8 sc along each side of the square"],
  ])("silent where %s", (_, edging) => {
    expect(foundBy("edges-differ", square(edging))).toEqual([]);
  });

  test("is told of a square without a word of its corners", () => {
    expect(onlyFinding("edges-differ", square("work 9 sc along each side of the square")).on).toBe("9");
  });
});
