import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

const start = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\n";
const flat = "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across (10)\n";

describe("mark-not-closed", () => {
  test.each([
    ["(sc, inc x6 (18)", 'Rnd 3 opens "(", and nothing closes it.', "(sc, inc) x6 (18)"],
    ["sc, inc) x6 (18)", 'Rnd 3 closes ")", and nothing opens it.', "(sc, inc) x6 (18)"],
    ["(sc, inc) x6 (18", 'Rnd 3 opens "(", and nothing closes it.', "(sc, inc) x6 (18)"],
    ["[sc, inc) x6 (18)", 'Rnd 3 opens "[" and closes it with ")".', "[sc, inc] x6 (18)"],
    [
      "sc, inc; rep from * around (18)",
      "Rnd 3 says to repeat from *, and there is no * in it.",
      "*sc, inc; rep from * around (18)",
    ],
    [
      "*sc, inc (18)",
      'Rnd 3 has one "*", and nothing in it goes back there.',
      "*sc, inc; rep from * around (18)",
    ],
    [
      "*sc in next st, inc around (18)",
      'Rnd 3 has one "*", and nothing in it goes back there.',
      "*sc in next st, inc; rep from * around (18)",
    ],
    ["sc, (sc, inc x5, inc (18)", 'Rnd 3 opens "(", and nothing closes it.', "sc, (sc, inc) x5, inc (18)"],
  ])("%s", (row, message, right) => {
    const text = `${start}Rnd 3: ${row}\nRnd 4: (2 sc, inc) x6 (24)\n`;
    expect(onlyFinding("mark-not-closed", text).message).toBe(message);
    expect(new Checker().check(text).findings).toHaveLength(1);
    const after = mended("mark-not-closed", text);
    expect(after).toBe(`${start}Rnd 3: ${right}\nRnd 4: (2 sc, inc) x6 (24)\n`);
    expectClean(after);
  });

  test("where two places would do, none is offered", () => {
    const [found] = foundBy("mark-not-closed", `${start}Rnd 3: sc in next 11 sts, (sc in next st (12)\n`);
    expect(found?.message).toBe('Rnd 3 opens "(", and nothing closes it. Show what is to be repeated.');
    expect(found?.fixes).toEqual([]);
  });

  test.each([
    ["a times sign", "(sc, inc) * 6 (18)"],
    ["a times sign without a gap", "(sc, inc)*6 (18)"],
    ["a pair of asterisks", "*sc, inc* x6 (18)"],
    ["an asterisk and a repeat", "*sc, inc; rep from * around (18)"],
    ["an asterisk and a bare repeat", "*sc, inc, repeat around (18)"],
    ["brackets in brackets", "[sc, (sc, sc) in next st] x6 (18)"],
  ])("is silent on %s", (_, row) => {
    expect(foundBy("mark-not-closed", `${start}Rnd 3: ${row}\n`)).toEqual([]);
  });
});

