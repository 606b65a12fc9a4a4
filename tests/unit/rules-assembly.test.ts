import { describe, expect, test } from "vitest";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

// How pieces are put together: common practice, no source. The texts are invented.

const ring = (name: string, last: string): string =>
  `${name}\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\n${last}Fasten off.\n\n`;
const buoy = ring("Buoy", "Rnds 3-8: sc in each st around (12)\n");
const ear = (make = "", end = "Fasten off."): string =>
  `Ear${make}\nRnd 1: 5 sc in mr (5)\nRnd 2: sc in each st around (5)\n${end}\n\n`;
const assembly = (sentence: string): string => `Assembly\n${sentence}\n`;

describe("wrong-number-of-pieces", () => {
  const sentence =
    "Sew the two ears to the buoy over Rnds 3-5, one on each face, with 3 sts between the ends of each ear.";

  test.each([" (make 3)", " (make 4)", " (make 5)"])("one on each face, of each ear: %s", (make) => {
    const text = buoy + ear(make) + assembly(sentence);
    expect(onlyFinding("wrong-number-of-pieces", text).on).toBe("two ears");
    expectClean(mended("wrong-number-of-pieces", text));
  });

  test.each([
    [" (make 2)", sentence],
    [" (make 4)", "Sew the two ears to each side of the buoy."],
    [" (make 4)", "Sew the two ears to the buoy, and the other ears beside each ear."],
  ])("%s: %s", (make, said) => {
    expect(foundBy("wrong-number-of-pieces", buoy + ear(make) + assembly(said))).toEqual([]);
  });
});

describe("wrong-number-of-pieces: so many for each", () => {
  const flowers = (make: number): string =>
    `${buoy}${ear(" (make 5)").replace("Ear", "Leaf")}${ear(` (make ${make})`).replace("Ear", "Rose")}`;

  test.each([
    ["Sew on the 3 roses. Tuck 2 leaves under each rose.", 3, "2 leaves"],
    ["Sew two leaves beneath every rose.", 3, "two leaves"],
    ["Sew 1 leaf to each of the 4 roses.", 4, "1 leaf"],
    ["Sew two leaves to each side.", 3, "two leaves"],
  ])("%s", (sentence, roses, on) => {
    const text = flowers(roses) + assembly(sentence);
    const found = onlyFinding("wrong-number-of-pieces", text);
    expect(found.on).toBe(on);
    expect(foundBy("wrong-number-of-pieces", mended("wrong-number-of-pieces", text))).toEqual([]);
  });

  test.each([
    "Sew one leaf to each rose, and the others to the buoy.",
    "Sew the 5 leaves on, two to each side and one at the top.",
    "Sew a leaf to each rose. Sew the remaining leaves to the buoy.",
  ])("is silent: %s", (sentence) => {
    expect(foundBy("wrong-number-of-pieces", flowers(3) + assembly(sentence))).toEqual([]);
  });

  test.each([
    ["Ears (make 1)", "Sew one ear to each side.", 1],
    ["Ears", "Sew one ear to each side.", 0],
    ["Ears (both alike)", "Sew the two ears to the buoy.", 0],
    ["Ears, make three", "Sew both ears to the buoy.", 1],
    ["Ear (two needed)", "Sew the pair of ears to the buoy.", 0],
    ["Ear (make five)", "Sew all five ears to the buoy.", 0],
    ["Ear (make five)", "Sew all six ears to the buoy.", 1],
  ])("%s: %s", (heading, sentence, findings) => {
    const text = buoy + ear().replace("Ear", heading) + assembly(sentence);
    expect(foundBy("wrong-number-of-pieces", text)).toHaveLength(findings);
  });
});

