import { describe, expect, test } from "vitest";
import { median } from "../../server/src/measure/proportions";
import { slack } from "../../server/src/measure/stitch-path";
import { notEstimated } from "../yarn/estimates";
import {
  calibrated,
  calibratedStitches,
  calibrations,
  compared,
  densityOf,
  fittedSlack,
  stitchTold,
} from "../yarn/fit";
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

  const byswatch = calibrations.flatMap(calibrated);

  test("by one swatch of the same yarn, hook and hands: within 10 % wherever the source tells the stitch", () => {
    const told = byswatch.filter(({ published }) => stitchTold.has(published.id));
    expect(told.length).toBe(4);
    for (const { ratio } of told) expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(0.1);
  });

  /** Known misses: a ladder stitch, a bumpy one and small discs, whose stitches the source does not tell. */
  test("of five whose stitch the source does not tell, three are further off", () => {
    const beyond = byswatch
      .filter(({ ratio }) => Math.abs(ratio - 1) > 0.1)
      .map(({ published }) => published.id);
    expect(beyond).toEqual(["W08", "W10", "W14"]);
  });

  test("by one stitch measured, a row of sc: chains and the other rows of the same hands within 10 %", () => {
    const sure = calibratedStitches().filter(({ stitch }) => !["fhdc", "fdc"].includes(stitch));
    expect(sure.map(({ stitch }) => stitch)).toEqual(["ch", "hdc", "dc", "fsc"]);
    for (const { ratio } of sure) expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(0.1);
  });

  /** Known misses: foundation rows that the source measures at less than a row and its chains. */
  test("foundation rows that contradict the other rows of their source are not met", () => {
    const beyond = calibratedStitches().filter(({ ratio }) => Math.abs(ratio - 1) > 0.1);
    expect(beyond.map(({ stitch }) => stitch)).toEqual(["fhdc", "fdc"]);
  });

  /** Two sources disagree on dc by a fifth, 0.842 and 1.006 of sc; the model lies between. Treble is a known miss. */
  test("the density of double crochet lies between two sources", () => {
    expect(densityOf("dc")).toBeGreaterThan(0.842);
    expect(densityOf("dc")).toBeLessThan(1.006);
  });

  /**
   * Known misses. W18 and W19 are V-stitches; W19 states a size that its own gauge does not give. W20 and W27 are
   * open work that was not seen, and are taken as solid.
   */
  test("whole balls are enough, but for two blankets of V-stitches and what is taken as solid", () => {
    const beyond = compared
      .filter(({ published, ratio }) => published.quality === "whole balls" && ratio > 1)
      .map(({ published }) => published.id);
    expect(beyond).toEqual(["W18", "W19", "W20", "W27"]);
  });
});
