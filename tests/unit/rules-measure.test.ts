import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { turnedOn } from "../../server/src/workspace/severities";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

/*
 * Rules on yarn, gauge and size. "Yarn per colour per size, plausible", "gauge complete" and "finished size
 * = counts / gauge" are lines of the usual technical editor's checklist; the texts are invented.
 */

const square = (rows: number, sts: number) =>
  `Ch ${sts + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across. (${sts})\nRows 2-${rows}: Ch 1, turn, sc in each st across. (${sts})\nFasten off.\n`;
const front = (yarn: string, rest = "") =>
  `Terms: US\n${rest}\nMaterials\n${yarn}\n4 mm hook\n\nGauge: 20 sc and 22 rows = 10 cm\n\n`;

describe("too-little-yarn", () => {
  test("tells what is listed, what is needed, and what to list; the fix is enough", () => {
    const text = front("DK cotton, 50 g / 125 m: 50 g") + square(80, 100);
    const { on, message } = onlyFinding("too-little-yarn", text);
    expect(on).toBe("50 g");
    expect(message).toMatch(
      /^The materials list 50 g; the rows take about [\d–,]+ m, which is more\. This is by the gauge, 20 sc and 22 rows = 10 cm\. List \d+ g, with 15 % to spare\.$/,
    );
    expectClean(mended("too-little-yarn", text));
  });

  test("goes by the designer's own measure: 8,000 sc at 4.6 cm are 368 m", () => {
    const own = (grams: number) =>
      front(`DK cotton, 100 g / 200 m: ${grams} g\n20 sc unravelled: 92 cm`) + square(80, 100);
    expect(foundBy("too-little-yarn", own(170))).toHaveLength(1);
    expect(foundBy("too-little-yarn", own(195))).toEqual([]);
  });

  test("tells each yarn and each size apart", () => {
    const yarns = front("DK cotton, 50 g / 125 m: 200 g red (A), 5 g blue (B)");
    const [, second = ""] = square(80, 100).split("Rows 2");
    const text = `${yarns}With A, ${square(1, 100)
      .replace(/Rows.*\n.*\n/, "")
      .replace("Ch", "ch")}Change to B.\nRows 2${second}`;
    expect(onlyFinding("too-little-yarn", text).on).toBe("5 g");
    const sizes = `${front("DK cotton, 50 g / 125 m: 200 (5) g", "Sizes: S (L)\n")}Ch 101 (201).\nRow 1: Sc in 2nd ch from hook and in each ch across. (100 (200))\nRows 2-40: Ch 1, turn, sc in each st across. 100 (200) sc.\nFasten off.\n`;
    const { message } = onlyFinding("too-little-yarn", sizes);
    expect(message).toContain("The materials list 5 g for size L");
  });

  test.each([
    ["the list may do", front("DK cotton, 50 g / 125 m: 150 g") + square(80, 100)],
    ["nothing tells how long 50 g are", front("Cotton: 50 g") + square(80, 100)],
    [
      "the yarn of one square is enough for one",
      `${front("DK cotton, for each square: 20 g")}Square (make 40)\n${square(20, 20)}`,
    ],
    ["nothing is listed", front("DK cotton") + square(80, 100)],
  ])("is quiet where %s", (_, text) => {
    expect(foundBy("too-little-yarn", text)).toEqual([]);
  });
});

describe("too-much-yarn", () => {
  test("more than a whole ball too much, and the fix", () => {
    const text = front("DK cotton, 50 g / 125 m: 4 balls") + square(20, 20);
    const { on, severity } = onlyFinding("too-much-yarn", text);
    expect([on, severity]).toEqual(["4 balls", "information"]);
    const after = mended("too-much-yarn", text);
    expect(after).toContain("125 m: 1 ball\n");
    expectClean(after);
  });

  test("each size by its own amount; one amount for all by the size that takes most", () => {
    const sized = (amount: string) =>
      `${front(`DK cotton, 50 g / 125 m: ${amount}`, "Sizes: S (L)\n")}Ch 21 (101).\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 (100))\nRows 2-60: Ch 1, turn, sc in each st across. 20 (100) sc.\nFasten off.\n`;
    expect(onlyFinding("too-much-yarn", sized("4 (4) balls")).message).toContain("4 balls for size S");
    expect(foundBy("too-much-yarn", sized("1 (4) balls"))).toEqual([]);
    expect(foundBy("too-much-yarn", sized("4 balls"))).toEqual([]);
    expect(onlyFinding("too-much-yarn", sized("9 balls")).message).toContain("9 balls for size L");
  });

  test.each([
    [
      "oddments: double of little is less than a ball",
      front("DK cotton, 50 g / 125 m: 20 g") + square(10, 10),
    ],
    ["no label tells what a ball holds", front("DK cotton: 400 g") + square(20, 20)],
    [
      "a row is not known",
      `${front("DK cotton, 50 g / 125 m: 4 balls")}${square(20, 20)}Row 21: Zigzag across.\n`,
    ],
  ])("is quiet where %s", (_, text) => {
    expect(foundBy("too-much-yarn", text)).toEqual([]);
  });
});