describe("wrong-number-of-pieces: laid out", () => {
  const hexagons = (n: number): string =>
    `${ear().replace("Ear", "First hexagon")}${ear(` (make ${n})`).replace("Ear", "Joined hexagon")}`;

  test.each([
    "Arrange the 48 hexagons in 8 rows of 6.",
    "Lay them out in 8 rows, 6 hexagons in each.",
    "Lay the hexagons out 6 across and 8 down.",
    "Join the hexagons into a 6 x 8 rectangle.",
    "Join the motifs in 8 strips of six.",
  ])("%s", (sentence) => {
    const layout = (n: number): string => `${hexagons(n)}Layout\n${sentence}\n`;
    expect(foundBy("wrong-number-of-pieces", layout(sentence.includes("motifs") ? 48 : 47))).toEqual([]);
    expect(foundBy("wrong-number-of-pieces", layout(45))).toHaveLength(1);
  });

  test("other sizes have other numbers", () => {
    const text = `${hexagons(47)}Layout\nFor a larger throw arrange 63 hexagons in 9 rows of 7.\n`;
    expect(foundBy("wrong-number-of-pieces", text.replace("arrange 63 hexagons", "lay them"))).toEqual([]);
  });
});

describe("more ways to say it", () => {
  test.each([
    ["Ear, in Fawn: make 1", 1],
    ["EAR, in Fawn: make 2", 0],
    ["Ear, worked in Fawn", 1],
  ])("a heading with its yarn: %s", (heading, findings) => {
    const text = buoy + ear().replace("Ear", heading) + assembly("Sew both ears to the buoy.");
    expect(foundBy("wrong-number-of-pieces", text)).toHaveLength(findings);
  });

  test.each([
    ["Ears (make 1)", "Sew one ear to the left and the other to the right.", 1],
    ["Ears (make 2)", "Sew one ear to the left and the other to the right.", 0],
    ["Ears (make 2)", "Sew one ear to the top and the other ear below it.", 0],
  ])("%s: %s", (heading, sentence, findings) => {
    const text = buoy + ear().replace("Ear", heading) + assembly(sentence);
    expect(foundBy("wrong-number-of-pieces", text)).toHaveLength(findings);
  });

  test("a border tells how the pieces lie that it goes around", () => {
    const panel =
      "Panel\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\nFasten off.\n\n";
    const border =
      "Border\nPlace the panels together, join the yarn at a corner.\nRnd 1: Ch 1, sc in each of the 12 sts of the panel, join. (12 sc)\nFasten off.\n";
    expect(onlyFinding("wrong-number-of-pieces", panel + border).on).toBe("panels");
    const two = panel.replace("Panel", "Panel (make 2)") + border;
    expect(foundBy("wrong-number-of-pieces", two)).toEqual([]);
  });

  test("below a row that is not there", () => {
    const text = buoy + ear() + assembly("Sew the ear to the buoy below Rnd 18.");
    expect(onlyFinding("no-such-placement", text).on).toBe("Rnd 18");
  });

  test("closing the last stitches closes the piece", () => {
    const text = buoy.replace(
      "Fasten off.",
      "Cut the yarn and close the last 6 stitches.\nPut the safety eyes between Rnds 5 and 6.",
    );
    expect(onlyFinding("placed-too-late", text).on).toContain("safety eyes");
  });

  test("a border without an end, in a whole pattern", () => {
    const front =
      "Terms: US\nYarn: cotton, red, 50 g\nHook: 4 mm\nAbbreviations: sc = single crochet; ch = chain\n\n";
    const bag = `${buoy}Border\nRnd 9: Ch 1, sc in each st around (12)\nRnd 10: Ch 1, sc in each st around (12)\n`;
    const edged = front + bag.replace("Fasten off.", "Fasten off. Join the yarn.");
    expect(onlyFinding("piece-not-finished", edged).on).toContain("Rnd 10");
    expect(foundBy("piece-not-finished", `${edged}Fasten off.\n`)).toEqual([]);
    expect(foundBy("piece-not-finished", edged.replace(front, ""))).toEqual([]);
  });
});

