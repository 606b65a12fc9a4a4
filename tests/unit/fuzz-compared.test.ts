import { expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import type { PatternReport } from "../../server/src/workspace/report";
import { compared, type Kept } from "../fuzz/compared";

const share = { seed: 1, apart: 1, most: 400 };

/** A checker with a slip planted in it: asked again for a text of the same length, it may tell of the one before. */
function stale(isStale: (text: string, before: string) => boolean): () => Kept {
  return () => {
    const checker = new Checker();
    let last: { readonly text: string; readonly report: PatternReport } | null = null;
    return {
      check(text) {
        const report = last && isStale(text, last.text) ? last.report : checker.check(text);
        last = { text, report };
        return report;
      },
    };
  };
}

test("what is kept rightly is told as afresh", () => {
  const { edits, comparisons, different } = compared(share, () => true);
  expect(different).toEqual([]);
  expect(edits).toBeGreaterThanOrEqual(share.most);
  expect(comparisons).toBeGreaterThan(edits / 8);
});

test("a slip in what is kept is found, and brought down to the edit that shows it", () => {
  const isStale = (text: string, before: string) => /c/.test(text) && text.length < before.length;
  const { different } = compared(share, () => true, stale(isStale));
  expect(different.length).toBeGreaterThan(0);
  for (const { steps } of different) {
    expect(steps.length).toBe(2);
    expect(isStale(steps[1] ?? "", steps[0] ?? "")).toBe(true);
  }
});

test("a slip that needs earlier texts is kept with the edits since it was told alike", () => {
  let made = 0;
  const keep = () => {
    const place = made++;
    return stale((text, before) => place === 0 && text.length < before.length)();
  };
  const { different } = compared(share, () => true, keep);
  expect(different.length).toBeGreaterThan(0);
  for (const { steps } of different) {
    expect(steps.length).toBeGreaterThan(1);
    expect(steps.length).toBeLessThanOrEqual(9);
    expect(steps.some((text, i) => i > 0 && text.length < (steps[i - 1] ?? "").length)).toBe(true);
  }
});
