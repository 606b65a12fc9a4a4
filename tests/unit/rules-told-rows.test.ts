import { describe, expect, test } from "vitest";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

// Trade practice: "placement rows exist" and "repeated rows exist" are lines of the usual technical editor's checklist.
describe("no-such-placement, for parts of rows and rows of other pieces", () => {
  const crown = "Crown\nRnd 1: 10 sc in mr (10)\nRnd 2: 2 sc in each st around (20)\nFasten off.\n";
  const flap = `First flap
Worked on the first 7 sts of Rnd 2.
Row 1: Sc in next 7 sts, turn. (7)
Row 2: Sc in next 7 sts, turn. (7)
Fasten off.
`;
  const second = (row: number, last: number) =>
    `Second flap\nSkip the next 3 sts of Rnd ${row} and join yarn in the next st. Work Rows 1 to ${last} of the first flap.\n`;

  test("stitches of a round that no piece has", () => {
    expect(onlyFinding("no-such-placement", crown + flap + second(5, 2)).on).toBe("Rnd 5");
  });

  test("rows that the other piece does not have", () => {
    const { on, message } = onlyFinding("no-such-placement", crown + flap + second(2, 4));
    expect([on, message]).toEqual([
      "Rows 1 to 4",
      '"First flap" has no row 4: the last is 2. Say where it goes on the rows that are there.',
    ]);
  });

  test("up to a row that the other piece does not have", () => {
    const half =
      "First half\nCh 8.\nRow 1: Sc in 2nd ch from hook and in each ch across. (7)\nRow 2: Ch 1, turn, sc in each st across. (7)\nFasten off.\n";
    const as = (row: string) => `${half}Second half\nWork as first half to the end of the ${row} row.\n`;
    expect(onlyFinding("no-such-placement", as("12th")).on).toBe("12th row");
    expect(foundBy("no-such-placement", as("2nd"))).toEqual([]);
  });

  test("silent on rows that are there", () => {
    expect(foundBy("no-such-placement", crown + flap + second(2, 2))).toEqual([]);
  });
});

// Trade practice: "Starting-chain rules declared once and obeyed" is a line of that checklist.
describe("chain-two-ways, for the one row that begins otherwise", () => {
  const rounds = (third: number) => `Rnd 1: Ch 2, 10 hdc in magic ring, join. (10)
Rnd 2: Ch 2, 2 hdc in each st around, join. (20)
Rnd 3: Ch ${third}, hdc in each st around, join. (20)
Rnd 4: Ch 2, hdc in each st around, join. (20)
Rnd 5: Ch 2, hdc in each st around, join. (20)
`;

  test("is told and mended", () => {
    const { on, message } = onlyFinding("chain-two-ways", rounds(3));
    expect([on, message]).toEqual([
      "3",
      "Rnd 3 begins with ch 3, and the other 4 rows that begin with hdc have ch 2 before it. Did you mean ch 2?",
    ]);
    expect(mended("chain-two-ways", rounds(3))).toBe(rounds(2));
  });

  test.each([
    ["rows that all begin alike", rounds(2)],
    ["a row that says what its chain is", rounds(2).replace("Rnd 3: Ch 2,", "Rnd 3: Ch 3 (does not count),")],
    [
      "a decrease that begins with a lower chain",
      `Notes: Ch 3 counts as a dc.
Ch 12.
Row 1: Dc in 4th ch from hook and in each ch across. (10)
Row 2: Ch 3, turn, sk first st, dc in each st across. (10)
Row 3: Ch 3, turn, sk first st, dc in each st across. (10)
Row 4: Ch 2, turn, sk first st, dc in each st across. (9)
Row 5: Ch 3, turn, sk first st, dc in each st across. (9)
`,
    ],
  ])("silent on %s", (_, text) => {
    expect(foundBy("chain-two-ways", text)).toEqual([]);
  });
});

describe("placed-too-late, in other words", () => {
  const toy = (...sentences: readonly string[]) => `Materials: two 8 mm safety eyes

Head
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: dec x6 (6)
${sentences.join("\n")}
`;

  test.each([
    ["Fasten off. Pull the last 6 sts tight.", "Pop the eyes in between Rnds 1 and 2."],
    ["Cut yarn, weave through the 6 front loops and pull it closed.", "Place the eyes between Rnds 1 and 2."],
  ])("%s", (closing, eyes) => {
    expect(onlyFinding("placed-too-late", toy(closing, eyes)).on).toBe(eyes);
    expect(foundBy("placed-too-late", toy(eyes, closing))).toEqual([]);
  });
});

describe("unlisted-yarn, by what is made of it", () => {
  const hat = (last: string) => `DK wool: 1 x 50 g ball each of navy (N) and sky (S).

With N, ch 7.
Row 1: Sc in 2nd ch from hook and in each ch across. (6)
With S:
Row 2: Ch 1, turn, sc in each st across. (6)
Fasten off. ${last}
`;

  test.each(["Make a cream pompom.", "Cut 6 lengths of pink.", "Join T and work one round of sc."])(
    "%s",
    (last) => {
      expect(foundBy("unlisted-yarn", hat(last))).toHaveLength(1);
    },
  );

  test("silent on what is listed", () => {
    expectClean(hat("Make a navy pompom of 6 strands of sky."));
  });
});

describe("unlisted-yarn, where nothing is a yarn", () => {
  test("silent on words that close a sentence behind join", () => {
    const text =
      "Materials\nDK cotton: 50 g red, 10 g white\n\nNever join unless asked.\nWith red:\nRnd 1: 6 sc in magic ring (6)\nChange to white.\nRnd 2: inc x6 (12)\n";
    expect(foundBy("unlisted-yarn", text)).toEqual([]);
  });
});
