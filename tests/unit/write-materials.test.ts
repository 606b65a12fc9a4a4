import { describe, expect, test } from "vitest";
import { actionsAt } from "../../server/src/features/actions/all-actions";
import { usualOptions } from "../../server/src/measure/materials";
import { withEdits } from "../../server/src/text/span";
import { sceneOf } from "../mutants/promises";

const title = "Write the yarn amounts and the finished size by the rows and the gauge";

function offered(text: string, on: string) {
  const start = text.indexOf(on);
  return actionsAt(sceneOf(text), { start, end: start }).find((action) => action.title === title);
}

function written(text: string, on: string): string {
  const action = offered(text, on);
  if (!action) throw new Error("it is not offered");
  return withEdits(text, action.edits());
}

const square =
  "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRows 2-22: Ch 1, turn, sc in each st across. (20)\nFasten off.\n";
const gauge = "4 mm hook\n20 sc unravelled: 92 cm\n\nGauge: 20 sc and 22 rows = 10 cm\n\n";

describe("writing the materials", () => {
  /** 440 sc at 4.6 cm are 20.2 m; with chains, tails and 15 % to spare about 25 m, which are 10 g. */
  test("amounts in the unit of the list, and a finished size where there is none", () => {
    const text = `Mat\n\nTerms: US\n\nMaterials\nDK cotton, 50 g / 125 m: 45 g in sand\n${gauge}${square}`;
    const after = written(text, "DK");
    expect(after).toContain("125 m: 10 g in sand\n");
    expect(after).toContain("Terms: US\nFinished size: 10 x 10 cm (4 x 4 in)\n");
    expect(offered(after, "DK")).toBeUndefined();
  });

  test("one number a size", () => {
    const text = `Mat\n\nTerms: US\nSizes: S (L)\n\nMaterials\nDK cotton, 50 g / 125 m: 45 (45) g\n${gauge}Ch 21 (41).\nRow 1: Sc in 2nd ch from hook and in each ch across. 20 (40) sc.\nRows 2-22: Ch 1, turn, sc in each st across. 20 (40) sc.\nFasten off.\n`;
    expect(written(text, "DK")).toContain("125 m: 10 (20) g\n");
  });

  test("a yarn without an amount gets one, and so does a pattern without yarns", () => {
    const text = (yarn: string) =>
      `Mat\n\nTerms: US\nFinished size: 10 cm\n\nMaterials\n${yarn}${gauge}${square}`;
    expect(written(text("Cotton in sand (A)\n"), "Cotton")).toMatch(/Cotton in sand \(A\), about \d+ m\n/);
    expect(written(text(""), "4 mm")).toMatch(/\nYarn: about \d+ m\n/);
  });

  test.each(["Yarn: brown, beige (DK)", "DK cotton in sand", "DK cotton, 50 g / 125 m: sand"])(
    "what it writes is read back, and not written again: %s",
    (yarns) => {
      const after = written(`Mat\n\nTerms: US\n\nMaterials\n${yarns}\n${gauge}${square}`, yarns);
      expect(after).toMatch(/, about \d+ m/);
      expect(offered(after, yarns.slice(0, 8))).toBeUndefined();
    },
  );

  test("is not offered on rows, without a basis, or where a row is not known", () => {
    const text = `Mat\n\nMaterials\nDK cotton, 50 g / 125 m: 45 g\n${gauge}${square}`;
    expect(offered(text, "Row 1")).toBeUndefined();
    expect(offered(`Mat\n\nMaterials\nCotton: 45 g\n\n${square}`, "Cotton")).toBeUndefined();
    expect(offered(`${text}Row 23: Zigzag across.\n`, "DK")).toBeUndefined();
  });
});

test("as much is to spare as the designer set", () => {
  const text = `Mat\n\nTerms: US\nFinished size: 10 x 10 cm\n\nMaterials\nDK cotton: 45 m in sand\n${gauge}${square}`;
  const start = text.indexOf("DK");
  const listed = (marginPercent: number) => {
    const scene = { ...sceneOf(text), measures: { ...usualOptions, marginPercent } };
    const action = actionsAt(scene, { start, end: start }).find((one) => one.title === title);
    return /cotton: (\d+) m/.exec(withEdits(text, action?.edits() ?? []))?.[1];
  };
  expect([0, 15, 50].map(listed)).toEqual(["25", "25", "35"]);
});

describe("refreshing a stated size", () => {
  const mat = (size: string) =>
    `Mat\n\nTerms: US\n${size}\n\nMaterials\nDK cotton, 50 g / 125 m: 10 g in sand\n${gauge}${square}`;

  test.each([
    ["Finished size: 14 cm x 10 cm (5 1/2 in x 4 in)", "Finished size: 10 cm x 10 cm (4 in x 4 in)"],
    ["Finished size: 6 x 4 in", "Finished size: 4 x 4 in"],
  ])("%s", (size, becomes) => {
    const after = written(mat(size), "Finished");
    expect(after).toBe(mat(becomes));
    expect(offered(after, "Finished")).toBeUndefined();
  });

  test.each([
    "Finished size: 10 cm x 10.5 cm",
    "Finished size: 14 cm x 10 cm, blocked",
    "To fit: 14 cm x 10 cm",
  ])("%s stays", (size) => {
    expect(offered(mat(size), "DK")).toBeUndefined();
  });

  test("one figure a size", () => {
    const tube = (size: string) =>
      `Band\n\nTerms: US\nSizes: S (L)\nFinished circumference: ${size}\n\nMaterials\nDK cotton, 50 g / 125 m: 10 (15) g\n${gauge}Ch 40 (60), join to form a ring.\nRnd 1: Sc in each ch around. 40 (60) sc.\nRnds 2-10: Sc in each st around. 40 (60) sc.\nFasten off.\n`;
    expect(written(tube("20 (40) cm"), "Finished")).toContain("Finished circumference: 20 (30) cm\n");
  });
});
