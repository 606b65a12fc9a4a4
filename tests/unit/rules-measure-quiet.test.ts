import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { yarnListOf } from "../../server/src/measure/yarn-list";
import { frontMatterOf } from "../../server/src/notation/front-matter/front-matter";
import { Checker } from "../../server/src/workspace/checker";

/* Right patterns, of which no rule on yarn, gauge or size may say anything. */

const rules = new Set(["too-little-yarn", "too-much-yarn", "incomplete-gauge", "size-differs"]);

function told(text: string): string[] {
  return new Checker()
    .check(text)
    .findings.flatMap(({ rule, message }) => (rules.has(rule) ? [`${rule}: ${message}`] : []));
}

const pattern = (front: string, body: string) => `Item\n\nTerms: US\n${front}\n\n${body}\nFasten off.\n`;
const rows = (chain: number, sts: number, last: number, first: string, next: string) =>
  `Ch ${chain}.\nRow 1: ${first} (${sts})\nRow 2: ${next} (${sts})\nRows 3-${last}: Rep Row 2. (${sts})`;
const sc = (sts: number, last: number) =>
  rows(
    sts + 1,
    sts,
    last,
    "Sc in 2nd ch from hook and in each ch across.",
    "Ch 1, turn, sc in each st across.",
  );
const dc = (sts: number, last: number) =>
  rows(
    sts + 2,
    sts,
    last,
    "Dc in 4th ch from hook and in each ch across.",
    `Ch 3 (counts as dc), turn, sk first st, dc in next ${sts - 1} sts.`,
  );
const front = (size: string, yarn: string, hook: string, gauge: string) =>
  `${size}\n\nMaterials\n${yarn}\n${hook} hook\n\nGauge: ${gauge}`;

describe("published items with the yarn, size and gauge that they state (sources in tests/yarn/published.ts)", () => {
  test.each([
    [
      "W04: sc and dc in turn, gauge in pattern",
      front(
        "Finished size: 52 x 54 in",
        "Super bulky plush, 250 g / 146 yd: 13 balls",
        "10 mm",
        "8 sts and 7.5 rows = 4 in in pattern",
      ),
      rows(
        106,
        105,
        94,
        "Sc in 2nd ch from hook and in each ch across.",
        "Ch 1, turn, sc in first st, *dc in next st, sc in next st; rep from * across.",
      ),
    ],
    [
      "W21: treble",
      front("", "Bulky alpaca, 100 g / 155 yd: 13 balls", "6.5 mm", "10 tr and 4 rows = 4 in"),
      rows(
        69,
        66,
        96,
        "Tr in 5th ch from hook and in each ch across.",
        "Ch 4 (counts as tr), turn, sk first st, tr in next 65 sts.",
      ),
    ],
    [
      "W23: dc with a large hook",
      front(
        "Finished size: 40 x 44 in",
        "Bulky yarn, 140 g / 155 yd: 9 balls",
        "8 mm",
        "11 dc and 6 rows = 4 in",
      ),
      dc(102, 66),
    ],
    [
      "W24: a long scarf of dc",
      front(
        "Finished size: 16.5 x 100 in",
        "Worsted acrylic, 170 g / 315 yd: 4 balls",
        "5 mm",
        "13 dc and 8 rows = 4 in",
      ),
      dc(52, 200),
    ],
    [
      "W28: gauge in pattern, worked side to side",
      front(
        "Finished size: 48 x 54 in",
        "Worsted acrylic, 113 g / 208 yd: 12 balls",
        "5 mm",
        "13 sts and 12 rows = 4 in in pattern",
      ),
      rows(
        167,
        166,
        144,
        "Sc in 2nd ch from hook and in each ch across.",
        "Ch 1, turn, *sc in next st, hdc in next st; rep from * across.",
      ),
    ],
  ])("%s", (_, head, body) => {
    expect(told(pattern(head, body))).toEqual([]);
  });
});

