import { describe, expect, test } from "vitest";
import { readPattern } from "../../server/src/fabric/pattern";
import { Fabric } from "../../server/src/fabric/worked";
import { isEven, linedUp, oneByOne, staggered } from "../../server/src/reshape/even";
import { fold } from "../../server/src/reshape/fold";
import { rewriteToMake } from "../../server/src/reshape/rewrite-row";

/* Increases and decreases spread over rows. Published numbers have their source beside them. */

/** Groups as a maker counts them: the stitches of each with what it ends in. */
function sizes(units: number, plain: number): number[] {
  return linedUp(units, plain).map((one) => one.plain + one.units);
}

/**
 * The line of J. E. Bresenham ("Algorithm for computer control of a digital plotter", IBM Systems Journal 4,
 * 1965): a unit wherever the line of slope units / all rises to the next whole number.
 */
function bresenham(units: number, plain: number): string {
  const all = units + plain;
  let [row, error] = ["", 0];
  for (let i = 0; i < all; i++) {
    error += units;
    const rises = 2 * error >= all;
    if (rises) error -= all;
    row += rises ? "+" : "-";
  }
  return row;
}

describe("even spacing", () => {
  test.each([
    // 51 stitches and 4 increases, 99 and 8, 64 and 6: arithmetic, no source.
    [4, 47, [13, 13, 13, 12]],
    [8, 91, [12, 13, 12, 12, 13, 12, 12, 13]],
    [6, 58, [11, 11, 10, 11, 11, 10]],
  ])("%i increases and %i plain stitches", (units, plain, groups) => {
    expect(sizes(units, plain)).toEqual(groups);
  });

  test("is Bresenham's line, begun at another of its places, for every count to 80", () => {
    for (let units = 1; units <= 80; units++)
      for (let plain = 1; plain <= 80; plain++) {
        const line = bresenham(units, plain);
        const row = oneByOne(linedUp(units, plain));
        expect(row.length, `${units} ${plain}`).toBe(line.length);
        expect((line + line).includes(row), `${units} in ${plain}`).toBe(true);
      }
  });

  test("moved on by half a group is as even, and has the same stitches", () => {
    for (let units = 1; units <= 40; units++)
      for (let plain = 1; plain <= 60; plain++) {
        const [own, moved] = [linedUp(units, plain), staggered(units, plain)];
        const tally = (row: string): string => [...row].sort().join("");
        expect(tally(oneByOne(moved))).toBe(tally(oneByOne(own)));
        expect(isEven(moved), `${units} in ${plain}`).toBe(true);
      }
  });

  test("bunched increases are not even", () => {
    const bunched = [4, 4, 4, 5, 5, 5, 5].map((plain) => ({ plain, units: 1 }));
    expect(isEven(bunched)).toBe(false);
  });
});

test("what comes again is drawn together", () => {
  const drawn = (text: string): string => JSON.stringify(fold([...text], String));
  expect(drawn("aab")).toBe('[{"body":["a"],"times":2},"b"]');
  expect(drawn("ababab")).toBe('[{"body":["a","b"],"times":3}]');
  expect(drawn("abc")).toBe('["a","b","c"]');
});

/** The last row of a pattern, made to come to another count. */
function rewritten(pattern: string, makes: number): string {
  const [piece] = new Fabric().work(readPattern(pattern));
  const row = piece?.rows.at(-1);
  if (!piece || !row) throw new Error("no row");
  const found = rewriteToMake(row, piece, makes);
  return "why" in found ? found.why : found.text;
}

const round = (n: number, row: string): string => `Rnd 1: ${n} sc in magic ring (${n})\nRnd 2: ${row}`;

describe("a row in the words of its designer", () => {
  test.each([
    // The two staggered rounds and the counts: arithmetic, no source.
    [round(51, "(sc 16, inc) x3 (54)"), 55, "(sc 12, inc) x3, sc 11, inc (55)"],
    [round(30, "sc 1, inc, (sc 9, inc) x2, sc 8 (33)"), 36, "sc 2, inc, (sc 4, inc) x5, sc 2 (36)"],
    [round(42, "sc 3, inc, (sc 9, inc) x3, sc 8 (46)"), 48, "sc 3, inc, (sc 6, inc) x5, sc 3 (48)"],
    [round(64, "[7 sc, inc] 8 times (72)"), 70, "([10 sc, inc] 2 times, 9 sc, inc) 2 times (70)"],
    [
      round(24, "*Sc in each of next 3 sts, 2 sc in next st; rep from * around, join. (30)"),
      28,
      "*Sc in each of next 5 sts, 2 sc in next st; rep from * around, join. (28)",
    ],
    [
      round(24, "*Sc in each of next 3 sts, 2 sc in next st; rep from * around, join. (30)"),
      29,
      "*Sc in each of next 4 sts, 2 sc in next st; rep from * 3 more times, sc in each of next 3 sts, 2 sc in next st, join. (29)",
    ],
    [round(12, "inc in each st around (24)"), 18, "(sc, inc in next st) x6 (18)"],
    [round(12, "2 sc in each st around (24)"), 18, "(sc, 2 sc in next st) x6 (18)"],
    [round(24, "sc in each st around (24)"), 18, "(sc in next 2 sts, sc2tog) x6 (18)"],
    [round(24, "sc in each st around (24)"), 24, "sc in each st around (24)"],
    [round(24, "24 sc (24)"), 30, "(3 sc, inc) x6 (30)"],
    [round(24, "(sc, inc) x12 (36)"), 60, "(inc, 3 sc in next st) x12 (60)"],
    [round(24, "(inc, 3 sc) x6 (30)"), 28, "(inc, 5 sc) x4 (28)"],
    [round(36, "(4 sc, dec) x6 (30)"), 29, "(3 sc, dec) x6, 4 sc, dec (29)"],
    [round(36, "(4 sc, dec) x6 (30)"), 13, "(dec, sc3tog x3) x2, dec, sc3tog x4 (13)"],
    [round(36, "(4 sc, dec) x6 (30)"), 10, "nothing in it can be changed so that it makes 10"],
    [round(24, "BLO sc in each st around (24)"), 30, "nothing in it can be changed so that it makes 30"],
    [
      round(24, "(sc in BLO of next 3 sts, 2 sc in BLO of next st) x6 (30)"),
      28,
      "(sc in BLO of next 5 sts, 2 sc in BLO of next st) x4 (28)",
    ],
    [round(36, "6 sc in next st"), 0, "a row makes one stitch or more"],
  ])("%s to %i", (pattern, makes, row) => {
    expect(rewritten(pattern, makes)).toBe(row);
  });
});
