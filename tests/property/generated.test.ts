import fc from "fast-check";
import { expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { disagreement, generatedPattern } from "./generated-patterns";
import { runs } from "./pattern-texts";

test("a pattern that is made right is told nothing, and counts as the second count has it", () => {
  const check = (text: string) => {
    expect(disagreement(text)).toBeNull();
  };
  fc.assert(fc.property(generatedPattern, check), { numRuns: 8 * runs });
});

test("a count of it that is off by one is told on its row", () => {
  const check = (text: string, at: number, more: boolean) => {
    const lines = text.split("\n");
    const counted = lines.flatMap((line, i) => (/\(\d+(?: dc)?\)$/.test(line) ? [i] : []));
    const row = counted[at % counted.length] ?? 0;
    const line = lines[row] ?? "";
    const slipped = line.replace(/\d+(?=(?: dc)?\)$)/, (n) => `${Number(n) + (more ? 1 : -1)}`);
    const { findings } = new Checker().check(lines.with(row, slipped).join("\n"));
    const start = lines.slice(0, row).join("\n").length;
    const end = start + slipped.length + 1;
    const errors = findings.filter(({ severity }) => severity === "error");
    expect(errors.map(({ span }) => start <= span.start && span.end <= end)).toContain(true);
  };
  fc.assert(fc.property(generatedPattern, fc.nat(), fc.boolean(), check), { numRuns: 4 * runs });
});
