import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";

function found(row: string): string[] {
  const { findings } = new Checker().check(`Row 1: Fsc 22, turn. (22 sc)\n${row}`);
  return findings.map(({ rule }) => rule);
}

// Common practice, no source: one stitch at each end is two in a row that is shaped.
describe("rows that are shaped in words", () => {
  test.each([
    ["Rows 2-7: Dec 1 st at each end of every 3rd row.", 18],
    ["Next 2 rows: Dec 1 st at each end of every row.", 18],
    ["Rows 2-5: Work even in sc, dec 1 st at each end of Row 5.", 20],
    ["Rows 2-5: Inc 1 st at each end of next row, then work 3 rows even.", 24],
    ["Row 2: Inc 1 st at each end.", 24],
    ["Dec 1 st at each end of next 4 rows.", 14],
    ["Working in BLO, dec 1 st at both sides of every 2nd row 3 times.", 16],
  ])("as often as is told: %s", (row, n) => {
    expect(found(`${row} (${n} sc)`)).toEqual([]);
    expect(found(`${row} (${n + 1} sc)`)).toEqual(["wrong-count"]);
  });

  test.each([
    "Rows 2-5: Dec 1 st at each end.",
    "Rows 2-6: Dec 1 st at each end of every other row.",
    "Dec 1 st at each end of every row.",
    "Inc 1 st at each end of next row and every foll alt row.",
    "Continue as set, inc 6 sts each row.",
    "Continue as established, decreasing at the armhole as before.",
  ])("nothing tells how often: %s", (row) => {
    expect(found(`${row} (12 sc)`)).toEqual(["not-understood"]);
  });
});
