import { describe, expect, test } from "vitest";
import { frontRules } from "../../server/src/rules/all-rules";
import { hookLabelOf } from "../../server/src/trade/hooks";
import { Checker } from "../../server/src/workspace/checker";
import { readCases } from "../spec/case-file";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

/*
 * Rules on what a pattern lists and what it uses. "Colours, hooks, notions listed = used", "mm always
 * beside a hook letter", "metric and imperial agree", "terms declared; no stitch of the other dialect",
 * "abbreviations used = defined, one meaning each", "size lists of equal length" are lines of the usual
 * technical editor's checklist; the texts are invented.
 */

const worked = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x6 (12)\n";
const flat = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n";

describe("undefined-abbreviation", () => {
  const list = "Abbreviations\nsc - single crochet\nch - chain\n";

  test("is told once, where a row uses it first, with what to add", () => {
    const text = `${list}\n${flat}Row 2: Ch 1, turn, hdc in each st across. (10)\nRow 3: Ch 1, turn, hdc in each st across. (10)\n`;
    const { on, message, severity, related } = onlyFinding("undefined-abbreviation", text);
    expect([on, severity]).toEqual(["hdc", "warning"]);
    expect(message).toBe(
      '"hdc" is used, in Row 2 first, and is not in the list of abbreviations. Add "hdc - half double crochet".',
    );
    expect(related.map((one) => one.message)).toEqual(["The list of abbreviations."]);
    const after = mended("undefined-abbreviation", text);
    expect(after).toContain("ch - chain\nhdc - half double crochet\n\nCh 11.");
    expectClean(after);
  });

  test("a UK pattern gets the UK name", () => {
    const text = `Terms: UK\nAbbreviations: dc = double crochet; ch = chain\n\n${flat.replaceAll("Sc", "Dc")}Row 2: 2ch, turn, htr in each st across. (10)\n`;
    expect(mended("undefined-abbreviation", text)).toContain("ch = chain; htr = half treble crochet\n");
  });

  test("a loop that a row names before its colon is used, not explained", () => {
    const text = `${list}\n${flat}Row 2: BLO: sc in each st across, turn. (10)\n`;
    expect(onlyFinding("undefined-abbreviation", text).on).toBe("BLO");
    expect(foundBy("undefined-abbreviation", text.replace(list, `${list}BLO: back loop only\n`))).toEqual([]);
  });

  test.each([
    ["there is no list", `${flat}Row 2: Ch 1, turn, hdc in each st across. (10)\n`],
    ["the list is only of special ones", `Special abbreviations\nbobble: 5 dc tog in one st\n\n${flat}`],
    ["the list is printed elsewhere", `ABBREVIATIONS see page 98\n\n${flat}`],
    ["everybody knows it", `${list}\n${flat}Row 2 (RS): Ch 1, turn, inc, sc in next 8 sts, inc. (12 sts)\n`],
    ["the plural is listed", `${list}sp(s) - space(s)\n\nRnd 1: 6 sc in magic ring (6)\n`],
    [
      "another spelling is listed",
      `${list}slst - slip stitch\n\n${flat}Row 2: Sl st in each st across. (10 sl sts)\n`,
    ],
    [
      "its meaning is listed under a shorter name",
      `${list}sl - slip stitch\n\n${flat}Row 2: Sl st in each st across. (10 sl sts)\n`,
    ],
    [
      "one like it is listed",
      `${list}sc2tog - single crochet 2 together\n\n${flat}Row 2: Ch 1, turn, sc in each of next 7 sts, sc3tog. (8)\n`,
    ],
    [
      "a note explains it",
      `${list}\nNotes\nWork half double crochet (hdc) loosely.\n\n${flat}Row 2: Ch 1, turn, hdc in each st across. (10)\n`,
    ],
    [
      "the row explains it",
      `${list}\n${flat}Row 2: Ch 1, turn, work a half double crochet (hdc) in each st across. (10)\n`,
    ],
    ["it is a whole word", `${list}\nRnd 1: (2 sc, picot) x3 in magic ring, join. (6 sc)\n`],
  ])("is not told where %s", (_, text) => {
    expect(foundBy("undefined-abbreviation", text)).toEqual([]);
  });
});

describe("defined-twice", () => {
  test("with two meanings: either may be kept", () => {
    const text = `Abbreviations\nsc - single crochet\ncl - cluster\ncl - colour\n\n${worked}`;
    const { on, message, fixes } = onlyFinding("defined-twice", text);
    expect(on).toBe("cl - colour");
    expect(message).toBe(
      '"cl" is in the list of abbreviations twice: as "cluster" and as "colour". Keep the one that is right.',
    );
    expect(fixes.map(({ title }) => title)).toEqual(['Keep "cluster"', 'Keep "colour"']);
    expect(mended("defined-twice", text, 'Keep "colour"')).toContain("sc - single crochet\ncl - colour\n");
  });

  test("with one meaning: the second can go", () => {
    const text = `Abbreviations: sc = single crochet, inc = increase, sc = Single crochet\n\n${worked}`;
    expect(mended("defined-twice", text)).toContain("Abbreviations: sc = single crochet, inc = increase\n");
  });

  test("with its plural, and without", () => {
    const text = `Abbreviations\nsc - single crochet\nst(s) - stitch(es)\nst - stitch marker\n\n${worked}`;
    expect(onlyFinding("defined-twice", text).on).toBe("st - stitch marker");
  });

  test("letters in another case are another abbreviation; two names may mean the same", () => {
    const text = `Abbreviations\nMC - main colour\nmc - magic circle\nss - slip stitch\nsl st - slip stitch\n\n${worked}`;
    expect(foundBy("defined-twice", text)).toEqual([]);
  });
});

