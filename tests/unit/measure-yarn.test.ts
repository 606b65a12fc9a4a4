import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { inMetres, rowYarn } from "../../server/src/measure/row-yarn";
import { stitchesOf } from "../../server/src/measure/stitch-counts";
import { pathOf, yarnIn } from "../../server/src/measure/stitch-path";
import { sizeWithHook } from "../../server/src/measure/stitch-size";
import { type YarnUse, yarnUseOf } from "../../server/src/measure/yarn-used";
import { stitchOf, stitchSpellings } from "../../server/src/trade/stitches";
import { Checker } from "../../server/src/workspace/checker";

interface Used {
  readonly use: YarnUse;
  /** Metres of all rows, by head; of the first size. */
  readonly rows: Readonly<Record<string, number | null | undefined>>;
  /** Metres of the pattern in the first size by the name of the yarn. */
  readonly inAll: Readonly<Record<string, number>>;
}

function usedBy(text: string): Used {
  const { worked } = new Checker().work(text);
  const use = yarnUseOf(worked);
  const rows = worked.pieces.flatMap((piece) => piece.rows.map((row) => ({ row, piece })));
  const named = [...(use.inAll[0] ?? [])].map(
    ([key, n]) =>
      [typeof key === "number" ? (use.ground.list.yarns[key]?.name ?? "") : key, n / 1000] as const,
  );
  return {
    use,
    rows: Object.fromEntries(
      rows.map(({ row, piece }) => [row.line.headText, inMetres(rowYarn(row, piece, use), use)?.[0]]),
    ),
    inAll: Object.fromEntries(named),
  };
}

const front = (...lines: string[]) => `Pouch\n\nMaterials\n${lines.join("\n")}\n\n`;
const ball = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnds 3-5: sc around (12)\n";

describe("what the yarn per stitch is worked out from", () => {
  const gauge = "Gauge: 20 sc and 22 rows = 10 cm";
  test.each([
    ["nothing at all", "", null, ""],
    ["the weight of the yarn", "Worsted wool, 100 g", "weight", "Medium"],
    ["the hook", "Worsted wool, 100 g\n5 mm hook", "hook", "5 mm hook"],
    ["the gauge", `Worsted wool, 100 g\n5 mm hook\n\n${gauge}`, "gauge", "20 sc and 22 rows"],
    [
      "a stitch unravelled",
      `Worsted wool, 100 g\n5 mm hook\n20 sc unravelled: 92 cm\n\n${gauge}`,
      "measured",
      "92 cm",
    ],
    ["a swatch weighed", "DK wool, 100 g = 300 m\n4 mm hook\nSwatch: 20 sc x 20 rows, 9 g", "swatch", "9 g"],
    [
      "a swatch weighed without a label: the hook",
      "DK wool\n4 mm hook\nSwatch: 20 sc x 20 rows, 9 g",
      "hook",
      "4 mm",
    ],
  ] as const)("%s", (_, lines, sort, says) => {
    const { use } = usedBy(front(lines) + ball);
    expect(use.ground.basis?.sort ?? null).toBe(sort);
    expect(use.ground.basis?.says ?? "").toContain(says);
  });
});

describe("worked examples", () => {
  /** 110 yd at 1.8 in a stitch: 110 x 36 / 1.8 = 2,200 sc. Arithmetic of the trade's method; the 1.8 in from memory. */
  test("110 yd of worsted at 1.8 in a stitch make 2,200 sc", () => {
    const text = `${front("Worsted wool", "5 mm hook", "1 sc = 1.8 in")}Ch 101.\nRow 1: sc in 2nd ch from hook and in each ch across (100)\nRows 2-22: ch 1, turn, sc across (100)`;
    const { rows } = usedBy(text);
    const own = 2100 * 0.04572 + 21 * yarnOfChain(text);
    expect(rows["Rows 2-22"]).toBeCloseTo(own, 0);
    expect((110 * 36) / 1.8).toBe(2200);
  });

  /** Weight per stitch: 9 g of 400 sc (30 x 10 = 300 in the source), label 295 m per 100 g. Method: sdrta.net/how-much-yarn-to-crochet-a-blanket. */
  test("a weighed swatch: grams per stitch by the label", () => {
    const text = `${front("DK wool, 100 g = 295 m", "4 mm hook", "Swatch: 20 sc x 20 rows, 9 g")}Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnds 3-52: sc around (12)`;
    expect(usedBy(text).rows["Rnds 3-52"]).toBeCloseTo((600 * 9 * 2.95) / 400, 1);
  });

  function yarnOfChain(text: string): number {
    const { use } = usedBy(text);
    const { basis } = use.ground;
    if (!basis) throw new Error("no basis");
    const { across, around } = use.ground.paths.of("ch").path;
    const { width, thickness } = basis.size;
    return (1.16 * (across * width + around * Math.PI * thickness) * basis.scale) / 1000;
  }
});

