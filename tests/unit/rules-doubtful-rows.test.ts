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

  test("where a ring is there already, the first of two is no ring", () => {
    const text = "Ch 4, join to form a ring.\nRnd 1: Ch 3, ch 3, 11 dc in ring, join. (12 dc)";
    expect(onlyFinding("chain-twice", text).on).toBe("Ch 3, ch 3");
    expectClean(mended("chain-twice", text));
  });

  test("so is the chain that a row ends with", () => {
    const text =
      "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, ch 1, ch 1, turn. (12)\nRow 2: Sc 12. (12)";
    expect(onlyFinding("chain-twice", text).on).toBe("ch 1, ch 1");
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

  test("a count of a stitch that is not in the row at all", () => {
    const text = "Rnd 1: 12 sc in ring (12 sc)\nRnd 2: hdc in each st around (12 sc)";
    expect(onlyFinding("other-stitches", text).message).toBe(
      "Rnd 2 counts sc, and there is none: it is 12 hdc. Did you mean sc here?",
    );
  });

  test("those of a repeat are added up", () => {
    const text = "Rnd 1: 12 dc in ring (12 dc)\nRnd 2: (sc in next st, 2 dc in next st) 6 times (18 dc)";
    expect(onlyFinding("other-stitches", text).message).toContain("6 sc among them");
  });

  test.each([
    ["both kinds are counted", "Rnd 2: (sc in next st, 2 dc in next st) 6 times (6 sc, 12 dc)"],
    ["the count names no stitch", "Rnd 2: (sc in next st, 2 dc in next st) 6 times (18 sts)"],
    ["decreases are counted as what they are made of", "Rnd 2: (dc in next st, dc2tog) 4 times (8 dc)"],
    ["foundation stitches are counted as such", "Row 2: Fsc 12. (12 fsc)"],
    ["post stitches are", "Rnd 2: (FPdc around next st, dc in next st) 6 times (12 dc)"],
  ])("silent where %s", (_, row) => {
    expect(foundBy("other-stitches", `Rnd 1: 12 dc in ring (12 dc)\n${row}`)).toEqual([]);
  });
});

describe("goes-on-untold", () => {
  test("one plain stitch that only the count repeats: a usual short form, so but a note", () => {
    const text = `${ring}Rnd 2: sc (6)\nRnd 3: (sc, inc) x3 (9)`;
    const { message, severity, on } = onlyFinding("goes-on-untold", text);
    expect({ severity, on }).toEqual({ severity: "information", on: "sc" });
    expect(message).toMatch(/^Rnd 2 comes out right only if this is worked again and again to the end/);
    expect(foundBy("one-for-several", text)).toEqual([]);
    expectClean(mended("goes-on-untold", text));
  });

  test.each([
    ["it is said", "Rnd 2: inc around (12)\nRnd 3: (sc, inc) x6 (18)"],
    ["the piece is written so", "Rnd 2: inc (12)\nRnd 3: sc, inc (18)"],
    ["once is enough", "Rnd 2: sc 6 (6)"],
  ])("silent where %s", (_, rows) => {
    expect(foundBy("goes-on-untold", `${ring}${rows}`)).toEqual([]);
  });
});