describe("unused-abbreviation", () => {
  test("is a hint, and can be taken out", () => {
    const text = `Abbreviations\nsc - single crochet\nBLO - back loop only\ninc - increase\n\n${worked}`;
    const { on, severity } = onlyFinding("unused-abbreviation", text);
    expect([on, severity]).toEqual(["BLO - back loop only", "hint"]);
    const after = mended("unused-abbreviation", text);
    expect(after).toBe(`Abbreviations\nsc - single crochet\ninc - increase\n\n${worked}`);
    expectClean(after);
  });

  test.each([
    ["in another spelling", "slst - slip stitch", "Rnd 3: Sl st in each st around. (12 sl sts)"],
    ["as a part of another", "tog - together", "Rnd 3: sc2tog x6 (6)"],
    ["in capitals", "rs - right side", "Turn to the RS and fasten off."],
    ["in a sentence", "pm - place marker", "Pm in the last st."],
    ["in the head of a row", "rnd(s) - round(s)", "Rnds 3-4: sc in each st around (12)"],
    ["with a number before it", "X - single crochet", "Rnd 3: 12X (12)"],
  ])("used %s", (_, entry, row) => {
    expect(
      foundBy(
        "unused-abbreviation",
        `Abbreviations\nsc - single crochet\ninc - increase\n${entry}\n\n${worked}${row}\n`,
      ),
    ).toEqual([]);
  });

  test("what special stitches, gauge and other entries use is used", () => {
    const text = `Gauge: 12 hdc = 10 cm\n\nAbbreviations\nsc - single crochet\nhdc - half double crochet\ninc - 2 sc in the same st\nst - stitch\nyo - yarn over\n\nSpecial stitches\nPuff: (yo, insert hook, pull up a loop) 3 times in one place\n\n${worked}`;
    expect(foundBy("unused-abbreviation", text)).toEqual([]);
  });
});

describe("mixed-terms", () => {
  test("a UK name in a pattern that says US terms, and the name to write", () => {
    const text = `Terms: US\n\n${flat}Row 2: Ch 2, turn, htr in next 5 sts, htr in each st across. (10)\n`;
    const { on, message } = onlyFinding("mixed-terms", text);
    expect(on).toBe("htr");
    expect(message).toBe('"htr" is a UK name, and the pattern says US terms. In US terms the stitch is hdc.');
    const after = mended("mixed-terms", text);
    expect(after).toContain("Row 2: Ch 2, turn, hdc in next 5 sts, hdc in each st across. (10)");
    expectClean(after);
  });

  test("a US name in a pattern that says UK terms", () => {
    const text = `Terms: UK\n\nRnd 1: 6 dc in magic ring (6)\nRnd 2: 2 hdc in each st (12)\n`;
    expect(onlyFinding("mixed-terms", text).message).toContain("In UK terms the stitch is htr.");
  });

  test("a list that gives a name of the other terms as such explains nothing", () => {
    const text = `Terms: UK\n\nAbbreviations\nsc = single crochet\nch = chain\n\n${flat}`;
    expect(onlyFinding("mixed-terms", text).on).toBe("Sc");
    const own = text.replace("sc = single crochet", "sc = spiral cord, 3 ch");
    expect(foundBy("mixed-terms", own)).toEqual([]);
  });

  test("names of both where nothing is said", () => {
    const text = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: 2 htr in each st (12)\n";
    expect(onlyFinding("mixed-terms", text).message).toMatch(
      /"(?:sc|htr)" is a (?:US|UK) name, and "(?:sc|htr)" in Rnd [12] a (?:US|UK) one/,
    );
  });

  test.each([
    [
      "a gloss in brackets",
      "Terms: US\n\nRnd 1: 6 sc (UK dc) in magic ring (6)\nRnd 2: 2 hdc (UK htr) in each st (12)\n",
    ],
    [
      "a gloss in other brackets",
      "Terms: US\n\nRnd 1: 6 sc in magic ring (6)\nRnd 2: 2 hdc [UK: htr] in each st (12)\n",
    ],
    [
      "a table of both",
      "Terms: US\n\nAbbreviations\nsc - single crochet (UK dc)\nhdc - half double crochet (UK htr)\n\nRnd 1: 6 sc in magic ring (6)\n",
    ],
    [
      "words that prove little",
      "Terms: US\n\nTension: 12 sc = 10 cm\n\nRnd 1: 6 sc in magic ring (6)\nRnd 2: miss 1 st, 2 sc in next 5 sts (10)\n",
    ],
    ["one dialect", "Terms: UK\n\nRnd 1: 6 dc in magic ring (6)\nRnd 2: 2 htr in each st (12)\n"],
  ])("%s is no mixture", (_, text) => {
    expect(foundBy("mixed-terms", text)).toEqual([]);
  });
});

