import { describe, expect, test } from "vitest";
import { frontMatterOf } from "../../server/src/notation/front-matter/front-matter";
import { readGaugeLine } from "../../server/src/notation/front-matter/gauge-lines";
import { readLabel } from "../../server/src/notation/front-matter/labels";
import { stretchAt } from "../../server/src/notation/front-matter/stretch";
import { readLines } from "../../server/src/notation/lines";

/** Forms of gauge lines: the pattern sheets in server/src/trade/gauge-pairs.ts and common practice; some wordings are invented. */
describe("gauge lines", () => {
  test.each([
    ['18 hdc and 13 rounds = 10 cm (4")', ["18 hdc / 10 cm", "13 row / 10 cm"]],
    ["22 sc x 24 rows = 4 in", ["22 sc / 4 in", "24 row / 4 in"]],
    ["16 hdc x 10.5 rows = 10 cm", ["16 hdc / 10 cm", "10.5 row / 10 cm"]],
    ["18tr and 9 rounds to 10cm", ["18 tr / 10 cm", "9 row / 10 cm"]],
    ["4 in = 14 sc and 16 rows", ["14 sc / 4 in", "16 row / 4 in"]],
    ["10cm/4in: 14 sts, 16 rows", ["14 stitch / 10 cm", "16 row / 10 cm"]],
    ["4 x 4 in (10 x 10 cm) = 13 sc x 15 rows", ["13 sc / 4 in", "15 row / 4 in"]],
    ["18 sts = 6 in, 10 rows = 4 in", ["18 stitch / 6 in", "10 row / 4 in"]],
    ["5 sc per inch", ["5 sc / 1 in"]],
    ["6 sts and 7 rounds to the inch", ["6 stitch / 1 in", "7 row / 1 in"]],
    ['3½ sts = 1"', ["3.5 stitch / 1 in"]],
    ["14-15 sc = 4 in", ["14.5 sc / 4 in"]],
    ["3 V-sts x 4.5 rows = 4 in", ["3 v-st / 4 in", "4.5 row / 4 in"]],
    ["2 pattern repeats and 8 rows = 4 in", ["2 repeat / 4 in", "8 row / 4 in"]],
    ["14 sts and 16 rows = 10 cm in single crochet", ["14 sc / 10 cm", "16 row / 10 cm"]],
    ["20 sts x 10 rows over 10 x 12 cm", ["20 stitch / 10 cm", "10 row / 12 cm"]],
    ["24dc", ["24 dc / -"]],
    ["4 in of nothing", []],
  ])("%s", (text, counts) => {
    const line = readGaugeLine(stretchAt(text, 0));
    expect(
      line.counts.map(
        ({ n, sort, word, over }) => `${n} ${word ?? sort} / ${over ? `${over.value} ${over.unit}` : "-"}`,
      ),
    ).toEqual(counts);
  });

  test("rounds that measure so much across", () => {
    const { disc, inRound } = readGaugeLine(stretchAt('Rnds 1 and 2 measure 7 cm (2 3/4") across', 0));
    expect(disc).toEqual({ rounds: 2, across: { value: 7, unit: "cm" } });
    expect(inRound).toBe(true);
    expect(readGaugeLine(stretchAt("First 3 rounds = 5 cm across", 0)).disc?.rounds).toBe(3);
  });

  test("blocked or not, in the round or flat, and of no importance", () => {
    const said = (text: string) => {
      const { blocked, inRound, isFree } = readGaugeLine(stretchAt(text, 0));
      return [blocked, inRound, isFree];
    };
    expect(said("14 sc and 16 rows = 10 cm, after blocking")).toEqual([true, false, false]);
    expect(said("14 sc and 16 rnds = 10 cm, unblocked")).toEqual([false, true, false]);
    expect(said("Gauge is not important for this toy")).toEqual([null, null, true]);
  });

  test("each count stands where its span says", () => {
    const text = 'Gauge: 18 hdc and 13 rounds = 10 cm (4")';
    for (const { start, end, text: said } of frontMatterOf(readLines(`${text}\n`)).gaugeLines[0]?.counts ??
      [])
      expect(text.slice(start, end)).toBe(said);
  });
});

function frontOf(line: string) {
  return frontMatterOf(readLines(`Pouch\n\n${line}\n\nRnd 1: 6 sc in mr (6)\n`));
}

describe("stitches that the designer measured", () => {
  test.each([
    ["sc: 4.6 cm", ["sc 46"]],
    ["20 sc unravelled: 92 cm", ["sc 46"]],
    ["Yarn per stitch: sc: 4.6 cm, dc: 9 cm", ["sc 46", "dc 90"]],
    ["1 sc = 1.8 in", ["sc 45.72"]],
    ["Each dc takes 9 cm", ["dc 90"]],
    ["20 dc unravelled = 1.8 m", ["dc 90"]],
    ["half double crochet: 7 cm", ["hdc 70"]],
    ["Gauge: 20 sc = 10 cm", []],
    ["Height: 20 cm", []],
    ["Shell: 5 dc in one st", []],
  ])("%s", (line, expected) => {
    expect(
      frontOf(line).measuredYarn.map(({ word, millimetres }) => `${word} ${Number(millimetres.toFixed(4))}`),
    ).toEqual(expected);
  });

  test.each([
    ["Swatch: 20 sc x 20 rows, 9 g", { word: "sc", stitches: 400, grams: 9, metres: null }],
    ["Swatch of 20 sc and 20 rows weighs 9 g", { word: "sc", stitches: 400, grams: 9, metres: null }],
    ["Swatch: 400 sc weigh 9 g", { word: "sc", stitches: 400, grams: 9, metres: null }],
    ["Swatch 20 sts x 20 rows unravelled: 18.4 m", { word: null, stitches: 400, grams: null, metres: 18.4 }],
  ])("%s", (line, expected) => {
    expect(frontOf(line).swatches).toMatchObject([expected]);
  });

  test.each(["Swatch: 10 cm x 10 cm, 9 g", "Swatch in sc", "Swatch first!"])("%s tells nothing", (line) => {
    expect(frontOf(line).swatches).toEqual([]);
  });
});

describe("labels", () => {
  test.each([
    ["Worsted cotton (50 g / 85 m per ball): 2 balls red", 50, 85],
    ["DK, 100 g = 295 m", 100, 295],
    ["198 g/364 yd", 198, 332.84],
    ["120 m per 50 g ball", 50, 120],
    ["3.5 oz (220 yd)", 99.22, 201.17],
  ])("%s", (text, grams, metres) => {
    const label = readLabel(stretchAt(text, 0));
    expect([label?.grams.toFixed(2), label?.metres.toFixed(2)].map(Number)).toEqual([grams, metres]);
  });

  test.each(["50 g red, 20 g white", "about 200 m", "50 g in tide blue", ""])("%s is none", (text) => {
    expect(readLabel(stretchAt(text, 0))).toBeNull();
  });
});