describe("pieces and rows in other words", () => {
  const legs = ear(" (make 2)").replace("Ear", "Leg");

  test.each([
    ["Both legs are stitched underneath at Rnd 18.", "Rnd 18"],
    ["A leg goes on each side of the buoy, just below Rnd 12.", "Rnd 12"],
  ])("%s", (sentence, on) => {
    const text = buoy + legs + assembly(sentence);
    expect(onlyFinding("no-such-placement", text).on).toBe(on);
    expect(foundBy("no-such-placement", text.replace(on, "Rnd 8"))).toEqual([]);
  });

  test.each([
    ["Sew both legs to the buoy. Sew the tail to the back.", 1],
    ["Sew both legs to the buoy. Sew the tail in.", 0],
    ["Sew both legs underneath at Rnd 8.", 0],
  ])("%s", (sentence, findings) =>
    expect(foundBy("piece-not-made", buoy + legs + assembly(sentence))).toHaveLength(findings),
  );

  test("of several legs all but one are cut, also where the body goes on from the last", () => {
    const text = `${legs}${ring("Hat", "")}Body\nRnd 3: sc in each st around (12)\nFasten off.\n`;
    const open = text.replace("sc in each st around (5)\nFasten off.", "sc in each st around (5)");
    const others = ring("Cup", "") + ring("Bowl", "");
    expect(onlyFinding("piece-not-finished", others + open).on).toContain("Rnd 2");
    expect(foundBy("piece-not-finished", others + text)).toEqual([]);
  });

  test("a cord that nothing puts to use", () => {
    const text = `${buoy}Drawstring\nCh 90. Fasten off.\n\n${assembly("Weave in the ends.")}`;
    expect(onlyFinding("piece-not-used", text).on).toBe("Drawstring");
    expect(foundBy("piece-not-used", text.replace("Drawstring", "Keel"))).toEqual([]);
  });

  test.each(["Rnd 2", "Rnd 22"])("the spaces of a row that has none: %s", (row) => {
    const eyelets = "Rnd 9: *sc in next st, ch 1, sk next st; rep from * around (6 sc, 6 ch-1 sps)\n";
    const text = `${buoy.replace("Fasten off", `${eyelets}Fasten off`)}${assembly(`Weave the ribbon through the spaces of ${row}.`)}`;
    expect(foundBy("no-such-placement", text)).toHaveLength(1);
    expectClean(mended("no-such-placement", text));
    expect(mended("no-such-placement", text)).toContain("spaces of Rnd 9.");
  });
});

describe("edges-differ: by their last rows", () => {
  const panel = (name: string, n: number): string =>
    `${name}\nCh ${n + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across. (${n} sc)\nRow 2: Ch 1, turn, sc in each st across. (${n} sc)\nFasten off.\n\n`;

  test.each([
    "Sew the Front to the Back, stitch for stitch.",
    "Sew the last row of the Front to the last row of the Back.",
  ])("%s", (sentence) => {
    const sewn = (n: number): string => panel("Front", 12) + panel("Back", n) + assembly(sentence);
    expect(foundBy("edges-differ", sewn(13))).toHaveLength(1);
    expect(foundBy("edges-differ", sewn(12))).toEqual([]);
  });

  test.each([
    ["Sl st the last row to the foundation ch through both layers, 14 sl sts.", 1],
    ["Sl st the last row to the foundation ch through both layers, 12 sl sts.", 0],
    ["Sew the last row to the starting chain.", 0],
  ])("%s", (sentence, findings) => {
    const text = panel("Band", 12).replace("Fasten off.", sentence);
    expect(foundBy("edges-differ", text)).toHaveLength(findings);
  });

  test("the number of one piece", () => {
    const text = buoy + ear() + assembly("Sew the 14 sts of the opening of the ear to the buoy.");
    expect(onlyFinding("edges-differ", text).on).toBe("14");
    expect(foundBy("edges-differ", text.replace("14", "5"))).toEqual([]);
  });
});