describe("one-for-several", () => {
  const flat = "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12)\n";

  test.each([
    ["in next", "Rnd 2: 2 sc in next sc (12)", "2 sc in next sc"],
    ["each of one", "Rnd 2: 2 sc in each of next 1 st (12)", "2 sc in each of next 1 st"],
    ["a digit is lost", "Rnd 2: inc x6 (12)\nRnd 3: 1 sc (12)", "1 sc"],
    ["a lone increase", "Rnd 2: inc (12)\nRnd 3: (sc, inc) x6 (18)", "inc"],
    ["a lone decrease", "Rnd 2: inc x6 (12)\nRnd 3: dec (6)", "dec"],
    ["others say how often", "Rnd 2: 6 sc (6)\nRnd 3: sc (6)", "sc"],
  ])("a row that says one stitch and is right only if all are meant: %s", (_, rows, on) => {
    const finding = onlyFinding("one-for-several", `${ring}${rows}`);
    expect({ severity: finding.severity, on: finding.on }).toEqual({ severity: "warning", on });
    expect(finding.message).toContain("worked on to the end");
    expect(foundBy("goes-on-untold", `${ring}${rows}`)).toEqual([]);
    expectClean(mended("one-for-several", `${ring}${rows}`));
  });

  test.each([
    ["to last", "Row 2: Ch 1, turn, 2 sc in first st, sc in next st to last st, 2 sc in last st. (14)"],
    ["of next", "Row 2: Ch 1, turn, sc in next of next 12 sts. (12)"],
    ["remaining", "Row 2: Ch 1, turn, sc in first st, sc in next remaining st. (12)"],
  ])("`next` of several: %s", (_, row) => {
    const { message, on } = onlyFinding("one-for-several", flat + row);
    expect(on).toBe("next");
    expect(message).toBe('Row 2 says "next", which is one stitch, of several. Did you mean "each"?');
    expectClean(mended("one-for-several", flat + row));
  });

  test.each([
    ["one and all others are told", "Row 2: Ch 1, turn, sc in next st and in each st across. (12)"],
    ["it is for one", "Row 2: Ch 1, turn, *sc in next st, sc in next st; rep from * to end. (12)"],
    ["their number is told", "Row 2: Ch 1, turn, sc in next 12 sts. (12)"],
    ["the piece is written so", "Row 2: sc in next st. (12)\nRow 3: hdc in next st. (12)"],
  ])("silent where %s", (_, rows) => {
    expect(foundBy("one-for-several", flat + rows)).toEqual([]);
  });
});

// Common practice, no source: one designer writes alike in all the parts of a toy.
describe("one-for-several and goes-on-untold, over the parts of a toy", () => {
  const parts = (...rows: readonly string[]): string =>
    rows.map((row, i) => `Part ${"ABCD"[i]}\nRnd 1: 6 sc in mr (6)\n${row}\nFasten off.\n`).join("\n");
  const told = (text: string): string[] =>
    ["one-for-several", "goes-on-untold"].flatMap((rule) => foundBy(rule, text).map(() => rule));

  test.each([
    [["Rnd 2: 2 sc in next st (12)", "Rnd 2: 2 sc in next st (12)"]],
    [["Rnd 2: 1 sc (6)\nRnd 3: 2 sc in next 6 sts (12)", "Rnd 2: 1 sc (6)\nRnd 3: inc x6 (12)"]],
    [["Rnd 2: inc (12)", "Rnd 2: inc x6 (12)\nRnd 3: sc, inc (18)"]],
  ])("silent where each of them has one: %j", (rows) => {
    expect(told(parts(...rows))).toEqual([]);
  });

  test.each([
    ["Rnd 2: 2 sc in next st (12)", "one-for-several"],
    ["Rnd 2: 1 sc (6)", "one-for-several"],
    ["Rnd 2: inc (12)", "one-for-several"],
    ["Rnd 2: sc (6)", "goes-on-untold"],
  ])("an odd one out is told: %s", (row, rule) => {
    const usual = "Rnd 2: inc x6 (12)\nRnd 3: sc in each st around (12)";
    expect(told(parts(usual, row, usual))).toEqual([rule]);
  });
});

describe("one-for-several, of stitches drawn together", () => {
  const row = (n: string) =>
    `Rnd 1: 12 sc in mr (12)\nRnd 2: *Sc in next 4 sts, sc2tog over next ${n}; rep from * around. (10)`;

  test("over one stitch", () => {
    expect(onlyFinding("one-for-several", row("1 st")).on).toBe("sc2tog over next 1 st");
    expect(foundBy("one-for-several", row("2 sts"))).toEqual([]);
  });
});

describe("one-for-several, of a stitch that the pattern explains", () => {
  const row = (n: number) =>
    [
      "Twist: Sk 2 sts, dc in next 2 sts, dc in the 2 skipped sts.",
      "Ch 12.",
      "Row 1: Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (10)",
      `Row 2: Ch 3 (counts as dc), turn, dc in next 2 sts, twist over next ${n} sts, dc in last 3 sts. (10)`,
    ].join("\n");

  test("over another number of stitches than it is explained over", () => {
    const { on, message } = onlyFinding("one-for-several", row(5));
    expect(on).toBe("twist over next 5 sts");
    expect(message).toBe('Row 2: "twist over next 5 sts" is explained over 4 sts.');
  });

  test.each([4, 8])("silent over %d: once, or twice", (n) => {
    expect(foundBy("one-for-several", row(n))).toEqual([]);
  });
});