describe("untold-terms", () => {
  const cloth =
    "Materials: cotton, 4 mm hook\n\nCh 18.\nRow 1: Dc in 4th ch from hook and in each ch across. (16 dc)\n";

  test("is a note, and either can be written", () => {
    const { on, severity, message } = onlyFinding("untold-terms", `Cloth\n\n${cloth}`);
    expect([on, severity]).toEqual(["Dc", "information"]);
    expect(message).toContain('"dc" is one stitch in US and another in UK terms');
    const after = mended("untold-terms", `Cloth\n\n${cloth}`, 'Write "Terms: US"');
    expect(after.startsWith("Cloth\n\nTerms: US\n\nMaterials")).toBe(true);
    expectClean(after);
  });

  test.each([
    ["they are told", `UK terms throughout\n\n${cloth}`],
    ["a stitch tells them", `${cloth}Row 2: Ch 1, turn, sc in each st across. (16 sc)\n`],
    ["a list tells them", `Abbreviations\ndc - double crochet\nhtr - half treble\n\n${cloth}`],
    [
      "no stitch differs",
      "Materials: cotton, 4 mm hook\n\nCh 11.\nRow 1: Sl st in 2nd ch from hook and in each ch across. (10 sl sts)\n",
    ],
    ["there is no front matter", cloth.replace("Materials: cotton, 4 mm hook\n\n", "")],
  ])("nothing is said where %s", (_, text) => {
    expect(foundBy("untold-terms", text)).toEqual([]);
  });
});

