import { describe, expect, test } from "vitest";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

// Trade practice, from the usual technical editor's checklist; the texts are invented.

const head = "Head\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nFasten off.\n\n";
const fins =
  "Tail\nFirst fin\nRnd 1: 5 sc in mr (5)\nFasten off.\nSecond fin\nRnd 1: 5 sc in mr (5)\n" +
  "Do not fasten off; the fins are joined in the next round.\n" +
  "Rnd 2: sc in each of the 5 sts of the second fin, sc in each of the 5 sts of the first fin (10)\nFasten off.\n\n";
const cheek = "Cheek (make 2)\nRnd 1: 6 sc in mr (6)\nFasten off.\n\n";

describe("a heading over several stages names the piece", () => {
  test("that nothing puts to use", () => {
    const text = `${head}${cheek}${fins}Assembly\nSew both cheeks to the head.\n`;
    expect(onlyFinding("piece-not-used", text).on).toBe("Tail");
    const after = mended("piece-not-used", text);
    expect(after).toContain("Sew on the tail.");
    expectClean(after);
  });

  test("whose last round is its edge", () => {
    const sewn = "Sew the last round of the tail to the last round of the head, stitch for stitch.";
    const text = `${head}${fins}Assembly\n${sewn}\n`;
    expect(onlyFinding("edges-differ", text).message).toContain('"Tail" ends with 10 stitches');
  });
});

describe("pieces that rows go on from", () => {
  test("sleeves that nobody made, where only one piece is begun of its own", () => {
    const back = "Back\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12)\n";
    const text = `${back}Fasten off.\n\nNeck band\nRow 1: Join yarn in any st of the back, 12 sc evenly across. (12)\nFasten off.\n\nFinishing\nSew in the sleeves. Sew the side seams of the back.\n`;
    expect(onlyFinding("piece-not-made", text).on).toBe("sleeves");
  });

  test("a row that a piece has not, behind a row that works in every stitch", () => {
    const crown =
      "Crown\nRnd 1: 6 sc in mr (6)\nRnd 2: inc in every st (12)\nBrim\nRnd 3: sl st in every st (12)\nFasten off.\n\n";
    const band = "Hat band\nCh 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5)\nFasten off.\n\n";
    const said = "To finish\nSlip the band over the crown and sew it on along round 9.\n";
    expect(onlyFinding("no-such-placement", crown + band + said).on).toBe("round 9");
    expect(foundBy("no-such-placement", crown + band + said.replace("9", "2"))).toEqual([]);
  });

  test("a piece that is not finished, in a pattern without a list of abbreviations", () => {
    const front = "Yarn: cotton, 50 g\nHook: 4 mm\nGauge: 20 sc and 22 rows = 10 cm\n\n";
    const strap = "Strap\nCh 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5)\n";
    const pouch = head.replace("Head", "Pouch").replace("Fasten", "Rnds 3-5: sc in each st (12)\nFasten");
    const text = `${front}${pouch}${strap}\nFinishing\nSew the strap to the pouch.\n`;
    expect(onlyFinding("piece-not-finished", text).message).toContain('"Strap" ends with Row 1');
  });
});

describe("one of some piece at each end of several strips", () => {
  const motif = (name: string, make: number): string =>
    `${name} (make ${make})\nRnd 1: 6 sc in mr (6)\nFasten off.\n\n`;
  const laid = "Lay out three strips of 5 hexagons and two strips of 4 with a half hexagon at each end.";
  const blanket = (halves: number): string =>
    `${motif("Hexagon", 23)}${motif("Half hexagon", halves)}Joining\n${laid}\n`;

  test("comes to more than are made", () => {
    expect(onlyFinding("wrong-number-of-pieces", blanket(2)).message).toContain(
      'that is 4, and 2 are made under "Half hexagon"',
    );
  });

  test("comes to as many", () => {
    expect(foundBy("wrong-number-of-pieces", blanket(4))).toEqual([]);
  });
});

