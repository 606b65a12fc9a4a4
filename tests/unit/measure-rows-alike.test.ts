import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { countStitches } from "../../server/src/fabric/steps";
import type { WorkedRow } from "../../server/src/fabric/worked";
import { sumOverRows } from "../../server/src/measure/rows-alike";
import { Checker } from "../../server/src/workspace/checker";

function rowsOf(text: string): WorkedRow[] {
  return new Checker().work(text).worked.pieces.flatMap(({ rows }) => rows);
}

function stitchesIn({ outcome }: WorkedRow): (number | null)[] {
  return (outcome?.inAll ?? []).map(
    (known, size) => known && sumOverRows(outcome?.worked ?? [], size, countStitches),
  );
}

const samples = readdirSync("samples").filter((name) => name.endsWith(".crochet"));

describe("all rows of a line, as alike rows", () => {
  test.each(samples)("%s: they have the stitches that the line makes in all", (name) => {
    const rows = rowsOf(readFileSync(`samples/${name}`, "utf8")).filter(
      ({ outcome }) => (outcome?.worked.length ?? 0) > 0,
    );
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) expect(stitchesIn(row)).toEqual(row.outcome?.inAll);
  });

  /** n(n + 1)/2 is Gauss's sum. */
  test("3,000 rounds that each have six stitches more: 3 n (n + 1)", () => {
    const rows = rowsOf("Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnds 3-3000: inc 6 times, sc around");
    const [last] = rows.slice(-1);
    expect(last?.outcome?.worked.some(({ before }) => before !== null)).toBe(true);
    expect(stitchesIn(last as WorkedRow)).toEqual([3 * 3000 * 3001 - 6 - 12]);
  });

  /** Rows times stitches of a row; numbers far enough apart that rows are told by arithmetic. */
  test.each(["Rep Row 2 8 (18, 28) more times.", "Rows 3-10 (20, 30): Ch 1, sc in each st, turn."])(
    "each size has its own number of rows: %s",
    (line) => {
      const rows = rowsOf(
        `Sizes: S (M, L)\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch, turn. (10)\nRow 2: Ch 1, sc in each st, turn. (10)\n${line}`,
      );
      const last = rows.at(-1) as WorkedRow;
      expect(last.outcome?.worked.some(({ before }) => before !== null)).toBe(true);
      expect(last.outcome?.inAll).toEqual([80, 180, 280]);
      expect(stitchesIn(last)).toEqual([80, 180, 280]);
    },
  );

  test("rows in turn are told apart", () => {
    const rows = rowsOf(
      "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across (10)\nRow 2: ch 1, turn, sc across (10)\n" +
        "Row 3: ch 3, turn, sk first st, dc across (10)\nRows 4-9: Rep Rows 2 and 3",
    );
    expect(rows.at(-1)?.outcome?.worked.map(({ turn, times }) => [turn, times])).toEqual(
      [0, 1, 0, 1, 0, 1].map((turn) => [turn, 1]),
    );
  });
});
