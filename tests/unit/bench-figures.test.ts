import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { figuresTable, thisRun } from "../bench/figure";
import { withFigures } from "../bench/figures";

const page = readFileSync(new URL("../../DEVELOPERS.md", import.meta.url), "utf8");

test("the bench's tables take the place of those that the maintainers' page had, and nothing else changes", () => {
  const first = withFigures(page, { Keystrokes: "| a |" }, "Measured once.");
  expect(first).toContain("Measured once.\n\n### Keystrokes\n\n| a |");
  const again = withFigures(first, { Hovers: "| b |" }, "Measured again.");
  expect(again).not.toContain("Keystrokes");
  expect(again).toContain("### Hovers\n\n| b |");
  const around = (text: string) => text.replace(/<!-- Figures[\s\S]*<!-- End of the figures -->/, "");
  expect(around(again)).toBe(around(page));
});

test("a page without the marks is left alone", () => {
  expect(() => withFigures("# Another page", {}, "")).toThrow("has no lines");
});

test("what was measured stands beside what is aimed at, and beside the run before", () => {
  const run = (value: number) => ({
    ...thisRun([]),
    figures: [{ what: "a keystroke", value, unit: "ms" as const, goal: 3 }],
  });
  expect(figuresTable(run(6), run(4))).toContain("| a keystroke | 3 ms | 6.00 ms | missed | 1.50 × |");
  expect(figuresTable(run(3), null)).toContain("| a keystroke | 3 ms | 3.00 ms | met | – |");
});
