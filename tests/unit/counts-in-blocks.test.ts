import { describe, expect, test } from "vitest";
import { foundBy } from "./rule-cases";

// Filet, common practice, no source: a mesh is a dc and the chains behind it, a block has dc in place of the chains.
const filet = (row: number, from: string, to: string): string =>
  [
    "Ch 18.",
    "Row 1: Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (5 blocks)",
    "Row 2: Ch 3 (counts as dc), turn, dc in next 3 dc, *ch 2, sk 2 dc, dc in next dc; rep from * 2 more times, dc in last 3 dc. (3 open meshes, 2 blocks)",
    "Row 3: Ch 3, turn, dc in next 3 dc, *2 dc in next sp, dc in next dc; rep from * 2 more times, dc in last 3 dc. (5 blocks)",
  ]
    .map((line, i) => (i === row ? line.replace(from, to) : line))
    .join("\n");

describe("blocks of filet are as wide as the meshes of other rows", () => {
  test("a right pattern", () => {
    expect(foundBy("wrong-count", filet(0, "", ""))).toEqual([]);
    expect(foundBy("not-understood", filet(0, "", ""))).toEqual([]);
  });

  test.each([
    ["a first row, counted wrong", filet(1, "5 blocks", "6 blocks"), "Row 1 makes 5 blocks"],
    ["a row of blocks only, counted wrong", filet(3, "5 blocks", "4 blocks"), "Row 3 makes 5 blocks"],
    ["a stitch too many", filet(3, "2 dc in next sp", "3 dc in next sp"), "Row 3 makes 6 blocks"],
    ["a longer starting chain", filet(0, "18", "19"), "Row 1 makes 1 stitch or chain in no block"],
  ])("%s", (_, text, message) => {
    expect(foundBy("wrong-count", text)[0]?.message).toContain(message);
  });
});

// Common practice, no source: a petal is all that goes into one space.
describe("petals are the groups of a round that has one sort of them", () => {
  const flower = (n: number) =>
    [
      "Rnd 1: Ch 1, *sc in magic ring, ch 3; rep from * 5 more times, join. (6 sc, 6 ch-3 sps)",
      `Rnd 2: (Sc, hdc, 3 dc, hdc, sc) in each ch-3 sp around, join. (${n} petals)`,
    ].join("\n");

  test("more or fewer than there are", () => {
    expect(foundBy("wrong-count", flower(7))[0]?.message).toContain("Rnd 2 makes 6 petals");
    expect(foundBy("wrong-count", flower(5))[0]?.message).toContain("Rnd 2 makes 6 petals");
    expect(foundBy("wrong-count", flower(6))).toEqual([]);
  });

  test("two or three of them may make one", () => {
    expect(foundBy("wrong-count", flower(3))).toEqual([]);
    expect(foundBy("wrong-count", flower(2))).toEqual([]);
  });
});