describe("a turn that went missing", () => {
  const rows = (...turns: readonly string[]): string =>
    `Ch 11.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across${turns[0]}. (10)\n${turns
      .slice(1)
      .map((turn, i) => `Row ${i + 2} (${i % 2 ? "RS" : "WS"}): Ch 1, sc in each st across${turn}. (10)\n`)
      .join("")}Fasten off.\n`;
  const turn = ", turn";

  test("is told where all other rows have theirs", () => {
    const text = rows(turn, turn, turn, "", turn, "");
    expect(onlyFinding("sides-not-alternating", text).message).toBe(
      'Row 4 is marked WS and Row 5 is marked RS, and no turn is written between them, as it is between the other rows. Say "turn" at the end of Row 4.',
    );
    const after = mended("sides-not-alternating", text);
    expect(after).toContain("Row 4 (WS): Ch 1, sc in each st across, turn. (10)");
    expectClean(after);
  });

  test.each([
    ["several do not say it", rows(turn, turn, turn, "", turn, turn, "", "")],
    ["few say it", rows(turn, "", turn, "")],
    [
      "a line between them does",
      rows(turn, turn, turn, "", turn, "").replace("Row 5", "Turn the work.\nRow 5"),
    ],
  ])("not where %s", (_, text) => {
    expect(foundBy("sides-not-alternating", text)).toEqual([]);
  });
});

describe("verbs that join", () => {
  const strap =
    "Strap (make 2)\nCh 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5)\nFasten off.\n\n";

  test.each([
    ["Graft the heel flap to the sole.", "flap"],
    ["Oversew the cuffs to the head.", "cuffs"],
    ["Crochet the collar onto the head.", "collar"],
    ["Pin the crest to the head and stitch it down.", "crest"],
    ["Glue the badge to the head.", "badge"],
    ["Stitch an anchor to the head.", "anchor"],
    ["Step 4: Attach the flap to the head.", "flap"],
    ["The bow is sewn to the head.", "bow"],
    ["Fasten the tassels to the head.", ""],
    ["Stitch a smile with black yarn.", ""],
    ["Pin the head out and let it dry.", ""],
    ["The straps are then sewn to the head.", ""],
  ])("%s", (sentence, on) => {
    const text = `${head}${strap}Assembly\nSew the straps to the head. ${sentence}\n`;
    expect(foundBy("piece-not-made", text).map(({ span }) => text.slice(span.start, span.end))).toEqual(
      on === "" ? [] : [on],
    );
  });
});

test.each([
  "Pin the pieces to size and steam lightly.",
  "Fasten the ends and trim them.",
  "Graft the stitches of both edges together.",
  "Set in the zip with small stitches to finish.",
  "Tack the lining in place, then sew it to the seam allowance.",
  "The ends are woven in and the seams are sewn to the last stitch.",
  "Both halves are joined to each other.",
  "Stitch a few times to secure.",
  "Pin the hem to the marked line and stitch.",
  "Join a new ball to the work.",
  "The work is joined to the first stitch.",
  "Join the strips to the left edge.",
  "Attach the keyring to the top loop.",
])("no piece is sewn on: %s", (sentence) => {
  const ears = "Ear (make 2)\nRnd 1: 5 sc in mr (5)\nFasten off.\n\n";
  const text = `${head}${ears}Assembly\nSew the ears to the head.\n${sentence}\n`;
  expect(foundBy("piece-not-made", text)).toEqual([]);
});

describe("a piece with a name of two words", () => {
  const panel = (name: string): string =>
    `${name}\nCh 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5)\nFasten off.\n\n`;
  const all = `${panel("Front")}${panel("Lower back")}${panel("Upper back")}`;

  test("is not used where the other one is", () => {
    const text = `${all}Making up\nSew the upper back to the front.\n`;
    expect(onlyFinding("piece-not-used", text).on).toBe("Lower back");
  });

  test("may be one of both", () => {
    expect(foundBy("piece-not-used", `${all}Making up\nSew both backs to the front.\n`)).toEqual([]);
  });

  test("is at its place where it is worked along an edge", () => {
    const band = "Neckband\nRnd 1: With RS facing, 20 sc evenly around the neck. (20)\nFasten off.\n";
    const text = `${panel("Front")}${panel("Lower back")}Making up\nSew the lower back to the front.\n\n${band}`;
    expect(foundBy("piece-not-used", text)).toEqual([]);
  });
});

