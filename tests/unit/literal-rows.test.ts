import { describe, expect, test } from "vitest";
import { foundBy, onlyFinding } from "./rule-cases";

// Common practice, no source: numbers that a row tells itself have to come to its count, wherever it is worked.
describe("a first row that nothing tells the places of", () => {
  const base = "BASE\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nFasten off.\n\nHANDLE\n";
  const strap = (n: number) =>
    `${base}Row 1: Join yarn in any st, ch 1, sc in same st, sc in each of next 3 sts, turn. (${n})\nRow 2: Ch 1, sc in each st across. (4)`;

  test("comes to another number than it states", () => {
    expect(onlyFinding("wrong-count", strap(6)).message).toContain("Row 1 makes 4 stitches; the line says 6");
    expect(foundBy("wrong-count", strap(4))).toEqual([]);
  });

  test("whose rest stays unworked", () => {
    const heel = (n: number) =>
      `${base}Row 1: Sc in next ${n} sts, ch 1, turn, leaving rem sts unworked. (7)\nRow 2: Sc in each st across. (${n})`;
    expect(onlyFinding("wrong-count", heel(4)).message).toContain("Row 1 makes 4 stitches");
    expect(foundBy("wrong-count", heel(7))).toEqual([]);
  });

  test.each([
    "Join yarn in any st, ch 1, sc in next 10 sts, ch 12, turn. (10 sc, ch 12)",
    "With right side facing, sc in next 8 sts, sc2tog, sc in next 8 sts, ch 1, turn. (17 sc, 1 ch)",
    "With right side facing, ch 1, sc in next 15 sts, 2 sc in next st, turn. (17 sc and 1 ch)",
    "Join yarn in any st, ch 1, 20 sc along edge, 3 sc in corner, 10 sc along side. (33 sc, 1 corner)",
  ])("is left unchecked where its count tells of more than stitches: %s", (row) => {
    expect(foundBy("wrong-count", `${base}Row 1: ${row}`)).toEqual([]);
    expect(foundBy("not-understood", `${base}Row 1: ${row}`)).toHaveLength(1);
  });

  test.each([
    ["Join yarn in any st, ch 1, sc in next 10 sts, ch 12, turn. (11 sc)", 10],
    ["With right side facing, sc in next 8 sts, sc2tog, sc in next 8 sts, ch 1, turn. (18 sc)", 17],
    ["Join yarn in any st, ch 1, 20 sc along edge, 3 sc in corner, 10 sc along side. (34 sc)", 33],
  ])("is told of a count of stitches that is not so: %s", (row, n) => {
    expect(onlyFinding("wrong-count", `${base}Row 1: ${row}`).message).toContain(`Row 1 makes ${n} sc`);
  });

  test("is left unchecked where one number is each row's and the other that of all", () => {
    const rows = "Rows 1-4: Join yarn in any st, sc in next 12 sts, turn. (12 sc each row, 48 sc)";
    expect(foundBy("wrong-count", base + rows)).toEqual([]);
  });

  test("is left unchecked where it says nothing of how often", () => {
    const text = `${base}Row 1: Join yarn in any st, ch 1, 2 sc in each st across, turn. (7)`;
    expect(foundBy("wrong-count", text)).toEqual([]);
    expect(foundBy("not-understood", text)).toHaveLength(1);
  });
});
