import { describe, expect, test } from "vitest";
import { pieceLenses } from "../../server/src/features/piece-lens";
import { statusAt } from "../../server/src/features/row-status";
import { Checker } from "../../server/src/workspace/checker";
import { marked } from "./marked-pattern";

function statusText(pattern: string): string | null {
  const { worked, offset } = marked(pattern);
  return statusAt(worked, offset)?.text ?? null;
}

describe("the row at the caret", () => {
  const two = "Rnd 1: 6 sc in mr (6)\n";

  test.each([
    ["in its instructions", `${two}Rnd 2: inc $0x6 (12)`, "Rnd 2: 12 sts"],
    ["at its end", `${two}Rnd 2: inc x6 (12)$0\n`, "Rnd 2: 12 sts"],
    ["of one stitch", "Row 1: $0fsc 1 (1)", "Row 1: 1 st"],
    ["on a line between rows", `${two}$0\nRnd 2: inc x6 (12)`, "after Rnd 1: 6 sts"],
    ["that does not fit", `${two}Rnd 2: inc x5$0 (12)`, "Rnd 2: does not fit"],
    ["with a wrong count", `${two}Rnd 2: inc x6 ($013)`, "Rnd 2: 12 sts, the line says 13"],
    ["that is not checked", `${two}Rnd 2: lotus $0x6`, "Rnd 2: not checked"],
    [
      "that is doubtful",
      "Ch 4, join to form ring.\nRnd 1: $0Ch 1, *2 dc in ring, ch 1; rep from * 5 times, join.",
      "Rnd 1: could mean two things",
    ],
    ["of several sizes", "Sizes: S (M)\nRnd 1: $0fsc 36 (42), join. 36 (42) sts.", "Rnd 1: 36 (42) sts"],
    [
      "counted in groups",
      "Shell: 5 dc in one st.\n\nRnd 1: fsc 12, join (12)\nRnd 2: $0*sk 2 sts, shell in next st, sk 2 sts, sc in next st; rep from * around. (2 shells, 2 sc)",
      "Rnd 2: 2 shells, 2 sc",
    ],
    [
      "that is a starting chain",
      "Ch $011.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)",
      "Starting chain: 11 chains",
    ],
    ["that is a ring", "Ch 4, $0join to form ring.\nRnd 1: 12 dc in ring. (12)", "Starting chain: a ring"],
  ])("%s", (_, pattern, expected) => {
    expect(statusText(pattern)).toBe(expected);
  });

  test("is none before the first row, under a heading without rows, and in an empty text", () => {
    expect(statusText("Hat$0\n\nRnd 1: 6 sc in mr (6)")).toBeNull();
    expect(statusText(`${two}\nAssembly\nSew $0it up.`)).toBeNull();
    expect(statusText("$0")).toBeNull();
  });

  test("is told in some more lines without markup", () => {
    const { worked, offset } = marked(`${two}Rnd 2: $0inc x6 (12)`);
    expect(statusAt(worked, offset)?.details).toBe(
      "Rnd 2\nworked over sts of Rnd 1: 6 of 6\nmakes: 12 sc\nchange from Rnd 1: +6\nso far in this piece: 18 of 18 sts",
    );
  });
});

describe("the lens of a piece", () => {
  function lenses(text: string): [string, string][] {
    return pieceLenses(new Checker().work(text).worked).map(({ span, title }) => [
      text.slice(span.start).split("\n")[0] as string,
      title,
    ]);
  }

  test("tells its rows and stitches, and those of all where it is made more than once", () => {
    const text =
      "Body\nRnd 1: 6 sc in mr (6)\nRnds 2-9: sc in each st around (6)\n\nFloat (make 4)\nRnd 1: 5 sc in mr (5)\n\nAssembly\nSew.";
    expect(lenses(text)).toEqual([
      ["Body", "9 rounds, 54 sts"],
      ["Float (make 4)", "1 round, 5 sts, make 4: 20 sts"],
    ]);
  });

  test("stands above the first row of a piece without a name", () => {
    const chained = "A plain square.\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)";
    expect(lenses(chained)).toEqual([["Ch 11.", "1 row, 10 sts"]]);
  });

  test("has a number for each size", () => {
    const text =
      "Sizes: S (M)\nHat\nRnd 1: fsc 36 (42), join. 36 (42) sts.\nRnds 2-5 (6): sc in each st around. 36 (42) sts.";
    expect(lenses(text)).toEqual([["Hat", "5 (6) rounds, 180 (252) sts"]]);
  });

  test("says what is not in it", () => {
    const text =
      "Band\nRow 1: fsc 10 (10)\nRow 2: lotus in each st (10)\nRow 3+: Ch 1, turn, sc in each st. (10)";
    expect(lenses(text)).toEqual([
      ["Band", "2 rows and more, 10 sts, without 2 lines whose stitches are not known"],
    ]);
  });

  test("sets large numbers in threes", () => {
    expect(lenses("Scarf\nRow 1: fsc 100 (100)\nRows 2-50: Ch 1, turn, sc in each st. (100)")).toEqual([
      ["Scarf", "50 rows, 5,000 sts"],
    ]);
  });
});