describe("no-such-row", () => {
  test.each([
    [
      "Rep Rnd 9. (12)",
      "Rnd 4 names row 9, and there is no row 9 above it. Did you mean 3?",
      "Rep Rnd 3. (12)",
    ],
    ["As Rnd 7. (24)", "Rnd 4 names row 7, and there is no row 7 above it.", null],
    [
      "Rep Rnd 7. (6)",
      "Rnd 4 names row 7, and there is no row 7 above it. Did you mean 1?",
      "Rep Rnd 1. (6)",
    ],
  ])("%s", (row, message, right) => {
    const text = `${start}Rnd 3: sc in each st around (12)\nRnd 4: ${row}\n`;
    expect(onlyFinding("no-such-row", text).message).toBe(message);
    expect(foundBy("not-understood", text)).toEqual([]);
    if (right) expect(mended("no-such-row", text)).toBe(text.replace(row, right));
  });

  test("a row that only another piece has, in a piece with numbers of its own", () => {
    const text = `Body\n${start}Rnds 3-9: sc in each st around (12)\n\nEar\n${start}Rnd 3: Rep Rnd 8. (12)\n`;
    expect(onlyFinding("no-such-row", text).message).toBe(
      "Rnd 3 names row 8, and there is no row 8 above it. Did you mean 2?",
    );
    expect(foundBy("no-such-row", text.replace("Rnd 8.", "Rnd 8 of body."))).toEqual([]);
  });

  test("a row that the named piece does not have", () => {
    const text = `Front\n${start}Rnds 3-9: sc in each st around (12)\n\nBack\nRnds 1-12: As Rnds 1-12 of Front. (12)\n`;
    expect(onlyFinding("no-such-row", text).message).toBe(
      "Rnds 1-12 name row 10, and there is no row 10 in the front.",
    );
    expect(foundBy("no-such-row", text.replaceAll("1-12", "1-9"))).toEqual([]);
  });

  test("of several rows alike the one that a slip of the finger makes of the number", () => {
    const text = `${start}Rnds 3-10: sc in each st around (12)\nRnds 11-14: Rep Rnd 22. (12)\n`;
    expect(onlyFinding("no-such-row", text).message).toContain("Did you mean 2?");
    expect(onlyFinding("no-such-row", text.replace("Rnd 22", "Rnd 456")).message).not.toContain("Did you");
  });

  test("rows that are named together are meant together", () => {
    const rows = [...Array(18).keys()].map((i) => `Rnd ${i + 3}: sc in each st around (12)\n`).join("");
    const text = `${start}${rows}Rnds 21-28: Rep Rnds 29 and 30. (12)\n`;
    expect(onlyFinding("no-such-row", text).message).toContain("Did you mean 19 and 20?");
    expect(mended("no-such-row", text)).toContain("Rep Rnds 19 and 20. (12)");
  });

  test("loops of a row that is not there", () => {
    const text = `${start}Rnd 3: in front loops of Rnd 7, sc in each st around (12)\n`;
    expect(foundBy("no-such-row", text).length + foundBy("not-understood", text).length).toBe(1);
  });

  test.each([
    ["a row of an earlier piece", `Base\n${start}Sides\nRnd 3: Rep Rnd 2. (24)\n`],
    ["rows of something else", `Body\n${start}Ear\nRnds 1-9: As Rnds 1-9 of the leg. (12)\n`],
    ["another piece named before its rows", `Arm\nRnds 1-9: same as leg rnds 1-9 (12)\n`],
    ["the row before", `${start}Rnd 3: Rep last rnd. (24)\n`],
    ["a chart", `${start}Rnd 3: Work as shown in the chart. (24)\n`],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("no-such-row", text)).toEqual([]);
  });

  test("an edit of an earlier piece is seen", () => {
    const before = `Base\n${start}Sides\nRnd 3: Rep Rnd 2. (24)\n`;
    const after = before.replace("Rnd 2: inc", "Rnd 8: inc");
    const shown = (checker: Checker, text: string): string => JSON.stringify(checker.check(text).findings);
    const kept = new Checker();
    kept.check(before);
    expect(shown(kept, after)).toBe(shown(new Checker(), after));
    expect(shown(kept, before)).toBe(shown(new Checker(), before));
  });
});

describe("against-notes", () => {
  const counts =
    "Notes\nCh 3 counts as a dc.\n\nCh 12.\nRow 1: Dc in 4th ch from hook and in each ch across. (10 dc)\n";
  const byNote = "Row 2: Ch 3, turn, sk first dc, dc in next 9 dc. (10 dc)\n";

  test("a row that is worked as if the chain did not count", () => {
    const text = `${counts}${byNote}Row 3: Ch 3, turn, dc in next 10 dc. (10 dc)\n`;
    const { message, related, severity } = onlyFinding("against-notes", text);
    expect(severity).toBe("error");
    expect(message).toMatch(
      /^By the note Row 3 needs 11 stitches; Row 2 has 10\. Row 3 is right only if its ch 3 does not count\./,
    );
    expect(related.map((one) => one.message)).toEqual([
      "Here the pattern says that ch 3 counts as a stitch.",
    ]);
    expect(new Checker().check(text).findings).toHaveLength(1);
    const after = mended("against-notes", text, 'Add "(does not count as a st)"');
    expect(after).toContain("Row 3: Ch 3 (does not count as a st), turn, dc in next 10 dc.");
    expectClean(after);
    expectClean(mended("against-notes", text));
  });

  test("a note that no row goes by is told once", () => {
    const rows =
      "Row 2: Ch 3, turn, dc in next 10 dc. (10 dc)\nRow 3: Ch 3, turn, dc in each of next 10 dc. (10 dc)\n";
    const text = `${counts}${rows}`;
    const { message, on } = onlyFinding("against-notes", text);
    expect(on).toBe("Ch 3 counts as a dc.");
    expect(message).toBe(
      "The notes say that ch 3 counts as a stitch. Row 2 and Row 3 are right only if it does not, and no row goes by the note.",
    );
    const after = mended("against-notes", text);
    expect(after).toContain("Ch 3 does not count as a dc.");
    expectClean(after);
  });

  test("a note is told once, too, where the rows fit and only their counts speak against it", () => {
    const square =
      "Ch 4, join to form ring.\nRnd 1: Ch 3, 11 dc in ring, join. (12 dc)\nRnd 2: Ch 3, dc in same st, 2 dc in next 11 sts, join. (24 dc)\n";
    const text = `Notes\nCh 3 does not count as a st.\n\n${square}`;
    expect(onlyFinding("against-notes", text).on).toBe("Ch 3 does not count as a st.");
    expect(new Checker().check(text).findings).toHaveLength(1);
    expectClean(mended("against-notes", text));
  });

  test("of one row whose count is off by one, the count may be the slip", () => {
    const text = `Notes\nCh 3 does not count as a st.\n\nCh 4, join to form ring.\nRnd 1: Ch 3, 12 dc in ring, join. (12 dc)\nRnd 2: Ch 3, 2 dc in each st around, join. (25 dc)\n`;
    expect(foundBy("against-notes", text)).toEqual([]);
    expect(foundBy("wrong-count", text)).toHaveLength(1);
  });

  // An error of the notation survey: a round skips its first stitch for a ch 1 that "does not count".
  test("a first stitch passed over for a chain that does not count", () => {
    const text = `Notes\nCh 1 does not count as a st.\n\n${flat}Row 2: Ch 1, turn, sk first sc, sc in next 9 sc. (10)\n`;
    expect(onlyFinding("against-notes", text).message).toBe(
      "By the note Row 2 makes 9; the line says 10. Row 2 is right only if its ch 1 does count.",
    );
  });

  test.each([
    ["a row that goes by the note", `${counts}${byNote}`],
    [
      "a row that says otherwise itself",
      `${counts}Row 2: Ch 3 (does not count), turn, dc in each dc. (10 dc)\n`,
    ],
    ["a slip in a count", `${counts}${byNote.replace("(10 dc)", "(11 dc)")}`],
    [
      "a slip in a number under a ch 1",
      `Notes\nCh 1 does not count.\n\n${flat}Row 2: Ch 1, turn, sc in next 9 sc. (10)\n`,
    ],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("against-notes", text)).toEqual([]);
  });
});