describe("gauges that makers can work to (forms of the trade, common practice, no source)", () => {
  test.each([
    "Rnds 1-3 = 3½ in",
    'first 3 rnds = 4"',
    "Rnds 1 and 2 measure 7 cm across",
    "4 groups and 8 rows = 10 cm",
    "One ripple measures 7 cm across",
    "one square = 14 cm",
    "16 sc/4 in.",
    "Ten stitches and twelve rows = 2 inches",
    "4 sts per inch",
    "5 V-sts = 4 in",
    "16 stitches and 20 rows over 10cm (4in) using 4mm hook in double crochet",
    "20 sts x 24 rows = 4 in (10 cm) square in pattern after blocking",
    "sc: 18 sts and 20 rows = 10 cm; dc: 16 sts and 9 rows = 10 cm",
    "Approx. 12-13 sts and 14 rows to 4 inches",
    "not important, but the fabric should be tight",
  ])("%s", (gauge) => {
    expect(
      told(pattern(front("Finished size: 30 cm long", "DK cotton: 50 g", "4 mm", gauge), sc(30, 20))),
    ).toEqual([]);
  });
});

test("the length of a cord is told by its stitches, whatever the rows", () => {
  const cord = "Ch 121.\nRow 1: Sl st in 2nd ch from hook and in each ch across. (120)";
  expect(
    told(pattern(front("Length: 100 cm", "Cotton cord 3 mm thick", "6 mm", "12 ch = 10 cm"), cord)),
  ).toEqual([]);
});

describe("a gauge in two stitches", () => {
  const both = "sc: 18 sts and 20 rows = 10 cm; dc: 16 sts and 8 rows = 10 cm";
  test.each([
    ["sc", "Finished size: 20 cm x 20 cm", sc(36, 40)],
    ["dc", "Finished size: 20 cm x 20 cm", dc(32, 16)],
  ])("that of the stitch that the pattern is worked in, %s, tells its size", (_, size, body) => {
    expect(told(pattern(front(size, "DK cotton", "4 mm", both), body))).toEqual([]);
  });
});

describe("amounts as lists of materials have them", () => {
  const listed = (yarn: string) => {
    const { worked } = new Checker().work(
      `Top\n\nSizes: S (M, L)\n\nMaterials\n${yarn}\n4 mm hook\n\nRnd 1: 6 sc in mr (6)\n`,
    );
    return yarnListOf(frontMatterOf(worked.lines)).yarns.flatMap(({ amounts }) =>
      amounts.map(
        ({ values, unit, ballGrams }) =>
          `${values.join("/")} ${unit}${ballGrams === null ? "" : ` of ${ballGrams} g`}`,
      ),
    );
  };

  test.each([
    ["DK cotton, 3 [4: 4] x 50g balls in shade Lagoon", ["3/4/4 ball of 50 g"]],
    ["DK cotton: 3 (4, 4) x 50 g balls", ["3/4/4 ball of 50 g"]],
    ["Aran: 4 (5, 6) 50g balls", ["4/5/6 ball of 50 g"]],
    ["8 (9, 10) × 50 g DK cotton", ["8/9/10 ball of 50 g", "50 g"]],
    ["5 x 50g/125m DK", ["5 ball of 50 g"]],
    ["DK linen: 2 (50 g) balls", ["2 ball of 50 g"]],
    ["4 balls DK, 50 g each", ["4 ball"]],
    ["DK cotton (50g balls): 3 (4, 4)", []],
    ["200 g DK (4 x 50 g balls)", ["200 g", "4 ball of 50 g"]],
    ["DK cotton, 400 (450, 500) g", ["400/450/500 g"]],
  ])("%s", (yarn, amounts) => {
    expect(listed(yarn)).toEqual(amounts);
  });

  test.each([
    "3 x 50 g balls of DK cotton",
    "3 balls (50 g) of DK cotton",
    "DK cotton, 3 x 50g/125m",
    "3 50 g balls of DK cotton",
    "DK cotton: 3 (50 g) balls",
  ])("%s is no 50 g", (yarn) => {
    expect(told(pattern(front("", yarn, "4 mm", "20 sc and 22 rows = 10 cm"), sc(100, 60)))).toEqual([]);
  });
});

describe("held-out patterns", () => {
  const folders = ["first-contact", "garments", "lace", "motifs", "toys"];
  test.each(folders)("%s: nothing is told of yarn, gauge or size", (folder) => {
    const path = join("tests/held-out", folder);
    const files = readdirSync(path).filter((name) => name.endsWith(".crochet"));
    expect(files.length).toBeGreaterThan(5);
    for (const name of files) expect([name, ...told(readFileSync(join(path, name), "utf8"))]).toEqual([name]);
  });
});
