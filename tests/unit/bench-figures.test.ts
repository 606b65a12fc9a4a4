import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
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