describe("incomplete-gauge", () => {
  const at = (gauge: string, rest = "") => `Terms: US\n${rest}\nGauge: ${gauge}\n\n${square(20, 20)}`;
  const wide = "Finished size: 10 cm across\n";
  test.each([
    ["24 sc", "24 sc", 'it does not say over which length "24 sc" lie'],
    ["0 sc = 4 in", "0 sc", '"0 sc" cannot be'],
    ["900 sts to the inch", "900 sts", '"900 sts" over 1 in cannot be'],
    ["4 in of nothing", "4 in of nothing", "it counts no stitches"],
    ["13 rows = 4 in", "13 rows = 4 in", "it tells rows only"],
    ["3 pattern repeats = 4 in", "3 pattern repeats", "nothing says how many stitches a repeat has"],
  ])("%s", (gauge, on, says) => {
    const found = onlyFinding("incomplete-gauge", at(gauge, wide));
    expect(found.on).toBe(on);
    expect(found.message).toContain(says);
  });

  test("a length is missed only where a size or an amount depends on it; what cannot be is told anyway", () => {
    expect(foundBy("incomplete-gauge", at("24 sc"))).toEqual([]);
    expect(foundBy("incomplete-gauge", at("24 sc", "Sizes: S (M)\n"))).toHaveLength(1);
    expect(foundBy("incomplete-gauge", at("24 sc", "\nMaterials\nDK cotton: 50 g\n"))).toHaveLength(1);
    expect(foundBy("incomplete-gauge", at("900 sts to the inch"))).toHaveLength(1);
  });

  test("the stitch is missed only where pieces in stitches of other heights depend on it", () => {
    const other = (stitch: string, gauge: string, size: string) =>
      `Terms: US\n${size}\n\nGauge: ${gauge}\n\nBody\n${square(20, 20)}\nSleeve\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRows 2-20: Ch 1, turn, ${stitch} in each st across. (20)\nFasten off.\n`;
    const height = "Height: 9 cm";
    expect(onlyFinding("incomplete-gauge", other("dc", "20 sts and 22 rows = 10 cm", height)).message).toBe(
      "The gauge is not complete: it does not say in which stitch, and the pieces are worked in sc and dc. Add the stitch, as in: 20 sc and 22 rows = 10 cm.",
    );
    for (const [stitch, gauge, size] of [
      ["sc", "20 sts and 22 rows = 10 cm", height],
      ["dc", "20 sc and 22 rows = 10 cm", height],
      ["dc", "20 sts and 22 rows = 10 cm in pattern", height],
      ["dc", "20 sts and 22 rows = 10 cm", "Finished size: 10 cm across"],
    ] as const)
      expect(foundBy("incomplete-gauge", other(stitch, gauge, size))).toEqual([]);
  });

  test("rows are missed only where a height is stated", () => {
    expect(foundBy("incomplete-gauge", at("20 sc = 10 cm"))).toEqual([]);
    expect(foundBy("incomplete-gauge", at("20 sc = 10 cm", "Finished size: 10 cm across\n"))).toEqual([]);
    expect(foundBy("incomplete-gauge", at("20 sc = 10 cm", "Height: 9 cm\n"))).toHaveLength(1);
  });

  test.each([
    "Not important for this project.",
    "Gauge does not matter.",
    "18 sc and 20 rows = 10 cm",
    "Rnds 1 and 2 measure 7 cm across",
    "4 x 4 in = 14 sc and 16 rows",
    "5 sts to the inch",
    "one square measures 12 cm",
  ])("is quiet at: %s", (gauge) => {
    expect(foundBy("incomplete-gauge", at(gauge))).toEqual([]);
  });
});

