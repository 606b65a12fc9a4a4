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
