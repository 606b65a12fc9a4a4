import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { anyText, corpus, patchedText, runs, shuffledText, slippedText, wildText } from "./pattern-texts";
import { faultsOf, plainReport } from "./report-shape";

const kinds = {
  "slips of the hand": slippedText,
  shuffled: shuffledText,
  patched: patchedText,
  wild: wildText,
};

describe.each(Object.entries(kinds))("a text of %s", (_, texts) => {
  test("gives a report in which spans, numbers and results hold together", () => {
    const check = (text: string) => {
      expect(faultsOf(new Checker().check(text), text)).toEqual([]);
    };
    fc.assert(fc.property(texts, check), { numRuns: runs });
  });
});

test("every sample and case gives a report in which spans, numbers and results hold together", () => {
  const faults = corpus.flatMap((text) =>
    faultsOf(new Checker().check(text), text).map((fault) => `${fault}\n${text}`),
  );
  expect(faults).toEqual([]);
});

test("a report survives being written as JSON", () => {
  const check = (text: string) => {
    const report = plainReport(new Checker().check(text));
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  };
  fc.assert(fc.property(anyText, check), { numRuns: runs });
});

/** Limits are promised: deep nesting, very long rows and huge numbers are told, not suffered. */
const hostile: Readonly<Record<string, string>> = {
  "brackets 5,000 deep": `Row 1: ${"(".repeat(5000)}sc${")".repeat(5000)} x6`,
  "brackets never closed": `Row 1: ${"[(*{".repeat(2000)}`,
  "a row of 50,000 items": `Row 1: ${"sc, ".repeat(50_000)}sc`,
  "a number beyond counting": `Rnd 1: 6 sc in ring (6)\nRnd 2: (sc, inc) x${"9".repeat(400)} (12)`,
  "nested huge repeats": `Rnd 1: ((((sc x1000000) x1000000) x1000000) x1000000) x1000000 (6)`,
  "a range of a million million rows":
    "Rnd 1: 6 sc in ring (6)\nRnds 2-1000000000000: sc in each st, inc in last st (7)",
  "rows that copy each other": "Row 1: Rep Row 2.\nRow 2: Rep Row 1.\nRow 3: Rep Row 3.",
  "NUL and half surrogates": "Row 1: sc\u0000 in \ud800 next \udfff st\u0000 (6)",
  "one line of a million characters": "sc ".repeat(333_333),
  "5,000 heads on one line": "Rnd 1: 6 sc in ring (6) ".repeat(5000),
};

test.each(Object.entries(hostile))("%s", (_, text) => {
  expect(faultsOf(new Checker().check(text), text)).toEqual([]);
});