// The notation survey found "5 times" to be five in all in five patterns and five more in four.
describe("times-two-ways", () => {
  const [more, inAll] = [
    "Rnd 3: *sc, inc; rep from * 5 times (18)\n",
    "Rnd 4: *2 sc, inc; rep from * 6 times (24)\n",
  ];

  test("the row that differs from the first is told", () => {
    const text = `${start}${more}${inAll}`;
    const { message, on } = onlyFinding("times-two-ways", text);
    expect(on).toBe("6 times");
    expect(message).toBe(
      '"6 times" in Rnd 4 means 6 times in all; "5 times" in Rnd 3 means 5 more times. Write "5 more times" in Rnd 4 to leave no doubt.',
    );
    expectClean(mended("times-two-ways", text));
  });

  test("the rarer way is told, wherever it stands", () => {
    const text = `${start}${more}${inAll}Rnd 5: *3 sc, inc; rep from * 6 times (30)\n`;
    expect(onlyFinding("times-two-ways", text).on).toBe("5 times");
    expect(mended("times-two-ways", text)).toContain("rep from * 5 more times (18)");
    expectClean(mended("times-two-ways", text));
  });

  const clearly = (n: number): string => `*${n} sc, inc; rep from * 5 more times (${6 * (n + 2)})\n`;

  test("five in all, among rows that say it clearly", () => {
    const text = `${start}Rnd 3: ${clearly(1)}Rnd 4: ${clearly(2)}Rnd 5: ${clearly(3)}Rnd 6: *4 sc, inc; rep from * 6 times (36)\n`;
    expect(onlyFinding("times-two-ways", text).message).toBe(
      '"6 times" in Rnd 6 means 6 times in all; Rnd 3 and others say "5 more times". Write "5 more times" in Rnd 6 to leave no doubt.',
    );
    expectClean(mended("times-two-ways", text));
  });

  test.each([
    [
      "few rows that say it clearly",
      `${start}Rnd 3: ${clearly(1)}Rnd 4: *2 sc, inc; rep from * 6 times (24)\n`,
    ],
    ["one way throughout", `${start}${more}Rnd 4: *2 sc, inc; rep from * 5 times (24)\n`],
    ["words that leave no doubt", `${start}${more}Rnd 4: (2 sc, inc) 6 times (24)\n`],
    [
      "a bracket repeat",
      `${start}Rnd 3: (sc, inc) 6 times (18)\nRnd 4: *2 sc, inc; rep from * 5 more times (24)\n`,
    ],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("times-two-ways", text)).toEqual([]);
  });
});

describe("chain-two-ways", () => {
  const rows = (said: string): string =>
    `Ch 12.\nRow 1: Hdc in 3rd ch from hook and in each ch across. (10 hdc)\nRow 2: Ch 2${said}, turn, hdc in each st across. (10 hdc)\n`;
  const notes = (note: string): string => `Notes\n${note}\n\n`;

  test("a row against the notes", () => {
    const text =
      notes("Ch 2 at the beginning of a row does not count as a stitch.") + rows(" (counts as hdc)");
    expect(onlyFinding("chain-two-ways", text).on).toBe("(counts as hdc)");
    expectClean(mended("chain-two-ways", text));
  });

  test.each([
    notes("Ch 2 does not count as a stitch unless told otherwise.") + rows(" (counts as hdc)"),
    notes("Ch 2 does not count as a stitch.") + rows(" (does not count as a st)"),
    notes("Ch 3 counts as a stitch.") + rows(" (does not count as a st)"),
    rows(" (counts as hdc)"),
  ])("is silent", (text) => expect(foundBy("chain-two-ways", text)).toEqual([]));
});