describe("odd-eyelets: the row that is laced", () => {
  const laced = (sentence: string): string =>
    `Rnd 1: 6 sc in mr (6)\nRnd 2: (sc, inc) x3 (9)\nRnd 3: *2 sc, ch 1, sk 1; rep from * around (6 sc, 3 ch-1 sps)\nFasten off.\n\n${sentence}\n`;

  test.each([
    ["Thread the cord through the eyelets of Rnd 3.", 1],
    ["Thread the cord through the ch-1 spaces of Rnd 3.", 1],
    ["Weave the ribbon in and out of the spaces of Rnd 3.", 1],
    ["Thread the cord through the sts of Rnd 2.", 0],
    ["Sew the cord to the sps of Rnd 3.", 0],
  ])("%s", (sentence, findings) => expect(foundBy("odd-eyelets", laced(sentence))).toHaveLength(findings));
});

describe("no-such-placement: what is laced, folded and sewn on along a row", () => {
  const tie = "Tie\nCh 90. Fasten off.\n\n";
  const band = ring("Band", "Rnds 3-40: sc in each st around (12)\n");

  test.each([
    [`${buoy}${tie}`, "Thread one tie through the sts of Rnd 21 of each buoy.", "Rnd 21"],
    [`${buoy}${tie}`, "Thread the tie in and out of Rnd 21.", "Rnd 21"],
    [`${buoy}${band}`, "Slip the band over the buoy and sew it on along Rnd 29.", "Rnd 29"],
    [buoy.replace("Fasten off.", "Fold along Rnd 4 and stitch Rnd 8 down to Rnd 96."), "", "Rnd 96"],
  ])("%s%s", (pieces, sentence, on) => {
    const text = pieces + assembly(sentence);
    expect(onlyFinding("no-such-placement", text).on).toBe(on);
    expect(foundBy("no-such-placement", text.replace(on, "Rnd 2"))).toEqual([]);
  });

  test.each(["Rnd 21", "Rnd 2"])("spaces that %s has not", (rnd) => {
    const text = buoy + tie + assembly(`Thread one tie through the sps of ${rnd} of each buoy.`);
    expect(onlyFinding("no-such-placement", text).on).toBe(rnd);
  });
});

describe("piece-not-used", () => {
  const others = `${buoy}${ear(" (make 2)")}${ear().replace("Ear", "Bell")}`;
  const arm = (end: string): string => ear(" (make 2)", end).replace("Ear", "Arm");
  const sewn = assembly("Sew the ears and the bell to the buoy.");

  test.each([
    "Fasten off with a long tail and sew the opening flat.",
    "Sew the top opening closed. Fasten off.",
    "Sew the end shut and fasten off.",
    "Fasten off, leaving a tail for sewing.",
  ])("%s", (end) => {
    expect(onlyFinding("piece-not-used", others + arm(end) + sewn).on).toContain("Arm");
    const named = sewn.replace("to the buoy.", "to the buoy. Sew the arms to the sides.");
    expect(foundBy("piece-not-used", others + arm(end) + named)).toEqual([]);
  });

  test.each([
    "Sew the opening flat to the side.",
    "Fasten off, leaving a tail for sewing to the buoy.",
    "Sew on at the side.",
    "Sew in place. Sew the opening closed.",
  ])("%s tells what becomes of it", (end) => {
    expect(foundBy("piece-not-used", others + arm(end) + sewn)).toEqual([]);
  });
});