describe("yarns", () => {
  const rows = "Rnd 1: 6 sc in magic ring (6)\nChange to white.\nRnd 2: inc x6 (12)\n";
  const listed = "Materials\nCotton: 50 g red, 20 g white\n\n";

  test("a colour that the list leaves out", () => {
    const text = `${listed}With red:\n${rows}Change to navy.\nRnd 3: sc in each st around (12)\nChange to navy.\n`;
    const { on, message } = onlyFinding("unlisted-yarn", text);
    expect(on).toBe("navy");
    expect(message).toBe(
      '"navy" is used here, and the list of yarns has red and white. Add it to the list, or write the name that is meant.',
    );
    const after = mended("unlisted-yarn", text);
    expect(after).toContain("Cotton: 50 g red, 20 g white, navy\n");
    expectClean(after);
  });

  test("a letter that the list leaves out", () => {
    const text = `Colours: A (navy), B (cream)\n\nWith A, ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\nJoin B.\nRow 2: Ch 1, turn, sc in each st across. (10)\nChange to C.\nRow 3: Ch 1, turn, sc in each st across. (10)\n`;
    expect(onlyFinding("unlisted-yarn", text).message).toContain(
      "Yarn C is used here, and the list of yarns has navy (A) and cream (B).",
    );
  });

  test.each([
    ["a colour of a heading", "Wing (make 2, navy)", '"navy" is used here'],
    ["two colours of a heading", "Wing (in red and navy)", '"navy" is used here'],
    ["a colour behind a dash", "Wing – dark green", '"dark green" is used here'],
    ["a letter that a heading calls a yarn", "Wing (Yarn C, make 2)", "Yarn C is used here"],
  ])("%s that the list leaves out", (_, heading, says) => {
    const text = `Materials\nCotton: 50 g red (A), 20 g white (B)\n\nBody (red)\n${rows}\n${heading}\n${worked}`;
    expect(onlyFinding("unlisted-yarn", text).message).toContain(says);
  });

  test("a colour at the end of a sentence", () => {
    const text = `${listed}With red:\n${rows}Embroider a mouth with brown.\n`;
    expect(onlyFinding("unlisted-yarn", text).on).toBe("brown");
    expect(foundBy("unlisted-yarn", text.replace("with brown", "with white"))).toEqual([]);
    expect(foundBy("unlisted-yarn", text.replace("with brown", "with care"))).toEqual([]);
  });

  test.each([
    ["a colour that is listed", "Wing (make 2, white)"],
    ["a letter that only tells pieces apart", "Square (C)"],
    ["words that are no colours", "Wing (left and right)"],
    ["a piece that is called like a colour", "Orange slice"],
  ])("%s in a heading leaves nothing to find", (_, heading) => {
    const text = `Materials\nCotton: 50 g red (A), 20 g white (B)\n\nBody (red)\n${rows}\n${heading}\n${worked}`;
    expect(foundBy("unlisted-yarn", text)).toEqual([]);
  });

  test("a colour that nothing takes up, where every heading names its own", () => {
    const text = `Materials\nCotton: 50 g red, 20 g white, 5 g pink\n\nBody (red)\n${worked}\nEar (make 2, white)\n${worked}`;
    expect(onlyFinding("unused-yarn", text).on).toBe("5 g pink");
  });

  test("what goes on from another piece begins with no yarn of its own", () => {
    const text = `Materials\nCotton: 50 g red (A), 20 g white (B), 5 g pink (C)\n\nBase\nWith A:\n${worked}\nSides\nRnd 3: sc in each st around (12)\nChange to B.\nRnd 4: sc in each st around (12)\n`;
    expect(onlyFinding("unused-yarn", text).on).toBe("5 g pink (C)");
  });

  test("a yarn whose letter leads its line is one yarn", () => {
    const text = `Materials\nYarn A: Bulky chenille, cream, 100 g\nYarn B: Worsted acrylic, grey, 40 g\n\nBody (Yarn A)\n${worked}\nTail (Yarn C)\n${worked}`;
    expect(onlyFinding("unlisted-yarn", text).message).toContain("has cream (A) and grey (B)");
  });

  test.each([
    ["no list of yarns", `With red:\n${rows}`],
    ["a list without colours", `Materials\n120 g worsted cotton\n\nWith red:\n${rows}`],
    ["a shorter name", `Materials\nCotton: 50 g barn red, 20 g foam white\n\nWith red:\n${rows}`],
    ["a list of letters, rows with colours", `Yarn: A, B\n\nWith red:\n${rows}`],
    ["letters in a row of letters", "Yarn: A-C, 50 g each\n\nRnd 1: With B, 6 sc in magic ring (6)\n"],
    [
      "words that are no colours",
      `${listed}With red:\n${rows}With right side facing, sew the pieces.\nChange to a smaller hook.\nWith wrong sides together:\nJoin with sl st.\nChange to rows.\n`,
    ],
    [
      "grey and gray",
      "Materials\nCotton: 50 g red, 20 g grey\n\nWith red:\nRnd 1: 6 sc in magic ring (6)\nChange to gray.\nRnd 2: inc x6 (12)\n",
    ],
    ["black thread among the notions", `${listed}With red:\n${rows}With black thread, embroider the eyes.\n`],
  ])("%s leaves nothing to find", (_, text) => {
    expect(foundBy("unlisted-yarn", text).filter(({ message }) => !message.includes("black"))).toEqual([]);
  });

  test("a colour of the list that nothing takes up", () => {
    const text = `Materials\nCotton: 50 g red, 10 g navy and 20 g white\n\nWith red:\n${rows}`;
    const { on, message } = onlyFinding("unused-yarn", text);
    expect(on).toBe("10 g navy");
    expect(message).toBe("navy is in the list of yarns, and no row and no sentence takes it up.");
    const after = mended("unused-yarn", text);
    expect(after).toContain("Cotton: 50 g red and 20 g white\n");
    expectClean(after);
  });

  test.each([
    ["the colour a piece begins with", `Materials\nCotton: 50 g red, 20 g white\n\n${rows}`],
    [
      "the colour of a heading",
      `Materials\nCotton: 50 g honey, 20 g white, 10 g red\n\nHEAD (honey)\n${rows}\nEAR (red)\n${worked}`,
    ],
    [
      "colours in a chart",
      `Materials\nCotton: 50 g red, 20 g white, 5 g navy\n\nWith red:\n${rows}Follow the chart from here.\n`,
    ],
    [
      "stripes",
      `Materials\nCotton: 50 g red, 20 g white, 5 g navy\n\nWith red:\n${rows}Work 3 rows in each of the other colours.\n`,
    ],
    [
      "letters that stand for the colours",
      "Yarn: 50 g red (A), 20 g white (B)\n\nRnd 1: With A, 6 sc in magic ring (6)\nRnd 2: With B, inc x6 (12)\n",
    ],
    [
      "a colour named in the middle of a row",
      `${listed}With red:\nRnd 1: 6 sc in magic ring, changing to white in the last st (6)\n`,
    ],
    [
      "thread for a face",
      `Materials\nCotton: 50 g red, 20 g white, black embroidery thread\n\nWith red:\n${rows}`,
    ],
    ["no colour named at all", `Materials\nGreen yarn, white yarn\n\n${worked}`],
  ])("%s is no unused yarn", (_, text) => {
    expect(foundBy("unused-yarn", text)).toEqual([]);
  });
});

