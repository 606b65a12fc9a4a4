import { describe, expect, test } from "vitest";
import { work } from "../../server/src/fabric/cursor";
import { PatternReader, readPattern } from "../../server/src/fabric/pattern";
import { expand } from "../../server/src/fabric/steps";
import { Fabric, type WorkedRow } from "../../server/src/fabric/worked";
import { printTree } from "../../server/src/notation/print";
import { treeOf } from "../../server/src/notation/tree";
import { readWords } from "../../server/src/notation/words";
import { readCases } from "../spec/case-file";

function worked(text: string): { rows: readonly WorkedRow[]; visited: number; rowsWorked: number } {
  const fabric = new Fabric();
  const before = work.placesVisited;
  const pieces = fabric.work(readPattern(text));
  return {
    rows: pieces.flatMap(({ rows }) => rows),
    visited: work.placesVisited - before,
    rowsWorked: fabric.rowsWorked,
  };
}

describe("repeats are counted by arithmetic", () => {
  const repeated = (n: number): string =>
    [
      `Rnd 1: fsc ${3 * n}, join (${3 * n})`,
      `Rnd 2: (2 sc, inc) x${n} (${4 * n})`,
      `Rnd 3: *sc in next 2 sts, ch 1, sk next st, hdc in next st; rep from * around. (${2 * n} sc, ${n} hdc, ${n} ch-1 sps)`,
      `Rnd 4: *sc in next 2 sc, sc in next ch-1 sp, sc in next hdc; rep from * ${n - 1} more times. (${4 * n})`,
    ].join("\n");

  test.each([1e3, 1e6, 1e12])("as many places are visited for x 10 as for x %d", (n) => {
    const [few, many] = [worked(repeated(10)), worked(repeated(n))];
    expect(many.rows.map((row) => row.result)).toEqual(["ok", "ok", "ok", "ok"]);
    expect(few.rows.map((row) => row.result)).toEqual(["ok", "ok", "ok", "ok"]);
    expect(many.visited).toBe(few.visited);
    expect(many.rows.at(-1)?.outcome?.makes).toEqual([4 * n]);
  });
});

describe("ranges are counted by arithmetic", () => {
  const range = (rows: number): string =>
    [
      "Ch 10.",
      "Row 1: Sc in 2nd ch from hook and in each ch across. (9)",
      "Row 2: Ch 1, turn, sc in each st across. (9)",
      `Rows 3-${rows + 2}: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. (${9 + 2 * rows})`,
      `Rep Rows 2 and 3 ${rows} times. (${9 + 4 * rows})`,
    ].join("\n");

  test.each([1e6, 1e9, 1e12])("as many places are visited for 1000 rows as for %d", (rows) => {
    const [few, many] = [worked(range(1000)), worked(range(rows))];
    expect(few.rows.map((row) => row.result)).toEqual(["ok", "ok", "ok", "ok", "ok"]);
    expect(many.rows.map((row) => row.result)).toEqual(["ok", "ok", "ok", "ok", "ok"]);
    expect(many.visited).toBe(few.visited);
    expect(many.rows.at(-1)?.outcome?.makes).toEqual([9 + 4 * rows]);
  });
});

describe("the work grows with the rows", () => {
  const rounds = (n: number): string =>
    [
      "Rnd 1: 6 sc in mr (6)",
      ...[...Array(n).keys()].map(
        (i) => `Rnd ${i + 2}: (${i === 0 ? "" : `${i} sc, `}inc) x6 (${6 * (i + 2)})`,
      ),
    ].join("\n");

  test("doubling the rows at most doubles the places visited and the rows worked", () => {
    const [first, half, whole] = [worked(rounds(2)), worked(rounds(102)), worked(rounds(202))];
    expect(half.visited).toBeGreaterThan(first.visited);
    expect(whole.visited - first.visited).toBeLessThanOrEqual(2 * (half.visited - first.visited));
    expect(whole.rowsWorked - first.rowsWorked).toBeLessThanOrEqual(2 * (half.rowsWorked - first.rowsWorked));
  });

  test("an edit works again only what depends on it", () => {
    const [fabric, reader] = [new Fabric(), new PatternReader()];
    const text = rounds(100);
    fabric.work(reader.read(text));
    const before = fabric.rowsWorked;
    fabric.work(reader.read(text.replace("(30 sc, inc) x6 (192)", "(30 sc, inc) x6 (193)")));
    // The row itself, and the next one on the stated count that is now another.
    expect(fabric.rowsWorked - before).toBeLessThanOrEqual(3);
    expect(fabric.rowsWorked - before).toBeGreaterThan(0);
  });
});