describe("edges-differ", () => {
  const neck = ring("Neck", "Rnds 3-8: sc in each st around (12)\n");
  const wide = ring("Neck", "Rnd 3: (3 sc, inc) x3 (15)\n");
  const sentence = (n: number): string =>
    assembly(`Sew the buoy to the neck, matching the ${n} sts of each opening.`);

  test("a number tells the seam stitch for stitch", () => {
    expect(onlyFinding("edges-differ", buoy + wide + sentence(12)).message).toContain(
      '"Buoy" ends with 12 stitches, "Neck" ends with 15 stitches, and the assembly sews them stitch for stitch.',
    );
  });

  test("another number than both edges have", () => {
    const { on, message } = onlyFinding("edges-differ", buoy + neck + sentence(14));
    expect(on).toBe("14");
    expect(message).toBe(
      'The assembly speaks of 14 stitches, and "Buoy" ends with 12 stitches, as does "Neck". Did you mean 12?',
    );
    expectClean(mended("edges-differ", buoy + neck + sentence(14)));
  });

  test.each(["matching the 14 sts.", "matching up all 14 stitches, and stuff before closing."])(
    "%s",
    (end) => {
      const text = buoy + neck + assembly(`Sew the buoy to the neck, ${end}`);
      expect(onlyFinding("edges-differ", text).on).toBe("14");
      expect(foundBy("edges-differ", text.replace("14", "12"))).toEqual([]);
    },
  );

  test("the number that both have leaves nothing to find", () => {
    expect(foundBy("edges-differ", buoy + neck + sentence(12))).toEqual([]);
  });

  test("stitches that may be anywhere on the piece are not held against its opening", () => {
    const said = assembly("Sew the ear to the buoy, matching the 5 sts with those that were marked.");
    expect(foundBy("edges-differ", buoy + ear() + said)).toEqual([]);
  });
});

describe("piece-not-made", () => {
  const hat = "Hat\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nFasten off.\n";

  test.each([
    ["Weave in ends. Sew the blanket squares together.", "squares"],
    ["Weave in ends, stuff the leg, pin out to size.", "leg"],
    ["Sew both sleeves to the body.", "sleeves"],
  ])("left over in a pattern of one piece: %s", (sentence, on) => {
    const finding = onlyFinding("piece-not-made", hat + sentence);
    expect([finding.on, finding.severity]).toEqual([on, "information"]);
    expect(finding.message).toBe(
      `This speaks of "${on}", and nothing else in the pattern does. Is it left over from another pattern?`,
    );
  });

  test.each([
    ["a part that rows speak of", `First leg\n${hat}\nStuff the legs.\n`],
    ["a toy that is worked in one", `${hat}\nStuff the tentacles.\nStuff the legs lightly.\n`],
    ["what is made several times", `Bloom (make 4)\n${hat.slice(4)}\nSew the hexagons together.\n`],
    ["another part of the same animal", `${hat}\nThe bear has two paws.\nStuff the legs.\n`],
    ["what is no such part", `${hat}\nStuff the toy. Sew the brooch to the side. Sew the edges together.\n`],
    ["a title", `A blanket of squares\n\n${hat}\nSew the squares together.\n`],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("piece-not-made", text)).toEqual([]);
  });

  test("what the others are sewn to is not what was meant, nor a piece made once by a word for several", () => {
    const text = `${buoy}${ear(" (make 2)")}Assembly\nSew the flippers to it.\nSew the ears to it.\n`;
    expect(onlyFinding("piece-not-made", text).message).toContain("Write it, or use the name it has.");
    const bell = `${buoy}${ear(" (make 2)")}${ear().replace("Ear", "Bell")}${assembly("Sew the ears and the flippers to the buoy.")}`;
    expect(onlyFinding("piece-not-made", bell).message).toContain("Write it, or use the name it has.");
  });
});

describe("piece-not-finished", () => {
  const mat =
    "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\nRow 2: Ch 1, turn, sc in each st across. (10)\n";

  test("a pattern of one piece that goes on to blocking", () => {
    const text = `${mat}Block to shape.\n`;
    const { message, on, severity } = onlyFinding("piece-not-finished", text);
    expect(severity).toBe("information");
    expect(on).toContain("Row 2");
    expect(message).toBe(
      'The work ends with Row 2, and nothing says how it is finished. Say it before the blocking: "Fasten off."',
    );
    const after = mended("piece-not-finished", text);
    expect(after).toContain("(10)\nFasten off.\nBlock");
    expectClean(after);
  });

  test.each([
    ["Fasten off and block."],
    ["Weave in ends. Block."],
    ["Block, then sew on a button."],
    ["Do not cut the yarn. Block."],
    ["End off. Block."],
    ["Pull the yarn through the last loop. Block."],
    ["A mat for two cups."],
    [""],
  ])("%s leaves nothing to find", (end) => {
    expect(foundBy("piece-not-finished", `${mat}${end}\n`)).toEqual([]);
  });
});