describe("unlisted-hook", () => {
  test("is told with the hooks of the list", () => {
    const text = `Materials\n4 mm (G/6) hook\n\n${flat}Change to a 5 mm hook.\nRow 2: Ch 1, turn, sc in each st across. (10)\n`;
    const { on, message } = onlyFinding("unlisted-hook", text);
    expect(on).toBe("5 mm");
    expect(message).toBe(
      "A hook of 5 mm is used here, and the materials list 4 mm (G/6). Add it to the list, or write the size that is meant.",
    );
    const after = mended("unlisted-hook", text);
    expect(after).toContain("4 mm (G/6) hook\n5 mm (H/8) hook\n");
    expectClean(after);
  });

  test("is told where the list says its size behind a comma", () => {
    const text = `Materials\nCrochet hook, size G/6 (4.0 mm)\n\n${flat}Change to a 5 mm hook.\nRow 2: Ch 1, turn, sc in each st across. (10)\n`;
    expect(onlyFinding("unlisted-hook", text).on).toBe("5 mm");
  });

  test.each([
    ["no list", `${flat}Change to a 5 mm hook.\n`],
    [
      "a list with the word size behind a comma",
      `Materials\nCrochet hook, size G/6 (4.0 mm)\n\n${flat}Go on with the 4 mm hook.\n`,
    ],
    ["the same hook", `Hook: 5 mm\n\n${flat}With a 5.0 mm hook, work on.\n`],
    ["the same hook by its letter", `Hook: 5 mm\n\n${flat}Change to a size H hook.\n`],
    ["a hook without a size", `Hook: 5 mm\n\n${flat}Change to a smaller hook.\n`],
    [
      "eyes and cords",
      `Hook: 5 mm\n\n${flat}Insert the 8 mm eyes with the hook.\n`.replace(" with the hook", ""),
    ],
    ["gauge with the same hook", `Hook: 5 mm\nGauge: 12 sc = 10 cm with a 5 mm hook\n\n${flat}`],
  ])("%s leaves nothing to find", (_, text) => {
    expect(foundBy("unlisted-hook", text)).toEqual([]);
  });
});

describe("a hook that is one of two", () => {
  const edged = (hook: string, edging: string): string => `Hook: ${hook}\n\n${flat}${edging}\n`;

  test("where the materials list one", () => {
    const { on, message } = onlyFinding(
      "unlisted-hook",
      edged("5 mm (H-8)", "With smaller hook, work 1 row of sc around."),
    );
    expect(on).toBe("smaller hook");
    expect(message).toBe(
      '"smaller hook" is one of two, and the materials list one hook. Add the other, or leave out which is meant.',
    );
  });

  test.each([
    ["two are listed", edged("5 mm (H-8), 4 mm (G-6)", "With smaller hook, work 1 row of sc around.")],
    [
      "makers are told what to do for their gauge",
      edged("5 mm (H-8)", "If your gauge is loose, change to a smaller hook."),
    ],
    ["none is listed", `${flat}With smaller hook, work 1 row of sc around.\n`],
  ])("not so where %s", (_, text) => {
    expect(foundBy("unlisted-hook", text)).toEqual([]);
  });
});

