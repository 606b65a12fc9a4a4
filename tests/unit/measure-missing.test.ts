import { describe, expect, test } from "vitest";
import { type Materials, materialsOf, usualOptions } from "../../server/src/measure/materials";
import { Checker } from "../../server/src/workspace/checker";

/* Nonsense and gaps in what a pattern is measured by: what is missing is said, and the rest goes on. Invented. */

function measured(materials: string, gauge: string, size = ""): Materials {
  const text = `Mat\n\nTerms: US\n${size}\nMaterials\n${materials}\n\n${gauge}\n\nMat\nWith red, ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRows 2-20: Ch 1, turn, sc in each st across. (20)\nFasten off.\n`;
  return materialsOf(new Checker().work(text).worked, usualOptions);
}

const usual = "DK cotton, 50 g / 125 m: 50 g red\n4 mm hook";
const gauge = "Gauge: 20 sc and 22 rows = 10 cm";
const hook = "the usual stitch of a 4 mm hook was taken instead";

describe("what is missing is said, with what was taken instead", () => {
  test.each([
    ["no stitches", usual, "Gauge: 0 sts = 4 in", `The gauge: "0 sts" cannot be; ${hook}.`],
    ["a length of nothing", usual, "Gauge: 4 in of nothing", `The gauge: it counts no stitches; ${hook}.`],
    ["too many", usual, "Gauge: 900 sts to the inch", `The gauge: "900 sts" over 1 in cannot be; ${hook}.`],
    [
      "no length",
      usual,
      "Gauge: 24 sc",
      `The gauge: it does not say over which length "24 sc" lie; ${hook}.`,
    ],
    [
      "no rows",
      usual,
      "Gauge: 20 sc = 10 cm",
      "The gauge: it tells no rows; rows were taken as high as usual.",
    ],
    [
      "no gauge",
      usual,
      "",
      "The pattern gives no gauge: sizes go by the usual stitch of a 4 mm hook, and may well be others.",
    ],
    [
      "lengths that differ",
      usual,
      "Gauge: 20 sc and 22 rows = 4 cm (10 in)",
      "The gauge says 4 cm and 10 in, which differ: 4 cm was taken.",
    ],
    [
      "a label without a length",
      "DK cotton, 50 g balls: 2 balls red\n4 mm hook",
      gauge,
      "No label tells how long a ball of red is: grams are by what such yarn usually weighs, and balls cannot be told. Write it as in: 50 g / 125 m.",
    ],
    [
      "a label of no weight",
      "Cotton, 0 g / 125 m: 2 balls red\n4 mm hook",
      gauge,
      "No label tells how long a ball of red is: grams and balls cannot be told. Write it as in: 50 g / 125 m.",
    ],
    [
      "colours never weighed",
      "DK cotton, 50 g / 125 m: red, blue\n4 mm hook",
      gauge,
      "The list of materials says no amount of red or blue.",
    ],
    [
      "a swatch weighed, without a label",
      "Cotton: 50 g red\n4 mm hook\nSwatch: 20 sc x 20 rows, 9 g",
      gauge,
      "Your swatch is weighed, and no label tells how many metres that is: it was left aside. Write the label with the yarn: 50 g / 125 m.",
    ],
    [
      "a stitch of no yarn",
      `${usual}\nsc: 0 cm`,
      gauge,
      '"sc: 0 cm" cannot be the yarn of a stitch here, and was left aside. Look whether a figure or a unit is mistyped.',
    ],
    [
      "metres for centimetres",
      `${usual}\n20 sc unravelled: 92 m`,
      gauge,
      '"20 sc unravelled: 92 m" cannot be the yarn of a stitch here, and was left aside. Look whether a figure or a unit is mistyped.',
    ],
  ])("%s", (_, materials, line, note) => {
    const { notes, yarns, pieces } = measured(materials, line);
    expect(notes).toContain(note);
    expect(yarns[0]?.amounts[0]?.metres.likely).toBeGreaterThan(0);
    expect(pieces[0]?.lengths[0]?.width).toBeGreaterThan(0);
  });

  test("two units in one line are understood: 5 to the inch and 22 to 10 cm", () => {
    const mixed = measured(usual, "Gauge: 5 sc per inch and 22 rows = 10 cm").pieces[0]?.lengths[0];
    expect(mixed?.width).toBeCloseTo((20 / 5) * 2.54, 1);
    expect(mixed?.height).toBeCloseTo(200 / 22, 1);
  });

  test("nothing is said where nothing is missing", () => {
    expect(measured(`${usual}\n20 sc unravelled: 72 cm`, gauge).notes).toEqual([]);
  });
});

describe("how sure a measured stitch makes it", () => {
  const spread = (materials: string) => {
    const amount = measured(`${usual}\n${materials}`, gauge).yarns[0]?.amounts[0]?.metres;
    return (amount?.high ?? 0) / (amount?.likely ?? 1);
  };

  test("its own stitch without a range, others scaled by it within a tenth", () => {
    expect(spread("20 sc unravelled: 72 cm")).toBe(1);
    expect(spread("20 dc unravelled: 160 cm")).toBeGreaterThan(1);
    expect(spread("20 dc unravelled: 160 cm")).toBeLessThan(spread(""));
  });
});
