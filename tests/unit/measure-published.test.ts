import { describe, expect, test } from "vitest";
import { median } from "../../server/src/measure/proportions";
import { slack } from "../../server/src/measure/stitch-path";
import { notEstimated } from "../yarn/estimates";
import { calibrated, calibrations, compared, fittedSlack } from "../yarn/fit";
import { publishedItems } from "../yarn/published";

/*
 * Estimates beside published figures, sources in tests/yarn/published.ts. The model has one fitted number;
 * its form was chosen with W15 and the whole balls in sight, the dishcloths W07 to W14 only tried it.
 */
describe("yarn of published items", () => {
  test("the constant in the code is the one that the fit gives", () => {
    expect(slack).toBeCloseTo(fittedSlack(), 2);
  });

  test("every item is estimated, or says why not", () => {
    const told = [...compared.map(({ published }) => published.id), ...Object.keys(notEstimated)];
    expect(told.sort()).toEqual(publishedItems.map(({ id }) => id));
  });

  const measured = compared.filter(({ published }) => published.quality === "measured");

  test.each(measured.map((one) => [one.published.id, one.published.item, one.ratio] as const))(
    "%s, %s: within 25 % without calibration",
    (_id, _item, ratio) => {
      expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(0.25);
    },
  );

  test("within 10 % in the median, of all that were measured and of those that only try the model", () => {
    for (const items of [measured, measured.filter(({ estimate }) => estimate.use === "try")]) {
      expect(items.length).toBeGreaterThanOrEqual(8);
      expect(median(items.map(({ ratio }) => Math.abs(ratio - 1)))).toBeLessThanOrEqual(0.1);
    }
  });

  /** Known misses: a ladder stitch, a bumpy one and small discs, none of them the stitch of the swatch. */
  test("by one swatch of the same yarn, hook and hands: within 10 %, three apart", () => {
    const beyond = calibrations
      .flatMap(calibrated)
      .filter(({ ratio }) => Math.abs(ratio - 1) > 0.1)
      .map(({ published }) => published.id);
    expect(beyond).toEqual(["W08", "W10", "W14"]);
  });

  /** Known misses. Both are V-stitches; W19 states a size that its own gauge does not give. */
  test("whole balls are enough, but for two blankets of V-stitches", () => {
    const beyond = compared
      .filter(({ published, ratio }) => published.quality === "whole balls" && ratio > 1)
      .map(({ published }) => published.id);
    expect(beyond).toEqual(["W18", "W19"]);
  });
});