describe("hook-mismatch", () => {
  test("hooks led by their word, for several things", () => {
    const front = "Materials\n* cotton: 50 g red\n* Hooks: 6 mm for the bag, 5 mm for the edging\n\n";
    const text = (mm: number): string =>
      `${front}${worked}Change to a ${mm} mm hook.\nRnd 3: sc in each st around (12)\n`;
    expect(foundBy("unlisted-hook", text(5))).toEqual([]);
    expect(foundBy("unlisted-hook", text(4))).toHaveLength(1);
  });

  test.each([
    ["Hook: US I/9, 4.5 mm", 1],
    ["Hook: US I/9, 5.5 mm", 0],
    ["Crochet hook, 4.5 mm (US H)", 1],
    ["Crochet hook, 5 mm (US H)", 0],
    ["Hook: 4 mm, K", 1],
    ["Hook: 6.5 mm, K", 0],
    ["Crochet hook, 9 mm safety eyes (H)", 0],
    ["Hook: 3 mm (US C/2 or D/3)", 0],
    ["Hook: 4 mm (US C/2 or D/3)", 2],
  ])("a comma between letter and millimetres: %s", (hook, findings) => {
    expect(foundBy("hook-mismatch", `${hook}\n\n${worked}`)).toHaveLength(findings);
  });

  /** Source: Lindley General Store needle and hook chart (a published chart; letter, number, mm, old UK). */
  const lindley: readonly (readonly [label: string, mm: number, ukOld: string | null])[] = [
    ["B-1", 2.25, "13"],
    ["C-2", 2.75, "12"],
    ["D-3", 3.25, "10"],
    ["E-4", 3.5, null],
    ["F-5", 3.75, "9"],
    ["G-6", 4, "8"],
    ["7", 4.5, "7"],
    ["H-8", 5, "6"],
    ["I-9", 5.5, "5"],
    ["J-10", 6, "4"],
    ["K-10 1/2", 6.5, "3"],
    ["L-11", 8, "0"],
  ];
  /** Source: the hook size chart of matifs.com/crochet-hooks-size-chart. */
  const matifs: typeof lindley = [
    ["B/1", 2, "14"],
    ["B/1", 2.25, "13"],
    ["C/2", 2.75, "12"],
    ["D/3", 3.25, "10"],
    ["E/4", 3.5, "9"],
    ["F/5", 3.75, null],
    ["G/6", 4, "8"],
    ["7", 4.5, "7"],
    ["H/8", 5, "6"],
    ["I/9", 5.5, "5"],
    ["J/10", 6, "4"],
    ["K/10.5", 6.5, "3"],
    ["L/11", 8, "0"],
    ["M/N/13", 9, "00"],
    ["N/P/15", 10, "000"],
  ];

  test.each([...lindley, ...matifs])("%s at %d mm (old UK %s) is right in its chart", (label, mm, ukOld) => {
    const old = ukOld === null ? "" : `, UK ${ukOld}`;
    expect(foundBy("hook-mismatch", `Hook: ${mm} mm (US ${label}${old})\n\n${worked}`)).toEqual([]);
    expect(foundBy("hook-mismatch", `Hook: US ${label} (${mm.toFixed(2)} mm)\n\n${worked}`)).toEqual([]);
  });

  test.each([...lindley, ...matifs])("%s is not the next but one size to %d mm", (label, mm) => {
    const wrong = mm + 1.6;
    expect(foundBy("hook-mismatch", `Hook: ${wrong} mm (US ${label})\n\n${worked}`)).toHaveLength(1);
  });

  test("a half is one sign or three", () => {
    for (const label of ["K-10½", "K/10 1/2", "K-10.5"]) {
      expect(foundBy("hook-mismatch", `Hook: 6.5 mm (${label})\n\n${worked}`), label).toEqual([]);
      expect(foundBy("hook-mismatch", `Hook: 6 mm (${label})\n\n${worked}`), label).toHaveLength(1);
    }
  });

  test("4.5 mm is US 7 and old UK 7 (common practice, no source)", () => {
    expect(foundBy("hook-mismatch", `Hook: 4.5 mm (US 7, UK 7)\n\n${worked}`)).toEqual([]);
    expect(hookLabelOf(4.5)).toBe("7");
  });

  test("a letter sold in two sizes is right in both (4.25 mm G, 5.25 mm I, 5.75 mm J: from memory)", () => {
    for (const hook of ["4 mm (G)", "4.25 mm (G)", "5.25 mm (I)", "5.5 mm (I)", "5.75 mm (J)", "6 mm (J)"])
      expect(foundBy("hook-mismatch", `Hook: ${hook}\n\n${worked}`), hook).toEqual([]);
  });

  test("a published misprint: 5 mm as I-9 (Red Heart Baby Cable Scarf as listed by a retailer)", () => {
    const text = `Hook: 5 mm [US I-9]\n\n${worked}`;
    const { on, message, fixes } = onlyFinding("hook-mismatch", text);
    expect(on).toBe("5 mm [US I-9]");
    expect(message).toBe(
      "5 mm and US I-9 are not the same hook: the charts print US I-9 at 5.5 mm. Which is meant?",
    );
    expect(fixes.map(({ title }) => title)).toEqual(["Write 5.5 mm", "Write H-8"]);
    for (const { title } of fixes) expectClean(mended("hook-mismatch", text, title));
  });

  test.each([
    ["a label that no chart has", "Hook: 4 mm (Z-99)"],
    ["a hook without millimetres", "Hook: size G"],
    ["steel hooks have numbers of their own", "Hook: 1.5 mm steel hook (No. 8)"],
    ["a number alone may be an old UK one", "Hook: 4 mm (No. 8)"],
    ["eyes beside a hook", "Materials: 4 mm hook, safety eyes 8 mm (black)"],
    ["the letter of a yarn in a heading", "Materials: 4 mm hook\n\nHead (Yarn B, 4 mm hook)"],
    ["the letter of a yarn taken up with a hook", "Materials: 4 mm hook\n\nWith B, 4 mm hook:"],
  ])("%s", (_, line) => {
    expect(foundBy("hook-mismatch", `${line}\n\n${worked}`)).toEqual([]);
  });
});