describe("yarns of rows", () => {
  const two = front("Worsted cotton: 50 g red (A), 20 g white (B)", "5 mm hook");

  test("a heading of several colours: the first begins, unless each piece is made in one of them", () => {
    const listed = front("Worsted wool: 50 g navy, 50 g red, 50 g cream");
    const begun = usedBy(
      `${listed}Body (navy and red)\n${ball}Change to red.\nRnd 6: sc around (12)\n`,
    ).inAll;
    expect(begun.navy).toBeGreaterThan(begun.red ?? 0);
    const shared = usedBy(`${listed}Flag (make 4: 2 in red, 2 in cream)\n${ball}`).inAll;
    expect(Object.keys(shared)).toEqual(["red / cream"]);
  });

  test("a change between rows, in a row and back", () => {
    const { inAll } = usedBy(
      `${two}Body\nWith A:\nRnd 1: 6 sc in mr (6)\nChange to white.\nRnd 2: inc x6 (12)\nRnd 3: sc in next 6 sts, with A sc in next 6 sts (12)`,
    );
    const single = usedBy(`${two}Body\nWith A:\nRnd 1: 6 sc in mr (6)`).inAll["red (A)"] ?? 0;
    const tails = 0.3;
    const each = (single - tails) / 6;
    expect(inAll["red (A)"]).toBeCloseTo(12 * each + tails, 6);
    expect(inAll["white (B)"]).toBeCloseTo(18 * each + tails, 6);
  });

  test("rows that are repeated in turn are repeated in their own yarns", () => {
    const stripes = `${two}Body\nWith A, ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across (10)\nChange to B.\nRow 2: ch 1, turn, sc across (10)\nChange to A.\nRow 3: ch 1, turn, sc across (10)\nRows 4-7: Rep Rows 2 and 3`;
    const { inAll, rows } = usedBy(stripes);
    const row = rows["Row 2"] ?? 0;
    expect(inAll["white (B)"]).toBeCloseTo(3 * row + 3 * 0.3, 1);
  });

  test("a yarn that no list has is told by its name", () => {
    expect(Object.keys(usedBy(`${two}Body\nWith green:\nRnd 1: 6 sc in mr (6)`).inAll)).toEqual(["green"]);
  });

  test("a piece that is made twice takes twice the yarn, its tails too", () => {
    const piece = (heading: string) => usedBy(`${two}${heading}\nWith A:\n${ball}`).inAll["red (A)"] ?? 0;
    expect(piece("Leaf (make 2)")).toBeCloseTo(2 * piece("Leaf"), 9);
  });

  test("yarn held double is counted twice", () => {
    const metres = (text: string) => usedBy(text).rows["Rnd 2"] ?? 0;
    const gauge = "\nGauge: 14 sc and 16 rows = 10 cm\n\n";
    const plain = metres(front("Worsted wool") + gauge + ball);
    const double = metres(front("Worsted wool, held double") + gauge + ball);
    expect(double / plain).toBeGreaterThan(2);
    expect(double / plain).toBeLessThan(2 * Math.SQRT2);
  });
});