describe("incomplete-gauge", () => {
  test.each([
    "5 meshes and 5 rows = 5 cm (2 in)",
    "One ripple (peak to peak) = 9 cm (3½ in)",
    "2 shells and a scallop = 10 cm",
  ])("%s is a gauge that makers can measure", (gauge) => {
    expect(foundBy("incomplete-gauge", `Gauge: ${gauge}\n\n${buoy}`)).toEqual([]);
  });

  test.each(["13 rows = 4 in", "4 in of nothing"])("%s is none", (gauge) => {
    expect(foundBy("incomplete-gauge", `Yarn: cotton, 50 g\nGauge: ${gauge}\n\n${buoy}`)).toHaveLength(1);
  });
});

describe("where the places come from", () => {
  const base = "Base\nRnd 1: 6 sc in mr (6)\nRnds 2-3: sc around (6)\n\n";
  const says = (head: string, start = base): string =>
    onlyFinding("wrong-count", `${start}Sides\n${head}: sc in each st around (7)\n`).message;

  test.each([
    ["Rnd 4", "Rnd 3"],
    ["Rnds 4-6", "Rnd 3"],
    ["Round 4", "Round 3"],
    ["R4", "R3"],
    ["4th rnd", "the round before"],
  ])("%s behind a heading goes on from %s", (head, before) => {
    expect(says(head)).toContain(`from the 6 of ${before}; the line says 7.`);
  });

  test("with numbers of its own it is worked on an edge", () => {
    const text = `${base}Fasten off.\n\nEdging\nRnd 1: Join yarn in any st of base, sc in each st around. (7)\n`;
    expect(foundBy("wrong-count", text).every(({ message }) => !message.includes("Rnd 0"))).toBe(true);
  });
});

describe("pieces whose name is part of another's", () => {
  const hexagons = (whole: number, half: number): string =>
    `Hexagon (make ${whole})\nRnd 1: 6 sc in mr (6)\nFasten off.\n\nHalf hexagon (make ${half})\nRnd 1: 4 sc in mr (4)\nFasten off.\n\n`;
  const laid = "Making up\nLay out the 14 hexagons and 4 half hexagons and sew them together.\n";

  test("each is told apart", () => {
    expect(foundBy("wrong-number-of-pieces", hexagons(14, 4) + laid)).toEqual([]);
    expect(onlyFinding("wrong-number-of-pieces", hexagons(12, 4) + laid).on).toBe("14 hexagons");
    expect(onlyFinding("wrong-number-of-pieces", hexagons(14, 2) + laid).on).toBe("4 half hexagons");
  });

  test("a half one is one of all, and a whole one is no half", () => {
    const all = "Making up\nSew the 18 hexagons together.\n";
    expect(foundBy("wrong-number-of-pieces", hexagons(14, 4) + all)).toEqual([]);
    const halves = "Making up\nSew the 6 half hexagons on.\n";
    expect(onlyFinding("wrong-number-of-pieces", hexagons(14, 4) + halves).message).toContain(
      '4 are made under "Half hexagon"',
    );
  });
});

describe("what is told in other words", () => {
  const head = "Head\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnds 3-8: sc in each st around (12)\n";

  test("eyes that are inserted behind the closing", () => {
    const text = `${head}Fasten off. Weave the tail through the front loops of the last 6 sts, pull tight and secure.\nInsert the eyes between Rnds 7 and 8.\n`;
    expect(onlyFinding("placed-too-late", text).on).toBe("Insert the eyes between Rnds 7 and 8.");
  });

  test("how many go through both layers, in brackets", () => {
    const closed = (n: number): string =>
      `${head}Flatten; sc through both layers across (${n} sc). Fasten off.\n`;
    const { on, message } = onlyFinding("edges-differ", closed(7));
    expect(on).toBe("7");
    expect(message).toContain("Did you mean 6?");
    expect(foundBy("edges-differ", closed(6))).toEqual([]);
  });
});
