import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type Materials, materialsOf, usualOptions } from "../../server/src/measure/materials";
import { Checker } from "../../server/src/workspace/checker";

/* Strands held together, seams, edgings, and rows of which only the count is known. The patterns are invented. */

const front = (...lines: string[]) =>
  `Mat\n\nTerms: US\n\nMaterials\nWorsted wool: 50 g red (A), 50 g blue (B)\n5 mm hook\n\nGauge: 16 sc and 18 rows = 10 cm\n\n${lines.join("\n")}\n`;
const body = (taken: string) =>
  `Body\n${taken}, ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRows 2-20: Ch 1, turn, sc in each st across. (20)\nFasten off.\n`;

function measured(text: string): Materials {
  return materialsOf(new Checker().work(text).worked, usualOptions);
}

/** Metres of each yarn, by name. */
function metresIn(text: string): Readonly<Record<string, number>> {
  return Object.fromEntries(
    measured(text).yarns.map(({ name, amounts }) => [name, amounts[0]?.metres.likely ?? 0]),
  );
}

describe("strands held together", () => {
  const single = metresIn(front() + body("With A"))["red (A)"] ?? 0;

  test.each([
    ["With A and B held together", { "red (A)": 1, "blue (B)": 1 }],
    ["With one strand of A and one strand of B held together", { "red (A)": 1, "blue (B)": 1 }],
    ["With two strands of A held together", { "red (A)": 2 }],
    ["With A held double", { "red (A)": 2 }],
    ["With a single strand of A", { "red (A)": 1 }],
  ] as const)("%s", (taken, times) => {
    const found = metresIn(front() + body(taken));
    expect(Object.keys(found)).toEqual(Object.keys(times));
    for (const [name, n] of Object.entries(times)) expect((found[name] ?? 0) / single / n).toBeCloseTo(1, 1);
  });

  test("a strand each throughout: both yarns, as much of one as of the other", () => {
    const found = metresIn(
      front("Notes", "Work with one strand each of A and B held together throughout.", "") + body("With A"),
    );
    expect(found["red (A)"]).toBe(found["blue (B)"]);
    // Two strands are thicker: a little more than one strand takes.
    expect((found["red (A)"] ?? 0) / single).toBeGreaterThan(1);
    expect((found["red (A)"] ?? 0) / single).toBeLessThan(1.3);
  });
});

describe("a yarn that is not in use", () => {
  const twoColours =
    "Body\nWith A, ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRows 2-20: Ch 1, turn, with A sc in next 10 sts, with B sc in next 10 sts. (20)\nFasten off.\n";
  const blue = (note: string) => metresIn(front("Notes", note, "") + twoColours)["blue (B)"] ?? 0;
  const cut = blue("Cut the yarn.");

  test("lies behind the stitches of the other where it is carried", () => {
    expect(blue("Carry the unused yarn inside the stitches.")).toBeGreaterThan(cut);
    expect(blue("Work over the unused yarn.")).toBeGreaterThan(cut);
  });

  test("does not where it is cut, or carried up the side", () => {
    expect(blue("Do not carry the yarn across the back.")).toBe(cut);
    expect(blue("Carry the yarn loosely up the side.")).toBe(cut);
  });
});

describe("rows of which only the count is known", () => {
  const neck = (count: string) =>
    `${front()}Band\nWith A, join with sl st at the left shoulder.\nRnd 1: Ch 1, zigzag over the shoulder and back, join.${count}\nFasten off.\n`;

  test("are measured by it, and it is said", () => {
    const { yarns, notes } = measured(neck(" (56 sc)"));
    const each = measured(front() + body("With A")).yarns[0]?.amounts[0]?.metres.likely ?? 0;
    expect((yarns[0]?.amounts[0]?.metres.likely ?? 0) / (each * (56 / 420))).toBeCloseTo(1, 0);
    expect(notes).toContain("By their stated count only, since they are not checked: Rnd 1.");
  });

  test("are left out, with their name, where nothing counts them", () => {
    const { notes } = measured(`${front()}Band\nWith A:\nRnd 1: Zigzag all over the place.\n`);
    expect(notes.join()).toContain("Not in these figures, since nothing tells their stitches: Rnd 1.");
  });
});

