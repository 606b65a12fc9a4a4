import { expect, test } from "vitest";
import { readSettings } from "../../server/src/lsp/settings";

test("what is not set is as the table of settings has it", () => {
  for (const section of [undefined, null, {}, { measure: null }, "nonsense"]) {
    const { measures, hints, problems } = readSettings(section);
    expect(measures).toEqual({ marginPercent: 15, stitchesPerMinute: 20 });
    expect(hints).toEqual({ count: true, yarn: false, time: false });
    expect(problems).toEqual([]);
  }
});

test("what is set is taken", () => {
  const { measures, hints } = readSettings({
    measure: { margin: 10, stitchesPerMinute: 12 },
    hints: { count: false, yarn: true, time: true },
  });
  expect(measures).toEqual({ marginPercent: 10, stitchesPerMinute: 12 });
  expect(hints).toEqual({ count: false, yarn: true, time: true });
});

test.each([
  [{ measure: { margin: -1 } }, "loopledger.measure.margin is -1; use a number from 0 to 1000."],
  [{ measure: { margin: "much" } }, 'loopledger.measure.margin is "much"; use a number from 0 to 1000.'],
  [
    { measure: { stitchesPerMinute: 0 } },
    "loopledger.measure.stitchesPerMinute is 0; use a number from 1 to 1000.",
  ],
  [{ hints: { yarn: "on" } }, 'loopledger.hints.yarn is "on"; use true or false.'],
])("%j is told and left aside", (section, problem) => {
  const { measures, hints, problems } = readSettings(section);
  expect(problems).toEqual([`Settings, ${problem}`]);
  expect(measures).toEqual({ marginPercent: 15, stitchesPerMinute: 20 });
  expect(hints.yarn).toBe(false);
});