describe("every stitch of the trade table", () => {
  const size = sizeWithHook(5, 2.4);
  const yarn = (name: string, uses?: number) => {
    const stitch = stitchOf(name, "US");
    if (!stitch) throw new Error(`no stitch ${name}`);
    return yarnIn(pathOf(stitch, uses ?? stitch.uses), size);
  };

  test("takes yarn, in both terms and in every spelling", () => {
    const words = new Set(stitchSpellings.values());
    expect(words.size).toBeGreaterThan(50);
    for (const word of words)
      for (const terms of ["US", "UK"] as const) {
        const stitch = stitchOf(word, terms);
        if (!stitch) continue;
        const own = yarnIn(pathOf(stitch, stitch.uses), size);
        expect([word, own > 1 && Number.isFinite(own)]).toEqual([word, true]);
      }
  });

  /** Taller stitches take more; what the yarn does more often takes more. Common practice, no source. */
  test("takes more the taller it is, around a post, with its own chain, and less where several share a top", () => {
    const tall = ["sl st", "sc", "hdc", "dc", "tr", "dtr"].map((name) => yarn(name));
    expect(tall).toEqual([...tall].sort((a, b) => a - b));
    for (const name of ["sc", "hdc", "dc", "tr"]) {
      expect(yarn(`${name}2tog`)).toBeLessThan(2 * yarn(name));
      expect(yarn(`${name}2tog`)).toBeGreaterThan(yarn(name));
    }
    expect(yarn("fpdc")).toBeGreaterThan(yarn("dc"));
    expect(yarn("fsc")).toBeCloseTo(yarn("sc") + yarn("ch"), 6);
    expect(yarn("picot")).toBeGreaterThan(3 * yarn("ch"));
    expect(yarn("popcorn")).toBeGreaterThan(yarn("cluster"));
  });
});

describe("chains that hang from a row", () => {
  /** Six chains, and five stitches back along each: counted in the text. */
  test.each([
    ["sl st in 2nd ch from hook, sc in next 4 ch", { ch: 6, "sl st": 1, sc: 5 }],
    ["sl st in 2nd ch from hook and in next 4 ch", { ch: 6, "sl st": 5, sc: 1 }],
    ["sc in 2nd ch from hook and in next 4 ch", { ch: 6, sc: 6 }],
    ["sl st in 3rd ch from hook", { ch: 3, picot: 1, sc: 1 }],
  ] as const)("ch 6, %s", (back, each) => {
    const { worked } = new Checker().work(
      `Rnd 1: 6 sc in mr (6)\nRnd 2: *sc in next st, ch 6, ${back}; rep from * around`,
    );
    const row = worked.pieces[0]?.rows.at(-1);
    const counts = row ? (stitchesOf(row)[0]?.[0]?.get("") ?? new Map()) : new Map();
    expect(Object.fromEntries(counts)).toEqual(
      Object.fromEntries(Object.entries(each).map(([kind, n]) => [kind, 6 * n])),
    );
  });
});

describe("samples", () => {
  const names = readdirSync("samples").filter((name) => name.endsWith(".crochet"));
  test.each(names)("%s: every row takes yarn, and every yarn of the list is used", (name) => {
    const { use, rows, inAll } = usedBy(readFileSync(`samples/${name}`, "utf8"));
    expect(use.ground.basis?.sort).toBe("gauge");
    expect(use.leftOut).toEqual([]);
    // Rows for other sizes than the first take none in that one.
    for (const metres of Object.values(rows)) if (metres !== null) expect(metres).toBeGreaterThan(0);
    expect(Object.keys(inAll).sort()).toEqual(use.ground.list.yarns.map((yarn) => yarn.name).sort());
  });
});

describe("rows that are worked until a length is reached", () => {
  const scarf = (last: string) =>
    `Scarf\n\nMaterials\nWorsted wool\n5 mm hook\n\nGauge: 20 sc and 20 rows = 10 cm\n\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRow 2: Ch 1, turn, sc in each st across. (20)\n${last}\n`;

  test.each([
    ["Rep Row 2 until piece measures 50 cm.", 98],
    ["Rep Row 2 for another 10 cm.", 20],
    ["Rep Row 2 until piece measures 20 in.", 100],
    ["Row 3+: Ch 1, turn, sc in each st across, until it measures 5 cm.", 8],
  ])("%s: %d rows", (last, rows) => {
    const { use, rows: metres, inAll } = usedBy(scarf(last));
    expect(use.leftOut).toEqual([]);
    const all = (inAll[""] ?? 0) - 0.3;
    const one = usedBy(scarf(`Rows 3-${rows + 2}: Ch 1, turn, sc in each st across. (20)`));
    expect(all).toBeCloseTo((one.inAll[""] ?? 0) - 0.3, 6);
    expect(Object.values(metres).at(-1)).toBeGreaterThan(0);
  });

  test("are left out, and told so, where nothing tells how often", () => {
    const { use } = usedBy(scarf("Rep Row 2 until you run out of yarn."));
    expect(use.leftOut.map(({ line }) => line.headText)).toEqual(["Rep Row 2 until you run out of"]);
  });
});