describe("said-twice", () => {
  test.each([
    ["how far", "Rnd 2: *2 sc in next st; rep from * around, around. (12)", ", around"],
    ["how often", "Rnd 2: (2 sc in next st) 6 times, 6 times. (12)", ", 6 times"],
  ])("words that hold once: %s", (_, row, on) => {
    const finding = onlyFinding("said-twice", ring + row);
    expect({ severity: finding.severity, on: finding.on }).toEqual({ severity: "warning", on });
    expect(finding.message).toMatch(/^Rnd 2 says ".*" twice, one behind the other/);
    expect(foundBy("not-understood", ring + row)).toEqual([]);
    expectClean(mended("said-twice", ring + row));
  });

  test("a slip stitch to the space where the round begins", () => {
    const text =
      "Rnd 1: Ch 4 (counts as dc and ch 1), (dc, ch 1) 5 times in mr, join. (6 dc, 6 ch-1 sps)\n" +
      "Rnd 2: Sl st in next ch-1 sp, sl st in next ch-1 sp, ch 1, 3 sc in each ch-1 sp around, join. (18 sc)";
    expect(foundBy("said-twice", text)).toHaveLength(1);
    expectClean(mended("said-twice", text));
  });

  test.each([
    ["stitches are worked twice", "Rnd 2: *sc in next st, sc in next st, inc; rep from * around. (8)"],
    ["slip stitches go along", "Rnd 2: Sl st in next st, sl st in next st, ch 1, sc 6, join. (6)"],
    ["the next word is longer", "Rnd 2: (2 sc in next st) 6 times, 6 times in all. (12)"],
  ])("silent where %s", (_, row) => {
    expect(foundBy("said-twice", ring + row)).toEqual([]);
  });

  test.each([
    ["told behind the second place is what goes there", " (3 dc, ch 2, 3 dc)", 0],
    ["is missing behind the second place", "", 1],
  ])("a bracket that %s", (_, bracket, found) => {
    const text =
      "Rnd 1: 12 sc in mr, join. (12)\n" +
      "Rnd 2: *Sc in next st, ch 3, sk next st; rep from * around, join. (6 sc, 6 ch-3 sps)\n" +
      `Rnd 3: *Sc in next ch-3 sp, in next ch-3 sp${bracket}; rep from * around, join.`;
    expect(foundBy("said-twice", text)).toHaveLength(found);
  });
});

describe("nothing-worked", () => {
  test.each([
    ["a count in brackets", "Rnd 2: Ch 1, join. (12)"],
    ["a count behind the join", "Rnd 2: Ch 1, join. 6 sc."],
    ["a join in words", "Rnd 2: 1 ch, join with ss to first dc. 6 dc."],
    ["a turn", "Rnd 2: Ch 1, turn. (12)"],
  ])("a count, and no word of what is worked: %s", (_, row) => {
    const text = `${ring}${row}`;
    const { message, severity } = onlyFinding("nothing-worked", text);
    expect(severity).toBe("error");
    expect(message).toMatch(/^Rnd 2 has a count, and no word of what is worked/);
    expect(foundBy("not-understood", text)).toEqual([]);
  });

  test.each([
    ["on a chain", "Ch 30, join with sl st in first ch to form a ring.\nRnd 1: Ch 1, join. (30 sc)"],
    [
      "behind rows that repeat",
      `${ring}Rnd 2: sc in each st around (6)\nRep last rnd.\nRnd 4: Ch 1, join. (6)`,
    ],
  ])("a count alone, %s", (_, text) => {
    expect(onlyFinding("nothing-worked", text).severity).toBe("error");
  });

  test("chains repeated alone, with nothing that holds them", () => {
    const text = "Rnd 1: Ch 1, (ch 5) 6 times, join. (6 loops)";
    expect(onlyFinding("nothing-worked", text).on).toBe("(ch 5) 6 times");
    expect(foundBy("nothing-worked", text.replace("(ch 5)", "(sc in mr, ch 5)"))).toEqual([]);
  });

  test("silent where the chains themselves are counted", () => {
    expect(
      foundBy("nothing-worked", "Rnd 1: Ch 4, join to form a ring. (4)\nRnd 2: 8 sc in ring. (8)"),
    ).toEqual([]);
  });

  test.each([
    ["it is an ending", "Rnd 2: Fasten off. (6)"],
    ["a yarn is joined to work with", "Rnd 2: Ch 1, join B. 6 sc."],
    ["the number is the work", "Rnd 2: Ch 1, turn. 6 sc."],
    ["the chain is the row", "Rnd 2: Ch 6, turn. (6 ch)"],
  ])("silent where %s", (_, row) => {
    expect(foundBy("nothing-worked", `${ring}${row}`)).toEqual([]);
  });
});