/** Texts that grow with a number, each hard in a way of its own. */
const growing: Readonly<Record<string, (n: number) => string>> = {
  "more items in a row": (n) =>
    `Rnd 1: fsc ${2 * n}, join (${2 * n})\nRnd 2: ${"sc, hdc, ".repeat(n - 1)}sc, hdc`,
  "brackets in brackets": (n) => `Rnd 1: fsc 4096, join (4096)\nRnd 2: ${"(".repeat(n)}sc${") x2".repeat(n)}`,
  "groups of their own sizes": (n) =>
    `Rnd 1: fsc ${n}, join (${n})\nRnd 2: ${Array.from({ length: n }, (_, i) => `${(i % 7) + 2} dc in next st`).join(", ")}`,
  "rows with slips": (n) =>
    `Rnd 1: 6 sc in mr (6)\n${Array.from({ length: n }, (_, i) => `Rnd ${i + 2}: inc x${5 + (i % 2)} (${6 + i})`).join("\n")}`,
  "rows with doubtful lines": (n) =>
    `Ch 13.\nRow 1: sc in 2nd ch from hook and in each ch across (12)\n${Array.from({ length: n }, (_, i) => `Row ${i + 2}: ch 3, turn, dc in next st, 2 sc, inc`).join("\n")}`,
  pieces: (n) =>
    Array.from({ length: n }, (_, i) => `Leg ${i}\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\n`).join("\n"),
};

test.each(Object.entries(growing))("twice of %s is at most 2.2 times the work", (_, text) => {
  // Brackets deeper than 32 are not worked at all.
  for (const n of [6, 15, 24, 96].filter((size) => !text(2 * size).includes("(".repeat(33)))) {
    const [half, whole] = [worked(text(n)), worked(text(2 * n))];
    expect(half.visited).toBeGreaterThan(0);
    // The first rows cost what they cost, whatever follows.
    expect(whole.visited).toBeLessThanOrEqual(2.2 * half.visited + 20);
    expect(whole.rowsWorked).toBeLessThanOrEqual(2.2 * half.rowsWorked + 2);
  }
});

describe("over all cases", () => {
  const cases = readCases();

  test.each(cases.map((spec) => [spec.name, spec.text] as const))(
    "%s prints back, and lists what it counts",
    (_, text) => {
      for (const line of text.split("\n")) {
        const words = readWords(line, { words: new Map(), sizes: 1 });
        const tree = treeOf(words);
        expect(tree).not.toBeNull();
        if (tree) expect(printTree(tree, words, line)).toBe(line);
      }
      for (const row of worked(text).rows) expectListed(row);
    },
  );
});

/** The stitches listed one by one come to the needs and makes that were counted by arithmetic. */
function expectListed(row: WorkedRow): void {
  const { outcome, line } = row;
  if (row.result !== "ok" || !outcome || line.kind === "copy" || line.head?.to || line.head?.many) return;
  for (const [size, steps] of outcome.steps.entries()) {
    const list = expand(steps);
    if (outcome.leaves.state[size] === null || steps.length === 0 || list === null) continue;
    const uses = list.reduce((sum, one) => sum + one.uses, 0);
    expect(uses, `${line.headText} needs`).toBe(outcome.needs[size] ?? 0);
    const stitches = list.filter((one) => one.sort === "stitch").length;
    const counted = outcome.counted[size];
    const onlyStitches =
      line.plan?.stated === null ||
      line.plan?.stated.every((term) => term.sort === "any" || term.sort === "stitch");
    if (counted && !counted.chainsCounted && onlyStitches)
      expect(stitches, `${line.headText} makes`).toBe(outcome.makes[size]);
  }
}
