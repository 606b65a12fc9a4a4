import { describe, expect, test } from "vitest";
import { readHouseStyle } from "../../server/src/features/house-style";
import { corpus } from "../property/pattern-texts";
import { allNames, meaning, styled } from "../property/styled";

const rows = `Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
R3 - *sc 1, inc; rep from * around. [18]
Round 4. (sc 2, inc) × 6 = 24 sts
Rnds 5–7: sc in each st around (24)
Rnd 8: [2sc, dec] 6 times (18)`;

describe("the three styles", () => {
  test.each([
    [
      "compact",
      `Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (1 sc, inc) around. (18)
Rnd 4: (2 sc, inc) x6 (24 sts)
Rnds 5–7: sc in each st around (24)
Rnd 8: (2 sc, dec) x6 (18)`,
    ],
    [
      "written-out",
      `Round 1: 6 sc in mr (6)
Round 2: inc x6 (12)
Round 3: *1 sc, inc; rep from * around. (18)
Round 4: *2 sc, inc; rep from * 5 more times (24 sts)
Rounds 5–7: sc in each st around (24)
Round 8: *2 sc, dec; rep from * 5 more times (18)`,
    ],
    [
      "plain-text",
      `Rnd 1: 6 sc in mr [6]
Rnd 2: inc x6 [12]
Rnd 3: (sc 1, inc) around. [18]
Rnd 4: (sc 2, inc) 6 times [24 sts]
Rnds 5-7: sc in each st around [24]
Rnd 8: (sc 2, dec) 6 times [18]`,
    ],
  ] as const)("%s", (name, after) => {
    expect(styled(rows, name)).toBe(after);
  });
});

describe("a style of one's own", () => {
  test("has repeats spelled out, short heads and square counts", () => {
    expect(
      styled(
        "Rnd 1: 6 sc in mr (6)\nRnds 2-3: sc in each st around (6)\nRnd 4: (sc, inc) x3 (9)",
        "spelled-out",
      ),
    ).toBe("R1: 6 sc in mr [6]\nR2-3: sc in each st around [6]\nR4: sc, inc, sc, inc, sc, inc [9]");
  });

  test("has the signs of print", () => {
    expect(
      styled(
        "Rnd 1: 6 sc in mr (6)\nRnds 2-3: sc in each st around (6)\nRnd 4: (sc, inc) x3 (9)",
        "for print",
      ),
    ).toBe("Round 1: 6 sc in mr (6)\nRounds 2–3: sc in each st around (6)\nRound 4: (sc, inc) ×3 (9)");
  });

  test.each([
    [{ round: "Round" }, []],
    [{ round: "round" }, ['"round" is "round"; use Rnd, Round, R']],
    [
      { colour: "red" },
      ['"colour" is no part of a style; there are round, row, repeats, number, count, signs'],
    ],
    [[], ["it is no list of choices in { }"]],
    ["x", ["it is no list of choices in { }"]],
  ])("read from %j", (data, problems) => {
    expect(readHouseStyle(data).problems).toEqual(problems);
  });
});

describe.each(allNames)("all samples and cases in %s", (name) => {
  test("come to the same", () => {
    for (const text of corpus) expect.soft(meaning(styled(text, name)), text).toEqual(meaning(text));
  });

  test("are not changed a second time", () => {
    for (const text of corpus) {
      const once = styled(text, name);
      expect.soft(styled(once, name)).toBe(once);
    }
  });
});

describe("what is left as it is", () => {
  test.each([
    ["a repeat that may be meant in two ways", "Rnd 1: 12 sc in mr (12)\nRnd 2: *sc, inc* repeat 5 times"],
    ["a remark", "Rnd 1: 6 sc in mr [as meant: count-missing]"],
    ["prose", "Sew R3 - R5 of the ear to [24] sts × 2."],
  ])("%s", (_, text) => {
    expect(styled(text, "compact")).toBe(text.replace("R3:", "Rnd 3:"));
  });
});
