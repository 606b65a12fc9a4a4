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

  test("is left unchecked where it says nothing of how often", () => {
    const text = `${base}Row 1: Join yarn in any st, ch 1, 2 sc in each st across, turn. (7)`;
    expect(foundBy("wrong-count", text)).toEqual([]);
    expect(foundBy("not-understood", text)).toHaveLength(1);
  });
});
