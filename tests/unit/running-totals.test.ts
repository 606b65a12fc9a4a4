import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { runningTotals } from "../../server/src/features/running-totals";
import { Checker } from "../../server/src/workspace/checker";

function worked(text: string) {
  return new Checker().work(text).worked;
}

const samples = new URL("../../samples/", import.meta.url);

describe("running totals", () => {
  test("are the sums of what the rows make, each as often as it is worked", () => {
    // Samples in which every row's count is its stitches and every range keeps its count: the sum can be taken from the report.
    for (const file of ["buoy-toy", "net-bag", "tide-ripple-blanket", "stall-hat", "rope-basket"]) {
      const text = readFileSync(new URL(`${file}.crochet`, samples), "utf8");
      const { worked: pattern, report } = new Checker().work(text);
      const expected = report.sizes.map((_, size) =>
        report.pieces
          .map(
            ({ rows, make }) =>
              make *
              rows
                .filter(({ kind }) => kind === "row")
                .reduce((sum, row) => sum + (row.makes?.[size] ?? 0) * (row.times?.[size] ?? 1), 0),
          )
          .reduce((sum, n) => sum + n, 0),
      );
      expect(runningTotals(pattern).ofPattern, file).toEqual(expected);
      expect(runningTotals(pattern).leftOut, file).toEqual([]);
    }
  });

  test("of a range are those of its rows written out", () => {
    const start = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n";
    const row = "Ch 1, turn, 2 sc in first st, sc in each st across.";
    const one = worked(`${start}Rows 2-9: ${row} (18)`);
    const rows = [2, 3, 4, 5, 6, 7, 8, 9].map((n) => `Row ${n}: ${row} (${n + 9})\n`);
    const apart = worked(start + rows.join(""));
    expect(runningTotals(one).ofPattern).toEqual(runningTotals(apart).ofPattern);
    // 10 + (11 + 12 + … + 18), by the sum of an arithmetic series.
    expect(runningTotals(one).ofPattern).toEqual([10 + (8 * (11 + 18)) / 2]);
  });

  test("are those of the rows that repeated rows stand for", () => {
    const rows =
      "Ch 7.\nRow 1: Sc in 2nd ch from hook and in each ch across. (6)\nRow 2: Ch 1, turn, 2 sc in each st. (12)\nRow 3: Ch 1, turn, *sc2tog; rep from * across. (6)\n";
    const copied = worked(`${rows}Rows 4-7: Rep Rows 2-3 twice more.`);
    expect(runningTotals(copied).ofPattern).toEqual([6 + 3 * (12 + 6)]);
  });

  test("count a size only where it works the row", () => {
    const pattern = worked(
      "Sizes: S (M)\nRnd 1: 8 hdc in ring. 8 (8) hdc.\nSize M only:\nRnd 2: 2 hdc in each st. 16 hdc.",
    );
    expect(runningTotals(pattern).ofPattern).toEqual([8, 24]);
  });

  test("leave out what is not known, and say so", () => {
    const pattern = worked(
      "R1: 6 sc in mr (6)\nR2: lotus x6 (6)\nR3: sc in each st (6)\nR4+: sc in each st (6)",
    );
    const { ofPattern, leftOut } = runningTotals(pattern);
    expect(ofPattern).toEqual([12]);
    expect(leftOut.map(({ row }) => row.line.headText)).toEqual(["R2", "R4+"]);
  });

  test("of stitches worked into the same place, of shells and of slip stitches that are counted, count stitches", () => {
    const shells = worked(
      "Shell: 5 dc in one st.\n\nRnd 1: fsc 12, join (12)\nRnd 2: *sk 2 sts, shell in next st, sk 2 sts, sc in next st; rep from * around. (2 shells, 2 sc)",
    );
    expect(runningTotals(shells).ofPattern).toEqual([12 + 2 * 5 + 2]);
  });

  test("are worked out once for a version", () => {
    const pattern = worked("Rnd 1: 6 sc in mr (6)");
    expect(runningTotals(pattern)).toBe(runningTotals(pattern));
  });
});

test("every sample has totals that grow from row to row", () => {
  for (const file of readdirSync(samples)) {
    const pattern = worked(readFileSync(new URL(file, samples), "utf8"));
    const totals = runningTotals(pattern);
    for (const piece of pattern.pieces) {
      const sums = piece.rows.map((row) => totals.upTo({ row, piece }));
      for (const [i, sum] of sums.entries())
        for (const [size, n] of sum.entries()) expect(n).toBeGreaterThanOrEqual(sums[i - 1]?.[size] ?? 0);
      expect(sums.at(-1)).toEqual(totals.ofPiece(piece));
    }
  }
});
