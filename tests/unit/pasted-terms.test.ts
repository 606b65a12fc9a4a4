import { describe, expect, test } from "vitest";
import { pastedTerms } from "../../server/src/features/pasted-terms";

const uk = "Row 2: 2 ch, turn, htr in each st across. (12)\n";
const us = "Row 2: Ch 2, turn, hdc in each st across. (12)\n";
const dc = "Row 3: Ch 1, turn, dc in each st across. (12)\n";

/** The second part of a pattern was pasted. */
function told(pattern: string, pasted: string) {
  return pastedTerms(pattern + pasted, { start: pattern.length, end: pattern.length + pasted.length });
}

// htr is a UK name only, hdc a US one only: hilandonubes.com/crochet/info.cgi?id=3008.
describe("what was pasted", () => {
  test("in terms that the declaration denies is noticed", () => {
    expect(told("Terms: US\nCh 13.\nRow 1: Sc across. (12)\n", uk)).toEqual({ pattern: "US", pasted: "UK" });
    expect(told("Terms: UK\nCh 13.\nRow 1: Dc across. (12)\n", us)).toEqual({ pattern: "UK", pasted: "US" });
  });

  test("is noticed where stitches alone tell the terms", () => {
    expect(told(us, uk)).toEqual({ pattern: "US", pasted: "UK" });
  });

  test.each([
    ["it is in the same terms", "Terms: US\n", us],
    ["it may be in either", "Terms: US\n", dc],
    ["it is in both", "Terms: US\n", us + uk],
    ["nothing tells the terms of the pattern", dc, uk],
  ])("is not where %s", (_, pattern, pasted) => {
    expect(told(pattern, pasted)).toBeNull();
  });
});