describe("edgings", () => {
  /** The outline of 20 stitches and 20 rows, in stitches: 2 x (20 + 20 x 16 / 18) = 75.6. Arithmetic. */
  test("worked evenly around are as many stitches as fit the outline", () => {
    const { finishing } = measured(
      `${front()}${body("With A")}\nEdging\nWith B:\nRnd 1: Sc evenly around the whole piece.\n`,
    );
    expect(finishing).toMatchObject([{ what: "Rnd 1, about 76 sts evenly along the edge" }]);
    expect(finishing[0]?.metres[0]?.likely).toBeGreaterThan(3);
  });

  test("of a part of the edge are not guessed", () => {
    const text = `${front()}${body("With A")}\nNeck edging\nRnd 1: Sc evenly around the neck.\n`;
    expect(measured(text).finishing).toEqual([]);
  });
});

describe("seams", () => {
  const finishing = (text: string) => measured(text).finishing.map(({ what }) => what);

  test("of a grid of squares: 4 rows of 3 have 8 seams across and 9 along", () => {
    const square = readFileSync("samples/tide-pool-square.crochet", "utf8");
    expect(finishing(square)).toEqual(["17 seams between 12 pieces of Square"]);
    expect(finishing(square.replace("4 rows of 3", "2 rows of 6"))).toEqual([
      "16 seams between 12 pieces of Square",
    ]);
  });

  test("of a garment: the sides less what is left open, the shoulders by their stitches", () => {
    const panel = (name: string) => `${name}\n${body("With A").replace("Body\n", "")}\n`;
    const vest = (how: string) => `${front()}${panel("Back")}${panel("Front")}Finishing\n${how}\n`;
    const metres = (how: string) => measured(vest(how)).finishing[0]?.metres[0]?.likely ?? 0;
    expect(finishing(vest("Sew the shoulder seams over 8 sts each. Sew the side seams."))).toEqual([
      "shoulder seams",
      "side seams",
    ]);
    // Shoulders of 8 stitches: 2 x 5 cm; sides of 20 rows: 2 x 11.1 cm.
    expect(metres("Sew the shoulder seams over 8 sts each.") / metres("Sew the side seams.")).toBeCloseTo(
      0.45,
      1,
    );
    expect(metres("Sew the side seams, leaving 6 cm open.")).toBeLessThan(metres("Sew the side seams."));
  });

  test("with a tail of told length take nothing more; what nothing tells is named", () => {
    const ear = (tail: string) =>
      `${front()}Ear (make 2)\nWith A:\nRnd 1: 6 sc in magic ring (6)\nRnds 2-4: sc in each st around (6)\nFasten off${tail}.\n\nBody\nWith A:\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x6 (12)\nFasten off.\n\nAssembly\nSew the ears to the body.\n`;
    expect(finishing(ear(", leaving a 20 cm tail"))).toEqual([]);
    expect(finishing(ear(""))).toEqual(["2 of Ear sewn on"]);
    expect(measured(ear("").replace("the ears to the body", "everything together")).finishing).toEqual([
      { what: "Sew everything together", metres: [null] },
    ]);
  });
});

describe("parts that are made as another one", () => {
  const panel = (name: string, how: string) => `${name}\n${how}\n`;
  const rows = body("With A").replace("Body\n", "");
  const cardigan = (right: string) =>
    `${front("To fit bust: 20 cm", "")}${panel("Back", rows)}\n${panel("Left Front", rows)}\nRight Front\n${right}\n`;
  const metres = (right: string) => measured(cardigan(right)).yarns[0]?.amounts[0]?.metres.likely ?? 0;
  const alone = metres("To be written.");

  test.each([
    "Work as for Left Front.",
    "Make the same as Left Front, reversing shapings.",
    "As left front.",
  ])("%s", (right) => {
    // Three panels for two.
    expect(metres(right) / alone).toBeCloseTo(1.5, 1);
    expect(measured(cardigan(right)).pieces.map(({ make }) => make)).toEqual([1, 2]);
  });

  test("half of it is half as much, and of another that is not there nothing", () => {
    expect(metres("Work as for Left Front to Row 10.") / alone).toBeCloseTo(1.25, 1);
    expect(metres("Work as for the pocket.")).toBe(alone);
  });

  test("a front that is missing is no ease", () => {
    const said = (right: string) => measured(cardigan(right)).notes.filter((note) => note.startsWith("Ease"));
    expect(said("To be written.")).toEqual([]);
    // Three panels of 20 stitches at 16 to 10 cm.
    expect(said("Work as for Left Front.")).toEqual([
      "Ease, back and front together less the body it is to fit: +17.5 cm.",
    ]);
  });

  test("two seams in one sentence are two", () => {
    const text = `${cardigan("Work as for Left Front.")}\nFinishing\nSew side and sleeve seams.\n`;
    expect(measured(text).finishing.map(({ what }) => what)).toEqual(["side seams", "sleeve seams"]);
  });
});
