import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { estimateOf, rounded } from "../../server/src/measure/figures";
import { materialsOf, usualOptions } from "../../server/src/measure/materials";
import { rowYarn, sumOf } from "../../server/src/measure/row-yarn";
import { yarnUseOf } from "../../server/src/measure/yarn-used";
import { Checker } from "../../server/src/workspace/checker";
import { anyText, corpus } from "./pattern-texts";

/* Laws of yarn, size and time that hold for every pattern; common sense of the trade, no source. */

function yarnOf(text: string): number {
  const { worked } = new Checker().work(text);
  return yarnUseOf(worked).inAll.reduce((sum, sums) => sum + sumOf(sums), 0);
}

const front = (gauge: string) =>
  `Mat\n\nMaterials\nWorsted wool: 50 g red (A), 50 g blue (B)\n5 mm hook\n\nGauge: ${gauge}\n\n`;
const usual = front("16 sc and 18 rows = 10 cm");
const stitch = fc.constantFrom("sc", "hdc", "dc", "tr", "fpdc");
const flat = (n: number, rows: number, kind: string) =>
  `Body\nWith A, ch ${n + 1}.\nRow 1: sc in 2nd ch from hook and in each ch across (${n})\nRows 2-${rows + 1}: ch 1, turn, ${kind} in each st across (${n})`;

const dims = [fc.integer({ min: 1, max: 200 }), fc.integer({ min: 1, max: 200 }), stitch] as const;

describe("yarn", () => {
  test("adds up over rows and tails", () => {
    fc.assert(
      fc.property(...dims, (n, rows, kind) => {
        const { worked } = new Checker().work(usual + flat(n, rows, kind));
        const use = yarnUseOf(worked);
        const [piece] = worked.pieces;
        if (!piece) throw new Error("no piece");
        const sum = piece.rows.reduce((all, row) => all + (rowYarn(row, piece, use)[0] ?? 0), 0);
        expect(sumOf(use.ofPiece(piece)[0] ?? new Map())).toBeCloseTo(sum + 300, 6);
      }),
      { numRuns: 40 },
    );
  });

  test("adds up over yarns: a change of yarn adds two tails and nothing else", () => {
    fc.assert(
      fc.property(...dims, (n, rows, kind) => {
        const plain = flat(n, rows, kind);
        const striped = plain.replace("\nRows 2", "\nChange to B.\nRows 2");
        expect(yarnOf(usual + striped)).toBeCloseTo(yarnOf(usual + plain) + 300, 6);
      }),
      { numRuns: 40 },
    );
  });

  test("doubles with make 2, and grows by as much with every further row", () => {
    fc.assert(
      fc.property(...dims, (n, rows, kind) => {
        const text = usual + flat(n, rows, kind);
        expect(yarnOf(text.replace("Body", "Body (make 2)"))).toBeCloseTo(2 * yarnOf(text), 6);
        const [one, two, three] = [0, 1, 2].map((more) => yarnOf(usual + flat(n, rows + more, kind)));
        expect((three ?? 0) - (two ?? 0)).toBeCloseTo((two ?? 0) - (one ?? 0), 6);
        expect(two).toBeGreaterThan(one ?? 0);
      }),
      { numRuns: 40 },
    );
  });

  test("grows with the area at one gauge", () => {
    fc.assert(
      fc.property(fc.integer({ min: 60, max: 200 }), stitch, (n, kind) => {
        const own = (text: string) => yarnOf(usual + text) - 300;
        const ratio = own(flat(2 * n, 2 * n, kind)) / own(flat(n, n, kind));
        expect(Math.abs(ratio - 4)).toBeLessThan(0.1);
      }),
      { numRuns: 30 },
    );
  });

  test("is the same however a repeat is written", () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 60 }), stitch, (n, kind) => {
        const start = `${usual}Body\nWith A, ch ${3 * n + 1}.\nRow 1: sc in 2nd ch from hook and in each ch across (${3 * n})\nRow 2: ch 1, turn, `;
        const ways = [
          `*${kind} in next 2 sts, sc in next st; rep from * across (${3 * n})`,
          `(${kind} in next 2 sts, sc in next st) ${n} times (${3 * n})`,
          `[2 ${kind}, sc] x${n} (${3 * n})`,
          `${kind} in next 2 sts, sc in next st, *${kind} in next 2 sts, sc in next st; rep from * ${n - 1} times in all (${3 * n})`,
        ];
        const [first, ...rest] = ways.map((way) => yarnOf(start + way));
        for (const other of rest) expect(other).toBeCloseTo(first ?? 0, 6);
      }),
      { numRuns: 40 },
    );
  });

  test("scales with the gauge: half as many stitches to the inch of yarn twice as thick take twice the yarn", () => {
    const fine = front("16 sc and 18 rows = 10 cm").replace("Worsted wool", "Cord 2 mm thick");
    const coarse = front("8 sc and 9 rows = 10 cm").replace("Worsted wool", "Cord 4 mm thick");
    const own = (text: string) => yarnOf(text + flat(50, 50, "sc")) - 300;
    expect(own(coarse) / own(fine)).toBeCloseTo(2, 6);
  });
});

/** Every number anywhere in a value. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

function isSound(text: string): void {
  const { worked, report } = new Checker().work(text);
  const { yarns, pieces, minutes } = materialsOf(worked, usualOptions);
  const metres = report.pieces.flatMap((piece) => piece.rows.map((row) => row.yarnMetres));
  for (const n of numbersIn([yarns, pieces, minutes, metres])) {
    expect(Number.isFinite(n)).toBe(true);
    expect(n).toBeGreaterThanOrEqual(0);
  }
  for (const n of numbersIn([yarns.map(({ amounts }) => amounts), metres]))
    if (n > 0) expect(rounded(n, 4)).toBe(n);
}

describe("figures are never wrong in kind", () => {
  test("on every pattern of the corpus, with and without something to go by", () => {
    for (const text of corpus) for (const before of ["", usual]) isSound(before + text);
  });

  test("on any text", () => {
    fc.assert(
      fc.property(anyText, (text) => isSound(usual + text)),
      { numRuns: 60 },
    );
  });

  const nonsense = [
    "0 sts = 4 in",
    "4 in",
    "900 sts to the inch",
    "16 sc = 0 cm",
    "-3 sc = 10 cm",
    "sc = cm",
    "1e9 sc = 10 cm",
    "16 sc and 0 rows = 10 cm",
    "99999 sc = 1 in",
  ];
  test.each(nonsense)("at a gauge of %s", (gauge) => {
    isSound(front(gauge) + flat(20, 10, "sc"));
  });

  test("two figures and no more, three where the designer measured", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (n) => {
        const { low, likely, high } = estimateOf(n, { spread: 0.2 });
        for (const one of [low, likely, high]) expect(rounded(one, 2)).toBe(one);
        expect(low).toBeLessThanOrEqual(n * 0.8 * (1 + 1e-8));
        expect(high).toBeGreaterThanOrEqual(n * 1.2 * (1 - 1e-8));
        expect(estimateOf(n, { spread: 0 })).toEqual({
          low: rounded(n, 3),
          likely: rounded(n, 3),
          high: rounded(n, 3),
        });
      }),
    );
  });
});
