import { describe, expect, test } from "vitest";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

// Common practice, no source: a technical editor reads what stands there, not only whether the sums come out.
const ring = "Rnd 1: 6 sc in mr (6)\n";
const tall = "Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)\n";

describe("chain-twice", () => {
  test("a beginning chain that is typed twice is told, and written once", () => {
    const text = `${ring}Rnd 2: Ch 1, Ch 1, inc x6, join (12)`;
    const { message, severity, on } = onlyFinding("chain-twice", text);
    expect({ message, severity, on }).toEqual({
      message: "Rnd 2 begins with ch 1 twice. Did you mean it once?",
      severity: "warning",
      on: "Ch 1, Ch 1",
    });
    const after = mended("chain-twice", text);
    expect(after).toBe(`${ring}Rnd 2: Ch 1, inc x6, join (12)`);
    expectClean(after);
  });

  test.each([
    [
      "of one",
      "Rnd 1: Ch 1, Ch 1, 8 hdc in ring, join. (8 hdc)",
      "Rnd 1: Ch 1, 8 hdc in ring, join. (8 hdc)",
    ],
    ["UK", "Round 1: 2ch, 2ch, 6dc into magic ring. (6 sts)", "Round 1: 2ch, 6dc into magic ring. (6 sts)"],
  ])("so is one before the first round: %s", (_, text, once) => {
    expect(mended("chain-twice", text)).toBe(once);
  });

  test("a chain that may be the ring is left alone", () => {
    expect(foundBy("chain-twice", "Rnd 1: Ch 3, ch 3, 11 dc in ring, join. (12 dc)")).toEqual([]);
  });

  test("so is one inside a row", () => {
    const text = `${tall}Rnd 2: Ch 3 (counts as dc), *dc in next dc, ch 1, ch 1; rep from * around, join. (12 dc)`;
    expect(onlyFinding("chain-twice", text).message).toBe(
      "Rnd 2 has ch 1 twice, one behind the other. Did you mean it once, or ch 2?",
    );
  });

  test("so is a longer one that no count and no other chain of the row wants", () => {
    const text = `${tall}Rnd 2: Ch 3, ch 3, dc in same st, 2 dc in each of next 11 dc, join. (24 dc)`;
    expect(onlyFinding("chain-twice", text).on).toBe("Ch 3, ch 3");
  });

  test.each([
    [
      "spaces are counted",
      "Rnd 2: Ch 3, ch 3, *dc in next dc, ch 3; rep from * around, join. (12 dc, 12 ch-3 sps)",
    ],
    [
      "a remark is between them",
      "Rnd 2: Ch 3 (counts as dc), ch 3, sk 1 dc, dc in next 10 dc, join. (11 dc)",
    ],
    ["another chain", "Rnd 2: Ch 3, ch 1, sk 1 dc, dc in next 10 dc, join. (11 dc)"],
  ])("silent where %s", (_, row) => {
    expect(foundBy("chain-twice", `${tall}${row}`)).toEqual([]);
  });
});

describe("other-stitches", () => {
  test("says which stitches are counted with those that the count names, and where", () => {
    const text = `${tall}Rnd 2: Ch 3 (counts as dc), sc in same st, 2 dc in each of next 11 dc, join. (24 dc)`;
    const { message, severity, on } = onlyFinding("other-stitches", text);
    expect({ message, severity, on }).toEqual({
      message: "Rnd 2 counts dc only, and 1 sc among them. Did you mean dc here?",
      severity: "warning",
      on: "sc in same st",
    });
  });

  test("those of a repeat are added up", () => {
    const text = "Rnd 1: 12 dc in ring (12 dc)\nRnd 2: (sc in next st, 2 dc in next st) 6 times (18 dc)";
    expect(onlyFinding("other-stitches", text).message).toContain("6 sc among them");
  });

  test.each([
    ["both kinds are counted", "Rnd 2: (sc in next st, 2 dc in next st) 6 times (6 sc, 12 dc)"],
    ["the count names no stitch", "Rnd 2: (sc in next st, 2 dc in next st) 6 times (18 sts)"],
    ["decreases are counted as what they are made of", "Rnd 2: (dc in next st, dc2tog) 4 times (8 dc)"],
    ["post stitches are", "Rnd 2: (FPdc around next st, dc in next st) 6 times (12 dc)"],
  ])("silent where %s", (_, row) => {
    expect(foundBy("other-stitches", `Rnd 1: 12 dc in ring (12 dc)\n${row}`)).toEqual([]);
  });
});

describe("goes-on-untold", () => {
  test.each([
    ["inc", "Rnd 2: inc (12)", "inc"],
    ["in next", "Rnd 2: 2 sc in next sc (12)", "2 sc in next sc"],
    ["each of one", "Rnd 2: 2 sc in each of next 1 st (12)", "2 sc in each of next 1 st"],
  ])("one instruction that only the count repeats: %s", (_, row, on) => {
    const finding = onlyFinding("goes-on-untold", `${ring}${row}\nRnd 3: (sc, inc) x6 (18)`);
    expect(finding.on).toBe(on);
    expect(finding.severity).toBe("information");
    expect(finding.message).toMatch(
      /^Rnd 2 comes out right only if this is worked again and again to the end/,
    );
    expectClean(mended("goes-on-untold", `${ring}${row}\nRnd 3: (sc, inc) x6 (18)`));
  });

  test.each([
    ["it is said", "Rnd 2: inc around (12)\nRnd 3: (sc, inc) x6 (18)"],
    ["the piece is written so", "Rnd 2: inc (12)\nRnd 3: sc, inc (18)"],
    ["once is enough", "Rnd 2: sc 6 (6)"],
  ])("silent where %s", (_, rows) => {
    expect(foundBy("goes-on-untold", `${ring}${rows}`)).toEqual([]);
  });
});