describe("chain-unlike, of a last loop that a stitch closes", () => {
  // Common practice, no source: a dc is as long as three chains, a single crochet as one.
  const mesh = (closing: string) =>
    `Rnd 1: Ch 1, (sc in mr, ch 1) 6 times, join. (6 sc, 6 ch-1 sps)
Rnd 2: Sl st in first ch-1 sp, ch 1, sc in same sp, *ch 5, sc in next ch-1 sp; rep from * around, ending with ${closing} in first sc. (6 loops)`;

  test("too low", () => {
    const { on, message } = onlyFinding("chain-unlike", mesh("ch 2, sc"));
    expect(on).toBe("ch 2");
    expect(message).toBe(
      "The last loop of Rnd 2 is of ch 2 and sc, and the others are of ch 5. Did you mean a taller stitch?",
    );
  });

  test.each(["ch 2, dc", "ch 2, hdc", "ch 3, sc"])("silent for %s", (closing) => {
    expect(foundBy("chain-unlike", mesh(closing))).toEqual([]);
  });
});

describe("chain-unlike", () => {
  const ends = "dc in each of next 23 dc, join. (24 dc)";
  const circle = `${tall}Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24 dc)\n`;

  test("one that is no stitch where all others are", () => {
    const text = `${circle}Rnd 3: Ch 3, dc in each of next 24 dc, join. (24 dc)\nRnd 4: Ch 3, ${ends}`;
    expect(onlyFinding("chain-unlike", text).message).toBe(
      "Rnd 3 is right only if its ch 3 does not count as a stitch; in Rnd 1, Rnd 2 and Rnd 4 it does.",
    );
  });

  test.each(["2 dc", "0 dc", "inc"])("one that is said to count as %s, and is one stitch", (said) => {
    const text = `Rnd 1: Ch 3 (counts as ${said}), 11 dc in magic ring, join. (12 dc)`;
    expect(onlyFinding("chain-unlike", text).message).toBe(
      `Rnd 1 says that its ch 3 counts as ${said}, and the row is right only if it counts as one stitch.`,
    );
  });

  test.each([
    ["there are too few others", `${tall}Rnd 2: Ch 3, dc in each of next 12 dc, join. (12 dc)`],
    [
      "the row says so",
      `${circle}Rnd 3: Ch 3 (does not count), dc in each of next 24 dc, join. (24 dc)\nRnd 4: Ch 3, ${ends}`,
    ],
  ])("silent where %s", (_, text) => {
    expect(foundBy("chain-unlike", text)).toEqual([]);
  });
});

