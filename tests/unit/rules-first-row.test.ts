import { describe, expect, test } from "vitest";
import { mended, onlyFinding } from "./rule-cases";

// Common practice, no source: one chain for each stitch, and those that turn.
describe("a first row that does not go with its starting chain", () => {
  const flat = (chains: number, row: string, count: number) =>
    `Ch ${chains}.\nRow 1: ${row}. (${count})\nRow 2: Ch 1, turn, sc in each st across. (30)`;
  const toTheEnd = "Sc in 2nd ch from hook and in each ch across";

  test.each([
    [
      "its stitches",
      flat(32, "Sc in 2nd ch from hook, sc in next 29 ch", 30),
      "does-not-fit",
      "Sc in 2nd ch",
    ],
    ["its count", flat(33, toTheEnd, 30), "wrong-count", "(30)"],
    ["its count, digits changed about", flat(13, toTheEnd, 30), "wrong-count", "(30)"],
  ])("is told where the row stands: %s", (_, text, rule, on) => {
    expect(onlyFinding(rule, text).on).toContain(on);
  });

  test("with a repeat that comes out another number of times", () => {
    const text =
      "Ch 24.\nRow 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across. (6 mesh)";
    expect(onlyFinding("does-not-fit", text).on).toContain("Dc in 8th ch");
    expect(mended("does-not-fit", text)).toContain("Ch 23.");
  });

  test.each([
    ["its count", flat(31, toTheEnd, 31), "wrong-count", "(31)"],
    [
      "its first chain",
      flat(31, "Sc in 3rd ch from hook, sc in next 29 ch", 30),
      "does-not-fit",
      "Sc in 3rd ch",
    ],
  ])("is told where the row stands, and the chain is right: %s", (_, text, rule, on) => {
    expect(onlyFinding(rule, text).on).toContain(on);
  });
});