describe("size-differs", () => {
  const sized = (size: string, body: string) =>
    `Terms: US\n${size}\n\nGauge: 20 sc and 22 rows = 10 cm\n\n${body}`;
  test.each([
    ["25 cm x 20 cm", "25 cm", "25 cm (9¾ in) wide; at the stated gauge the stitches come to 20 cm (7¾ in)"],
    ["20 cm x 30 cm", "30 cm", "30 cm (11¾ in) high; at the stated gauge the stitches come to 20 cm (7¾ in)"],
  ])("%s for 40 stitches and 44 rows", (size, on, says) => {
    const found = onlyFinding("size-differs", sized(`Finished size: ${size}`, square(44, 40)));
    expect(found.on).toBe(on);
    expect(found.message).toContain(says);
  });

  test.each([
    ["it agrees", "Finished size: 20 cm x 20 cm", square(44, 40)],
    ["it is told the other way round", "Finished size: 20 cm x 30 cm", square(66, 40)],
    ["it is blocked", "Finished size: 25 cm x 20 cm, blocked", square(44, 40)],
    ["a body is told, not the piece", "To fit: 25 cm x 20 cm", square(44, 40)],
    ["the draft is not done", "Finished size: 25 cm x 20 cm", square(44, 40).replace("Fasten off.\n", "")],
    [
      "it is ribbed",
      "Finished size: 25 cm x 20 cm",
      `${square(44, 40).replace("Fasten off.\n", "")}Row 45: ch 1, turn, *fpsc around next st, bpsc around next st; rep from * across (40)\nFasten off.\n`,
    ],
  ])("is quiet where %s", (_, size, body) => {
    expect(foundBy("size-differs", sized(size, body))).toEqual([]);
  });

  /** 60 stitches at 6 to the inch are 10 in around and lie 5 in flat: arithmetic of the trade, no source. */
  test("a tube of 60 stitches at 6 to the inch is 10 in around", () => {
    const tube = (size: string) =>
      `Terms: US\nFinished circumference: ${size}\n\nGauge: 6 sc and 7 rounds = 1 in\n\nCh 60, join to form a ring.\nRnd 1: Sc in each ch around. (60)\nRnds 2-20: Sc in each st around. (60)\nFasten off.\n`;
    expect(foundBy("size-differs", tube("10 in"))).toEqual([]);
    expect(onlyFinding("size-differs", tube("14 in")).message).toContain("25.5 cm (10 in)");
  });
});

describe("does-not-lie-flat", () => {
  const disc = (start: number, name = "Mat") =>
    `Terms: US\n\nGauge: 13 dc and 8 rounds = 10 cm\n\n${name}\nRnd 1: ${start} dc in magic ring (${start})\n${[2, 3, 4, 5].map((n) => `Rnd ${n}: *${n > 2 ? `dc in next ${n - 2} sts, ` : ""}2 dc in next st; rep from * around (${n * start})`).join("\n")}\nFasten off.\n`;
  const quiet = (text: string) => new Checker().check(text).quietFindings ?? [];

  test("is off until it is turned on, and then as loud as it is set", () => {
    const report = new Checker().check(disc(6));
    expect(report.findings.map(({ rule }) => rule)).not.toContain("does-not-lie-flat");
    expect(turnedOn(report, new Map())).toEqual([]);
    expect(turnedOn(report, new Map([["does-not-lie-flat", "warning"]]))).toMatchObject([
      { severity: "warning" },
    ]);
  });

  test("tells which way, and what would lie flat", () => {
    expect(quiet(disc(6)).map(({ message }) => message)).toEqual([
      "Rnd 5 would cup: it has 30 stitches, and at the stated gauge about 51 lie flat. Begin with about 10 and add as many in each round.",
    ]);
    expect(quiet(disc(16)).map(({ message }) => message)).toEqual([
      expect.stringContaining("Rnd 5 would ruffle"),
    ]);
  });

  test("is quiet where it lies flat, and where a cup or a frill is meant", () => {
    const bag = disc(16).replace("Fasten off.", "Rnds 6-9: dc in each st around (80)\nFasten off.");
    for (const text of [disc(10), disc(12), disc(6, "Flower"), disc(16, "Ruffle"), bag])
      expect(quiet(text)).toEqual([]);
  });

  test("a remark that answers it is not idle while it is off", () => {
    const text = disc(6).replace("(30)", "(30) [as meant: does-not-lie-flat]");
    const { findings, quietFindings } = new Checker().check(text);
    expect([...findings, ...(quietFindings ?? [])]).toEqual([]);
  });
});