describe("chain-unlike, of rows and loops", () => {
  const rounds = (third: string) =>
    ["Rnd 1: Ch 1, 12 sc in mr, join.", "Rnd 2: Ch 1, sc in each st around, join.", third]
      .concat("Rnd 4: Ch 1, sc in each st around, join.", "Rnd 5: Ch 1, sc in each st around, join.")
      .map((line) => `${line} (12)`)
      .join("\n");

  test("the one joined round without a chain", () => {
    const text = rounds("Rnd 3: Sc in each st around, join.");
    expect(onlyFinding("chain-unlike", text).message).toBe(
      "Rnd 3 begins without a chain, and all other rows here with one. Was it left out?",
    );
    expect(foundBy("chain-unlike", rounds("Rnd 3: Ch 1, sc in each st around, join."))).toEqual([]);
    expect(
      foundBy(
        "chain-unlike",
        rounds("Rnd 3: Join B with a standing sc in first st, sc in next 11 sts, join."),
      ),
    ).toEqual([]);
  });

  test.each([
    "Rnd 3: Sl st in each st around, join.",
    "Rnd 3: *Ch 3, sl st in 3rd ch from hook, sl st in next 2 sts; rep from * around, join.",
    "Rnd 3: (Sc, hdc, sc) in next st, *sl st in next st, (sc, hdc, sc) in next st; rep from * around, join.",
    "Rnd 3: Sl st in next st, ch 1, sc in same st, sc in each st around, join.",
  ])("silent where a round comes up in another way: %s", (third) => {
    expect(foundBy("chain-unlike", rounds(third))).toEqual([]);
  });

  test("silent where another piece has other chains, and where a longer chain is another beginning", () => {
    const coaster = "Coaster\nRnd 1: Ch 3, 12 dc in mr, join. (12)\nFasten off.\n";
    const motif =
      "Motif\nRnd 1: Ch 3 (counts as dc), 11 dc in mr, join. (12)\nRnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24)\nRnd 3: Ch 3, dc in each of next 23 dc, join. (24)\nRnd 4: Ch 3, dc in each of next 23 dc, join. (24)";
    expect(foundBy("chain-unlike", coaster + motif)).toEqual([]);
    const mesh = "Ch 4 (counts as dc and ch 1), turn, sk next ch-1 sp, *dc in next dc, ch 1, sk next ch-1 sp";
    const text = [
      "Ch 13.",
      "Row 1: Dc in 4th ch from hook and in each ch across. (11)",
      "Row 2: Ch 3 (counts as dc throughout), turn, dc in each st across. (11)",
      "Row 3: Ch 4 (counts as dc and ch 1), turn, sk next st, *dc in next st, ch 1, sk next st; rep from * to last st, dc in last st. (6 dc)",
      ...[4, 5].map((n) => `Row ${n}: ${mesh}; rep from * to last dc, dc in last dc. (6 dc)`),
    ].join("\n");
    expect(foundBy("chain-unlike", text)).toEqual([]);
  });

  const loops = (last: string) =>
    `Rnd 1: Ch 1, 12 sc in mr, join. (12 sc)\nRnd 2: Ch 1, sc in same place, *ch 5, skip next 2 sc, sc in next sc; rep from * around, ending with ${last}. (4 loops)`;

  test("the last loop of another length", () => {
    expect(onlyFinding("chain-unlike", loops("ch 4, join")).message).toBe(
      "The last loop of Rnd 2 is of ch 4, and the others are of ch 5. Did you mean ch 5?",
    );
    expect(foundBy("chain-unlike", loops("ch 5, join"))).toEqual([]);
    expect(foundBy("chain-unlike", loops("ch 2, dc in first sc"))).toEqual([]);
  });
});

test("no-such-place: a join to the first increase of a round without one", () => {
  const round = (to: string) =>
    `Rnd 1: 12 sc in mr (12)\nRnd 2: Ch 1, sc in each st around, sl st in first ${to}. (12)`;
  const { on, message } = onlyFinding("no-such-place", round("inc"));
  expect([on, message]).toEqual(["inc", "Rnd 2 names the first inc, and it begins with no increase."]);
  expect(foundBy("no-such-place", round("sc"))).toEqual([]);
});

test("chain-unlike: a chain that counts throughout, and begins no other row", () => {
  const circle = (n: number) =>
    [
      `Rnd 1: Ch ${n} (counts as dc throughout), 11 dc in magic ring, join. (12 dc)`,
      "Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24 dc)",
      "Rnd 3: Ch 3, dc in each of next 23 dc, join. (24 dc)",
    ].join("\n");
  expect(foundBy("chain-unlike", circle(4)).map(({ message }) => message)).toEqual([
    "Rnd 1 says of its ch 4 that it counts throughout, and no other row begins with ch 4.",
  ]);
  expect(foundBy("chain-unlike", circle(3))).toEqual([]);
});