describe("lengths-disagree", () => {
  function disagrees(size: string): boolean {
    return foundBy("lengths-disagree", `Finished size: ${size}\n\n${worked}`).length > 0;
  }

  /**
   * Bust sizes of the Craft Yarn Council's chart for women, in inches and centimetres as it prints them.
   * From memory.
   */
  const busts = [
    [28, 71], [30, 76], [32, 81], [34, 86], [36, 91.5], [38, 96.5], [40, 101.5], [42, 106.5], [44, 111.5],
    [46, 117], [48, 122], [50, 127], [52, 132], [54, 137], [56, 142], [58, 147], [60, 152], [62, 158],
  ] as const; // biome-ignore format: a table

  test("the sizes of a published chart agree", () => {
    for (const [inches, cm] of busts) {
      expect(disagrees(`${cm} cm (${inches} in)`), `${cm} cm`).toBe(false);
      expect(disagrees(`${inches}" [${cm} cm]`), `${inches} in`).toBe(false);
    }
  });

  test("each of them disagrees with the next size of the chart", () => {
    for (let i = 1; i < busts.length; i++)
      expect(disagrees(`${busts[i]?.[1]} cm (${busts[i - 1]?.[0]} in)`), `${busts[i]?.[1]} cm`).toBe(true);
  });

  /** One inch is 2.54 cm exactly: NIST Special Publication 811, appendix B. The lengths are rounded as stated. */
  test.each([
    ["half a centimetre", 0.5, 1],
    ["whole centimetres", 1, 1],
    ["half inches", 1, 0.5],
    ["quarter inches", 0.5, 0.25],
  ])("every length from 1 to 120 cm agrees with itself, rounded to %s", (_, cmStep, inchStep) => {
    for (let cm = 1; cm <= 120; cm += cmStep) {
      const inches = Math.round(cm / 2.54 / inchStep) * inchStep;
      expect(disagrees(`${cm} cm (${inches} in)`), `${cm} cm (${inches} in)`).toBe(false);
    }
  });

  test("a length a tenth longer never agrees, from 10 cm on, to the quarter inch", () => {
    for (let cm = 10; cm <= 100; cm++) {
      const inches = Math.round((cm * 1.1) / 2.54 / 0.25) * 0.25;
      if (Number.isInteger(inches)) continue;
      expect(disagrees(`${cm} cm (${inches} in)`), `${cm} cm (${inches} in)`).toBe(true);
    }
  });

  test.each([
    ["10 cm (4 in): the length of every gauge (Craft Yarn Council tables)", "10 cm (4 in)"],
    ["30 cm is 12 in to the nearest inch (common practice, no source)", "30 cm (12 in)"],
    ["60 cm is 24 in to the nearest inch (common practice, no source)", "60 cm (24 in)"],
    [
      "90 cm is 36 in where 2.5 cm go for an inch (common practice, no source)",
      "90 cm x 100 cm (36 in x 40 in)",
    ],
    ["lists of sizes", "40 (46, 51) cm (15 3/4 (18, 20) in)"],
    ["a range", '20-22" (51-56 cm)'],
    ["two lengths that are not a pair", '20 cm long, with a 3" border'],
    ["millimetres", 'cord 5 mm (1/4")'],
  ])("%s", (_, size) => expect(disagrees(size)).toBe(false));

  test("says both, and either can be written", () => {
    const text = `Finished size: 14 cm (6 1/2") each way\n\n${worked}`;
    const { on, message, fixes } = onlyFinding("lengths-disagree", text);
    expect(on).toBe('14 cm (6 1/2"');
    expect(message).toBe("14 cm is 5 1/2 in, and the line says 6 1/2 in.");
    expect(fixes.map(({ title }) => title)).toEqual(["Write 5 1/2 in", "Write 16.5 cm"]);
    expect(mended("lengths-disagree", text)).toContain('14 cm (5 1/2")');
    for (const { title } of fixes) expectClean(mended("lengths-disagree", text, title));
  });

  test("in a row too, and of several lengths the wrong one", () => {
    expect(
      foundBy(
        "lengths-disagree",
        `${flat}Row 2: Ch 1, turn, sc in each st across until piece measures 50 cm (16 in).\n`,
      ),
    ).toHaveLength(1);
    expect(
      onlyFinding("lengths-disagree", `Finished size: 22 cm x 11 cm (8 3/4" x 5 1/4")\n\n${worked}`).on,
    ).toBe('11 cm (8 3/4" x 5 1/4"');
  });
});