describe("of what is worn in pairs there are two", () => {
  const text = (make: string): string =>
    `Slippers\n\nSole (make 2)\nRnd 1: 6 sc in mr (6)\nFasten off.\n\nStrap${make}\nRnd 1: 6 sc in mr (6)\nFasten off.\n\nAssembly\nSew a strap to the inner side of each slipper.\n`;

  test("a strap for each slipper", () => {
    expect(onlyFinding("wrong-number-of-pieces", text("")).message).toContain("that is 2, and one is made");
    expect(foundBy("wrong-number-of-pieces", text(" (make 2)"))).toEqual([]);
  });
});

describe("numbers that a sentence sews together", () => {
  const text = (sentence: string): string => `${head}Finishing\n${sentence}\n`;

  test("are the same", () => {
    const found = onlyFinding(
      "edges-differ",
      text("Sew it on, matching its 14 sts to the 16 sts of the opening."),
    );
    expect(found.on).toBe("Sew it on, matching its 14 sts to the 16 sts");
  });

  test.each([
    "Sew it on, matching its 14 sts to the 14 sts of the opening.",
    "Sew the 14 sts to the 16 sts of the opening, easing them in.",
    "Match the first 4 sts, then sew 12 sts.",
  ])("is silent: %s", (sentence) => expect(foundBy("edges-differ", text(sentence))).toEqual([]));
});

describe("a size that a sentence names", () => {
  const text = (sentence: string): string =>
    `Sizes: S (M, L)\n\nCh 41 (47, 53).\nRow 1: Sc in 2nd ch from hook and in each ch across. 40 (46, 52) sc.\nFasten off.\n${sentence}\n`;

  test.each([
    ["For size XXL work two rows more.", ["XXL"]],
    ["In sizes XS and S, fold it once more.", ["XS"]],
    ["For sizes M and L only, press the hem.", []],
    ["Use a size S hook for the cord.", []],
  ])("%s", (sentence, on) => {
    const all = foundBy("unlisted-size", text(sentence));
    expect(all.map(({ span }) => text(sentence).slice(span.start, span.end))).toEqual(on);
  });
});

describe("rows of a layout with a number for each", () => {
  const text = (list: string): string =>
    `Hexagon (make 19)\nRnd 1: 6 sc in mr (6)\nFasten off.\n\nMaking up\nArrange the hexagons in five rows of ${list}, and oversew them.\n`;

  test("come to the number of pieces", () => {
    expect(foundBy("wrong-number-of-pieces", text("3, 4, 5, 4 and 3"))).toEqual([]);
    expect(onlyFinding("wrong-number-of-pieces", text("3, 4, 6, 4 and 3")).message).toContain(
      '3 + 4 + 6 + 4 + 3 is 20, and the pattern has 19 of "Hexagon"',
    );
  });
});

describe("a piece with a length kept for sewing", () => {
  test("is sewn on only where a sentence says so", () => {
    const tusk = "Tusk (make 2)\nRnd 1: 4 sc in mr (4)\nFasten off, keep 15 cm for sewing.\n\n";
    const ear = "Ear (make 2)\nRnd 1: 4 sc in mr (4)\nFasten off, keep 15 cm for sewing.\n\n";
    const text = `${head}${ear}${tusk}Assembly\nSew the ears to the head.\n`;
    expect(onlyFinding("piece-not-used", text).on).toContain("Tusk");
  });
});

describe("steps with numbers", () => {
  test("are no rows, whatever they begin with", () => {
    const text = `${head}${cheek}Assembly\n1. Fill the cheeks and sew them on, over Rnds 7 to 9 of the head.\n`;
    expect(onlyFinding("no-such-placement", text).on).toContain("Rnds 7 to 9");
  });
});

describe("a last row that stands for others", () => {
  test("ends nothing", () => {
    const flap =
      "Flap\nCh 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5)\nRow 2: Ch 1, turn, sc in each st across. (5)\nRows 3-4: As Row 2. (5)\n\n";
    const text = `${head}${cheek}${flap}Assembly\nSew the cheeks and the flap to the head.\n`;
    expect(onlyFinding("piece-not-finished", text).message).toContain('"Flap" ends with Rows 3-4');
  });
});