describe("sizes", () => {
  const rows = "Ch 41 (47, 53).\nRow 1: Sc in 2nd ch from hook and in each ch across. 40 (46, 52) sc.\n";

  test("a list with a number too many, and one with a number missing", () => {
    const found = foundBy(
      "uneven-sizes",
      `Sizes: S (M, L)\nFinished circumference: 40 (46, 51, 57) cm\n\n${rows}Rep Row 1 8 (10, 12) times.\nSew 3 (4) buttons on.\n`,
    );
    expect(found.map(({ message }) => message)).toEqual([
      "This list has 4 numbers, and the pattern has 3 sizes: S, M and L. 1 too many.",
    ]);
    const [short] = foundBy("uneven-sizes", `Sizes: XS (S, M, L)\nLength: 40 (46, 51) cm\n`);
    expect(short?.message).toBe(
      "This list has 3 numbers, and the pattern has 4 sizes: XS, S, M and L. 1 missing.",
    );
  });

  test.each([
    ["a count", "Row 2: Ch 1, turn, sc in each st across, turn. 40 (46) sc.\n", "wrong-count"],
    ["stitches of a row", "Row 2: Ch 1, turn, sc in next 40 (46) sts.\n", "uneven-sizes"],
    ["a range of rows", "Rows 2-9 (11): Ch 1, turn, sc in each st across.\n", "uneven-sizes"],
  ])("a list with one number in its bracket: %s", (_, row, rule) => {
    const found = new Checker().check(`Sizes: S (M, L)\n\n${rows}${row}`).findings;
    expect(found.map((one) => one.rule)).toEqual([rule]);
  });

  test.each([
    [
      "a starting chain",
      `Sizes: S (M, L)\n\nWith larger hook, ch 41 (47).\nRow 1: Sc in 2nd ch from hook and in each ch across. 40 (46, 52) sc.\n`,
      "41 (47)",
    ],
    [
      "an amount of yarn",
      `Sizes: S (M, L)\n\nMaterials\nWorsted wool: 200 (230) g in denim\n\n${rows}`,
      "200 (230) g",
    ],
  ])("with two numbers of three: %s", (_, text, on) => {
    expect(foundBy("uneven-sizes", text).map(({ span }) => text.slice(span.start, span.end))).toEqual([on]);
  });

  test("a short list beside a whole one", () => {
    const text = `Sizes: S (M, L)\nCircumference: 40 (46) cm / 15¾ (18, 20) in\n\n${rows}`;
    expect(onlyFinding("uneven-sizes", text).on).toBe("40 (46)");
  });

  test("sizes in a row, the last behind an and", () => {
    expect(foundBy("uneven-sizes", `Sizes: Small, Medium and Large\n\n${rows}`)).toEqual([]);
    expect(
      foundBy("uneven-sizes", `Sizes: Small, Medium and Large\n\n${rows}Sew on 3 (4, 5, 6) buttons.\n`),
    ).toHaveLength(1);
  });

  test("a row that has a query of its own is told once", () => {
    const text = `Sizes: S (M, L)\n\n${rows}Row 2: Ch 1, turn, sc in each st across. 40 (46, 52, 58) sc.\n`;
    expect(foundBy("uneven-sizes", text).length).toBeLessThan(2);
  });

  test.each([
    ["one size", `Ch 41.\nRow 1: Sc in 2nd ch from hook and in each ch across. 40 (40) sc.\n`],
    [
      "counts and groups in brackets",
      `Sizes: S (M, L)\n\n${rows}Row 2: Ch 1, turn, (2 sc, ch 1, 2 sc) in each st across.\n`,
    ],
    ["brackets and dashes", "Sizes: 8-10[12-14:16-18]\nLength: 40[44:48]cm\n"],
    [
      "sizes that are left out",
      `Sizes: S (M, L)\n\n${rows}Row 2: Ch 1, turn, sc in next - (2, 4) sts, leave remaining sts unworked.\n`,
    ],
  ])("%s", (_, text) => expect(foundBy("uneven-sizes", text)).toEqual([]));

  test("a line for a size that the pattern does not have is a note", () => {
    const { on, severity, message } = onlyFinding(
      "unlisted-size",
      `Sizes: S (M, L)\n\n${rows}Sizes L and XXL only:\n`,
    );
    expect([on, severity]).toEqual(["XXL", "information"]);
    expect(message).toBe(
      "Size XXL is named here, and the pattern has S, M and L. Is this left over from another pattern?",
    );
  });

  test.each([
    ["For size XXL only, work two more rows.", "XXL"],
    ["For sizes M and XL only, work one more row.", "XL"],
  ])("in the middle of a line: %s", (line, on) => {
    expect(onlyFinding("unlisted-size", `Sizes: S (M, L)\n\n${rows}${line}\n`).on).toBe(on);
    expect(foundBy("unlisted-size", `Sizes: S (M, L)\n\n${rows}${line.replace(on, "L")}\n`)).toEqual([]);
  });

  test("sizes on the line below their title, in months", () => {
    const text = `SIZES\n0-3 months (3-6 months, 6-12 months)\n\n${rows}Size 12-18 months only:\n`;
    expect(onlyFinding("unlisted-size", text).on).toBe("12-18");
    expect(foundBy("unlisted-size", text.replace("12-18", "6-12"))).toEqual([]);
  });

  test.each([
    ["a size of the pattern", `Sizes: S (M, L)\n\n${rows}Size L only:\n`],
    ["by its first letter", "Sizes: Small (Medium, Large)\n\nCh 41 (47, 53).\nSize M only:\n"],
    ["with a word before it", "Size: Adult S (M, L)\n\nCh 41 (47, 53).\nSize S only:\n"],
    ["all sizes", `Sizes: S (M, L)\n\n${rows}All sizes:\n`],
    ["no names of sizes", `Ch 41 (47, 53).\nSize XL only:\n`],
  ])("%s is none", (_, text) => expect(foundBy("unlisted-size", text)).toEqual([]));
});

test("no case of the specification has a finding of these rules, but those whose lists are too short", () => {
  const ids = frontRules.map(({ id }) => id);
  const found = readCases().flatMap(({ name, text }) =>
    new Checker().check(text).findings.map(({ rule, message }) => ({ rule, told: `${name}: ${message}` })),
  );
  const told = found.filter(({ rule }) => ids.includes(rule)).map(({ told }) => told);
  expect(told.map((each) => each.split(":")[0])).toEqual([
    "list-with-too-few-numbers",
    "list-with-too-few-numbers",
    "two-numbers-of-three-behind-a-chain",
  ]);
});
