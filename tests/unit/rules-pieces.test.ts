import { describe, expect, test } from "vitest";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

// Trade practice, from the usual technical editor's checklist: "make 2" agrees with the assembly, each piece is
// fastened off, pieces meeting at a seam agree, eyes are placed before closing, placement rows exist.

const head =
  "Head\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnds 3-8: sc in each st around (12)\nFasten off.\n\n";
const ear = (make = ""): string =>
  `Ear${make}\nRnd 1: 5 sc in mr (5)\nRnd 2: sc in each st around (5)\nFasten off.\n\n`;
const assembly = (...sentences: readonly string[]): string => `Assembly\n${sentences.join("\n")}\n`;

describe("wrong-number-of-pieces", () => {
  test("both of a piece that is made once", () => {
    const text = `${head}${ear()}${assembly("Sew both ears to the head.")}`;
    const { message, on, related } = onlyFinding("wrong-number-of-pieces", text);
    expect(on).toBe("both ears");
    expect(message).toBe(
      'The assembly speaks of "both ears", and one is made under "Ear". Make the numbers agree.',
    );
    expect(related.map((one) => one.message)).toEqual(["Here one is made."]);
    const after = mended("wrong-number-of-pieces", text);
    expect(after).toContain("Ear (make 2)\n");
    expectClean(after);
  });

  test.each([
    [" (make 3)", "the four ears", "Ear (make 4)"],
    [" (make 3)", "the 4 ears", "Ear (make 4)"],
    [" (make 4)", "both ears", "Ear (make 2)"],
    [" (make 3)", "the 2 ears", "Ear (make 2)"],
    [" (make 2)", "3 ears", "Ear (make 3)"],
  ])("%s against %s", (make, said, heading) => {
    const text = `${head}${ear(make)}${assembly(`Sew ${said} to the head.`)}`;
    expect(onlyFinding("wrong-number-of-pieces", text).on).toBe(said.replace("the ", ""));
    const after = mended("wrong-number-of-pieces", text);
    expect(after).toContain(`${heading}\n`);
    expectClean(after);
  });

  test.each([
    ["the ears", "Sew the ears to the head."],
    ["one ear", "Sew one ear to each side of the head."],
    ["ear", "Sew an ear on either side of the head."],
  ])("a piece that is made once, told of as several: %s", (on, sentence) => {
    const text = `${head}${ear().replace("Fasten off.", "Fold flat, 2 sc through both layers. Fasten off.")}${assembly(sentence)}`;
    expect(onlyFinding("wrong-number-of-pieces", text).on).toBe(on.replace("the ", ""));
    const after = mended("wrong-number-of-pieces", text);
    expect(after).toContain("Ear (make 2)\n");
    expectClean(after);
  });

  test.each([
    [
      "heading in the plural",
      `${head}${ear().replace("Ear", "Ears")}${assembly("Sew the ears to the head.")}`,
    ],
    [
      "heading that tells which of several",
      `${head}${ear().replace("Ear", "Ear 1")}${assembly("Sew the ears to the head.")}`,
    ],
    [
      "note that says how many",
      `Notes\nYou need two ears.\n\n${head}${ear()}${assembly("Sew the ears to the head.")}`,
    ],
    [
      "piece that is called like what every piece has",
      `${head}${ear().replace("Ear", "Side")}${assembly("Sew the sides to the head.")}`,
    ],
    ["one piece", `${head}${ear()}${assembly("Sew the ear to the head, one stitch to each side.")}`],
  ])("a piece that is made once: silent on a %s", (_, text) => {
    expect(foundBy("wrong-number-of-pieces", text)).toEqual([]);
  });

  const squares = (many: number, sentence: string): string =>
    `${ear(` (make ${many})`).replace("Ear", "Square")}${assembly(sentence)}`;

  test.each([
    [60, "Lay the squares out in 9 rows of 7.", "9 rows of 7"],
    [63, "Lay the 63 squares out in nine rows of eight.", "nine rows of eight"],
    [30, "Sew the squares together, 5 squares wide and 7 high.", "5 squares wide and 7 high"],
  ])("%d pieces laid out otherwise: %s", (many, sentence, on) => {
    expect(onlyFinding("wrong-number-of-pieces", squares(many, sentence)).on).toBe(on);
  });

  test.each([
    [63, "Lay the 63 squares out in 9 rows of 7."],
    [12, "Lay out 4 rows of 3 squares and sew them together."],
    [35, "Sew the squares together, 5 squares wide and 7 high."],
    [12, "Join the squares with 2 rows of 3 sc."],
  ])("is silent on %d pieces: %s", (many, sentence) => {
    expect(foundBy("wrong-number-of-pieces", squares(many, sentence))).toEqual([]);
  });

  test("the number in the assembly may be the wrong one", () => {
    const text = `${head}${ear(" (make 3)")}${assembly("Sew the 4 ears to the head.")}`;
    const after = mended("wrong-number-of-pieces", text, "Write 3 in the assembly");
    expect(after).toContain("Sew the 3 ears to the head.");
    expectClean(after);
  });

  test("more than are made, whatever else there is one of on each side", () => {
    const text = `${head}${ear(" (make 2)")}${assembly("Leaving a gap at each end, sew the 3 ears to the head.")}`;
    expect(onlyFinding("wrong-number-of-pieces", text).on).toBe("3 ears");
  });

  test.each([
    ["the number that is made", `${head}${ear(" (make 2)")}${assembly("Sew both ears to the head.")}`],
    [
      "some of several",
      `${head}${ear(" (make 4)")}${assembly("Sew two ears to the front of the head and two to the back.")}`,
    ],
    ["some on each side", `${head}${ear(" (make 4)")}${assembly("Sew 2 ears to each side of the head.")}`],
    [
      "one and the other",
      `${head}${ear(" (make 2)")}${assembly("Sew one ear to the head, and the other ear beside it.")}`,
    ],
    [
      "prose that makes a second",
      `${head}${ear().replace("Fasten off.", "Fasten off. Make the second one in white.")}${assembly("Sew both ears to the head.")}`,
    ],
    [
      "pieces with a heading each",
      `${head}${ear().replace("Ear", "Left ear")}${ear().replace("Ear", "Right ear")}${assembly("Sew both ears to the head.")}`,
    ],
    ["both of two pieces", `${head}${ear(" (make 2)")}${assembly("Stuff both head and ears.")}`],
    [
      "pieces that are sewn in pairs",
      `${head}${ear(" (make 4)")}${assembly("Sew the two ears together along the edge.")}`,
    ],
    [
      "rows of a piece",
      `${head}${ear(" (make 2)")}${assembly("Sew the ears between Rnds 5 and 6 of the head.")}`,
    ],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("wrong-number-of-pieces", text)).toEqual([]);
  });
});

describe("piece-not-made", () => {
  test("something that nothing else is called", () => {
    const text = `${head}${ear(" (make 2)")}${assembly("Sew the ears and the beak to the head.")}`;
    const { message, on, severity } = onlyFinding("piece-not-made", text);
    expect(on).toBe("beak");
    expect(severity).toBe("information");
    expect(message).toBe(
      'The assembly sews on "beak", and no piece or material of this pattern is called that. Write it, or use the name it has.',
    );
  });

  test("a part is begun for it", () => {
    const text = `${head}${ear(" (make 2)")}${assembly("Sew the ears and the beak to the head.")}`;
    const after = mended("piece-not-made", text);
    expect(after).toContain("Beak\n\nAssembly\n");
    expectClean(after);
  });

  test("the only piece that is not used may be meant", () => {
    const fin = ear(" (make 2)").replace("Ear", "Fin");
    const text = `${head}${ear(" (make 2)")}${fin}${assembly("Sew the ears to the head.", "Sew the flippers to the head.")}`;
    expect(onlyFinding("piece-not-made", text).message).toContain("Did you mean the fin?");
    const after = mended("piece-not-made", text);
    expect(after).toContain("Sew the fins to the head.");
    expectClean(after);
  });

  test("at the end of a sentence", () => {
    const text = `${head}${ear(" (make 2)")}${assembly("Sew the ears to the head, and sew the second sleeve.")}`;
    expect(onlyFinding("piece-not-made", text).on).toBe("sleeve");
    expect(foundBy("piece-not-made", text.replace("second sleeve", "side seams"))).toEqual([]);
  });

  test.each([
    [
      "seams, ends and edges",
      "Sew the side seams. Sew the opening closed. Sew the tail in. Sew the edges together.",
    ],
    ["faces", "Sew the eyes and the mouth to the head."],
    ["what a material line lists", "Sew the badge to the head."],
    ["a piece made in passing", "Sew the stalk to the head."],
    ["what another sentence makes", "Sew the ears to the crown."],
  ])("is silent on %s", (_, sentence) => {
    const text = `Materials\n1 enamel badge\n\n${head}${ear(" (make 2)")}Stalk: ch 12, fasten off.\n\n${assembly("Sew the ears to the head.", sentence)}`;
    expect(foundBy("piece-not-made", text)).toEqual([]);
  });

  test("a pattern of one piece may be sewn to anything", () => {
    expect(foundBy("piece-not-made", `${head}${assembly("Sew the brooch to the head.")}`)).toEqual([]);
  });
});

describe("piece-not-used", () => {
  const wing = ear(" (make 2)").replace("Ear", "Wing");
  const snout = ear().replace("Ear", "Snout");

  test("a piece that no sentence speaks of", () => {
    const text = `${head}${ear(" (make 2)")}${snout}${wing}${assembly("Sew the ears and the snout to the head.")}`;
    const { message, on, severity } = onlyFinding("piece-not-used", text);
    expect(on).toBe("Wing (make 2)");
    expect(severity).toBe("information");
    expect(message).toBe(
      '"Wing" is made, and nothing says what becomes of it. Say in the assembly where it goes.',
    );
    const after = mended("piece-not-used", text);
    expect(after).toContain("to the head. Sew on the 2 wings.\n");
    expectClean(after);
  });

  test("where the others are sewn to a piece that goes on from another", () => {
    const legs = ear(" (make 2)").replace("Ear", "Leg");
    const body = "Body\nRnd 3: sc in each st of first leg, sc in each st of second leg (10)\nFasten off.\n\n";
    const text = `${legs}${body}${ear(" (make 2)")}${wing}${assembly("Sew the ears to the body.")}`;
    expect(onlyFinding("piece-not-used", text).on).toBe("Wing (make 2)");
  });

  test("a tail left for sewing puts nothing to use", () => {
    const sewn = wing.replace("Fasten off.", "Fasten off, leaving a tail for sewing.");
    const text = `${head}${ear(" (make 2)")}${snout}${sewn}${assembly("Sew the ears and the snout to the head.")}`;
    expect(onlyFinding("piece-not-used", text).on).toBe("Wing (make 2)");
    expect(foundBy("piece-not-used", text.replaceAll("Wing", "Body"))).toEqual([]);
  });

  test("a fix uses the plural of the trade", () => {
    const foot = wing.replace("Wing", "Foot");
    const text = `${head}${ear(" (make 2)")}${snout}${foot}${assembly("Sew the ears and the snout to the head.")}`;
    expect(mended("piece-not-used", text)).toContain("Sew on the 2 feet.");
  });

  test("a tail of yarn is no tail, and the title puts nothing to use", () => {
    const tail = ear().replace("Ear", "Tail").replace("Fasten off.", "Fasten off, leaving a long tail.");
    const others = `${head}${ear(" (make 2)")}${snout}`;
    const sewn = assembly("Sew the ears and the snout to the head with the yarn tail.");
    expect(onlyFinding("piece-not-used", `${others}${tail}${sewn}`).on).toBe("Tail");
    const titled = `Dragon\n\nA small dragon with two wings.\n\n${others}${wing}${sewn}`;
    expect(onlyFinding("piece-not-used", titled).on).toBe("Wing (make 2)");
    const used = sewn.replace("yarn tail.", "yarn tail. Sew the tail to the back.");
    expect(foundBy("piece-not-used", `${others}${tail}${used}`)).toEqual([]);
  });

  test.each([
    ["an assembly that takes all", "Sew the ears and the snout to the head. Sew on the remaining pieces."],
    [
      "a sentence in another part",
      "Sew the ears and the snout to the head.\n\nNotes\nThe wings are optional.",
    ],
  ])("is silent on %s", (_, sentences) => {
    const text = `${head}${ear(" (make 2)")}${snout}${wing}${assembly(sentences)}`;
    expect(foundBy("piece-not-used", text)).toEqual([]);
  });

  test.each([
    ["its own part says where it goes", wing.replace("Fasten off.", "Fasten off. Sew to the sides.")],
    [
      "its own rows are worked through another piece",
      wing.replace("Fasten off.", "Rnd 3: 5 sc through head and wing (5)\nFasten off."),
    ],
  ])("is silent where %s", (_, used) => {
    const text = `${head}${ear(" (make 2)")}${snout}${used}${assembly("Sew the ears and the snout to the head.")}`;
    expect(foundBy("piece-not-used", text)).toEqual([]);
  });

  test("is silent without an assembly, and on the piece that the others go on", () => {
    expect(foundBy("piece-not-used", `${head}${ear()}${wing}`)).toEqual([]);
    expect(
      foundBy(
        "piece-not-used",
        `${head}${ear()}${wing}${assembly("Sew the ear to the top.", "Sew the wings to the sides.")}`,
      ),
    ).toEqual([]);
  });
});

describe("edges-differ", () => {
  const body = "Body\nRnd 1: 7 sc in mr (7)\nRnd 2: inc x7 (14)\nFasten off.\n\n";

  test.each([
    ["Sew the head to the body, opening to opening."],
    ["Sew the openings of the head and the body together."],
    ["Sew the head to the body stitch for stitch."],
    ["Join the last rnd of the head to the last rnd of the body, matching stitches."],
  ])("%s", (sentence) => {
    const text = `${head}${body}${assembly(sentence)}`;
    const { message, on, related } = onlyFinding("edges-differ", text);
    expect(on).toBe(sentence);
    expect(message).toBe(
      '"Head" ends with 12 stitches, "Body" ends with 14 stitches, and the assembly sews them stitch for stitch. Make the numbers agree, or say how the larger one is eased in.',
    );
    expect(related).toHaveLength(2);
    const after = mended("edges-differ", text);
    expect(after).toContain(`${sentence.slice(0, -1)}, easing in the larger edge.`);
    expectClean(after);
  });

  test.each([
    [
      "edges that agree",
      `${head}${head.replace("Head", "Body")}${assembly("Sew the head to the body, opening to opening.")}`,
    ],
    ["pieces sewn on somewhere", `${head}${body}${assembly("Sew the head to the body.")}`],
    [
      "an edge that is eased in",
      `${head}${body}${assembly("Sew the head to the body, opening to opening, easing the body in.")}`,
    ],
    [
      "a row whose count is not known",
      `${head.replace("Rnds 3-8: sc in each st around (12)", "Rnd 3: lotus around")}${body}${assembly("Sew the head to the body, opening to opening.")}`,
    ],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("edges-differ", text)).toEqual([]);
  });
});

describe("edges-differ along row ends", () => {
  const cuff = (rows: number, stitch = "Sc"): string =>
    `Cuff\nCh 12.\nRow 1: ${stitch} in ${stitch === "Sc" ? "2nd" : "4th"} ch from hook and in each ch across, turn.\nRows 2-${rows}: Ch ${stitch === "Sc" ? 1 : 3}, ${stitch.toLowerCase()} in each st across, turn. (${stitch === "Sc" ? 11 : 10} ${stitch.toLowerCase()})\n\n`;
  const hand = (work: string): string =>
    `Hand\nRnd 1: Ch 1, ${work}, join.\nRnd 2: Sc in each st around. (36 sc)\n`;

  test.each([
    ["far more stitches than rows", 20, "work 36 sc evenly along the row ends of the cuff (36 sc)"],
    ["far fewer", 60, "work 36 sc evenly around the row ends (36 sc)"],
    [
      "not one in each, as is said",
      34,
      "36 sc evenly along the row ends of the cuff, one in each row (36 sc)",
    ],
    [
      "not two in each, as is said",
      20,
      "36 sc evenly along the row ends of the cuff, 2 sc in each row (36 sc)",
    ],
  ])("%s", (_, rows, work) => {
    const { message, related } = onlyFinding("edges-differ", `${cuff(rows)}${hand(work)}`);
    expect(message).toContain(`Rnd 1 is 36 stitches along the ${rows} rows of "Cuff"`);
    expect(related.map((one) => one.message)).toEqual([`"Cuff" has ${rows} rows.`]);
  });

  test.each([
    ["as many as rows", cuff(36), "work 36 sc evenly along the row ends of the cuff (36 sc)"],
    ["a little more", cuff(30), "work 36 sc evenly along the row ends of the cuff (36 sc)"],
    ["two to a row of dc", cuff(18, "Dc"), "work 36 sc evenly along the row ends of the cuff (36 sc)"],
    [
      "two in each, as is said",
      cuff(18),
      "36 sc evenly along the row ends of the cuff, 2 sc in each row (36 sc)",
    ],
    [
      "a row that goes on along another edge",
      cuff(20),
      "work 20 sc evenly along the row ends of the cuff, sc in next 16 ch (36 sc)",
    ],
    ["a piece of few rows", cuff(4), "work 36 sc evenly along the row ends of the cuff (36 sc)"],
  ])("is silent on %s", (_, piece, work) => {
    expect(foundBy("edges-differ", `${piece}${hand(work)}`)).toEqual([]);
  });
});

describe("edges-differ in a piece that is closed flat", () => {
  const closed = (n: number): string =>
    ear().replace("Fasten off.", `Fold flat and work ${n} sc through both layers. Fasten off.`);

  test("more stitches than half of the last round", () => {
    const { message, on } = onlyFinding("edges-differ", closed(4));
    expect(on).toBe("4");
    expect(message).toBe("4 stitches through both layers need 8, and Rnd 2 has 5. Did you mean 2?");
    expectClean(mended("edges-differ", closed(4)));
  });

  test.each([2, 3, 1])("is silent on %d of 5", (n) => {
    expect(foundBy("edges-differ", closed(n))).toEqual([]);
  });
});

describe("no-such-placement", () => {
  const eyes = (sentence: string): string => head.replace("Fasten off.", `${sentence}\nFasten off.`);

  test("rows that the piece does not have", () => {
    const { message, on } = onlyFinding(
      "no-such-placement",
      eyes("Place the eyes between Rnds 10 and 11, 5 sts apart."),
    );
    expect(on).toBe("Rnds 10 and 11");
    expect(message).toBe(
      '"Head" has no row 10 or 11: the last is 8. Say where it goes on the rows that are there.',
    );
  });

  test.each([["Sew the ears between Rnds 9 and 10 of the head."], ["Sew the ears to the head over Rnd 9."]])(
    "in the assembly: %s",
    (sentence) => {
      expect(
        onlyFinding("no-such-placement", `${head}${ear(" (make 2)")}${assembly(sentence)}`).message,
      ).toContain('"Head" has no row 9');
    },
  );

  const legs = "Leg (make 2)\nRnd 1: 6 sc in mr (6)\nRnd 2: sc in each st around (6)\nFasten off.\n\n";
  const joined = `${legs}Body\nRnd 3: sc in each st of first leg, sc in each st of second leg (12)\nRnds 4-9: sc in each st around (12)\nFasten off.\n\n`;

  test("of a piece that goes on from another", () => {
    const text = `${ear(" (make 2)")}${joined}${assembly("Sew one ear to each side of the body at Rnd 15.")}`;
    expect(onlyFinding("no-such-placement", text).message).toContain('"Body" has no row 15: the last is 9.');
  });

  test("of any piece, where a cord is laced", () => {
    const text = `${joined}Cord\nCh 40.\nRow 1: Sl st in 2nd ch from hook and in each ch across. (39 sl sts)\nFasten off.\n\n${assembly("Thread the cord through the eyelets of Rnd 18.")}`;
    expect(onlyFinding("no-such-placement", text).message).toContain("No piece has a row 18: the last is 9.");
    expect(foundBy("no-such-placement", text.replace("eyelets of Rnd 18", "stitches of Rnd 8"))).toEqual([]);
  });

  test("an edge that is brought behind a row", () => {
    const text = eyes("Bring the first round up behind Rnd 10 and sew it there.");
    expect(onlyFinding("no-such-placement", text.replace(" and sew it there", "")).on).toBe("Rnd 10");
  });

  const laced = (n: number): string =>
    `Pouch\nRnd 1: fsc 12, join (12)\nRnds 2-5: sc in each st around (12)\nRnd 6 (eyelets): *sc in next st, ch 1, sk next st; rep from * around (6 sc, 6 ch-1 sps)\nRnd 7: *sc in next st, sc in next ch-1 sp; rep from * around (12)\nFasten off.\n\n${assembly(`Thread a cord through the eyelets of Rnd ${n}.`)}`;

  test("the eyelets of a row that has none", () => {
    expect(onlyFinding("no-such-placement", laced(4)).message).toBe(
      "Row 4 has no holes: it makes no chain spaces in any piece. Say which row is meant.",
    );
    expect(foundBy("no-such-placement", laced(6))).toEqual([]);
  });

  test("in a numbered step", () => {
    const text = `${head}${ear(" (make 2)")}${assembly("1. Stuff.", "2. Sew the ears to the head over Rnd 9.")}`;
    expect(onlyFinding("no-such-placement", text).message).toContain('"Head" has no row 9');
  });

  test("behind rows that are open only in the middle", () => {
    const text = `Head\nRnd 1: 6 sc in mr (6)\nNext rnd: inc x6 (12)\nRnds 3-8: sc in each st around (12)\nPlace the eyes between Rnds 10 and 11.\n`;
    expect(onlyFinding("no-such-placement", text).message).toContain("the last is 8");
  });

  test.each([
    ["rows that are there", eyes("Place the eyes between Rnds 6 and 7, 9 sts apart.")],
    ["ordinals", eyes("Insert the eyes between 7th and 8th rounds.")],
    [
      "a piece that goes on under another heading",
      `${head}Neck\nRnds 9-12: sc in each st around (12)\nPlace a button at Rnd 3.\n`,
    ],
    [
      "rows that are repeated for a while",
      eyes("Rep last rnd 4 times.\nPlace the eyes between Rnds 10 and 11."),
    ],
    ["a place on something else", eyes("Embroider a smile to the belly at Rnd 20.")],
    [
      "a piece sewn on something without a name",
      `${head}${ear()}${assembly("Sew the ear to the front between Rnds 9 and 13.")}`,
    ],
    ["rows of a longer piece", `${head}${ear()}${assembly("Sew the ear to the head between Rnds 5 and 7.")}`],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("no-such-placement", text)).toEqual([]);
  });
});

describe("placed-too-late", () => {
  const closed = (...sentences: readonly string[]): string =>
    head.replace("Fasten off.", sentences.join("\n"));

  test("safety eyes behind the closing", () => {
    const text = closed("Fasten off and close the hole.", "Insert the safety eyes between Rnds 5 and 6.");
    const { on, message, related } = onlyFinding("placed-too-late", text);
    expect(on).toBe("Insert the safety eyes between Rnds 5 and 6.");
    expect(message).toBe(
      "The piece is closed before the safety eyes go in, and their washers go on from the inside. Put this sentence before the closing.",
    );
    expect(related.map((one) => one.message)).toEqual(["Here the piece is closed."]);
    const after = mended("placed-too-late", text);
    expect(after).toBe(
      closed("Insert the safety eyes between Rnds 5 and 6.", "Fasten off and close the hole."),
    );
    expectClean(after);
  });

  test("in one line, and in the assembly", () => {
    const inLine = closed("Stuff. Close the opening. Attach the safety eyes at Rnd 5.");
    expect(mended("placed-too-late", inLine)).toBe(
      closed("Stuff. Attach the safety eyes at Rnd 5. Close the opening."),
    );
    const apart = `${closed("Fasten off, close the hole.")}${assembly("Insert the safety eyes into the head at Rnd 5.")}`;
    expect(onlyFinding("placed-too-late", apart).on).toContain("Insert the safety eyes");
    expect(mended("placed-too-late", apart)).toContain(
      "Insert the safety eyes into the head at Rnd 5.\nFasten off, close the hole.",
    );
  });

  test("behind a piece that is drawn together", () => {
    const text = closed(
      "Fasten off, thread the tail through the last sts and pull tight. Insert the safety eyes at Rnd 5.",
    );
    expect(onlyFinding("placed-too-late", text).on).toBe("Insert the safety eyes at Rnd 5.");
  });

  test.each([
    [
      "a tail that is pulled through one stitch",
      closed("Pull the yarn tight.", "Insert the safety eyes at Rnd 5."),
    ],
    ["eyes before the closing", closed("Insert the safety eyes at Rnd 5.", "Fasten off and close the hole.")],
    [
      "eyes that are sewn or embroidered",
      closed("Close the hole.", "Embroider the eyes at Rnd 5.", "Sew on the eyes."),
    ],
    [
      "a sentence that looks back",
      closed("Close the hole.", "Insert the safety eyes at Rnd 5 before closing."),
    ],
    ["a piece that stays open", closed("Do not close the hole yet.", "Insert the safety eyes at Rnd 5.")],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("placed-too-late", text)).toEqual([]);
  });
});

describe("piece-not-finished", () => {
  const open = "Snout\nRnd 1: 5 sc in mr (5)\nRnd 2: sc in each st around (5)\n\n";

  test("one piece without an end among others that have one", () => {
    const text = `${head}${ear(" (make 2)")}${open}`;
    const { message, on, severity } = onlyFinding("piece-not-finished", text);
    expect(on).toBe("Rnd 2: sc in each st around (5)");
    expect(severity).toBe("information");
    expect(message).toBe(
      '"Snout" ends with Rnd 2, and nothing says how it is finished. The other pieces say so.',
    );
    const after = mended("piece-not-finished", text);
    expect(after).toBe(`${head}${ear(" (make 2)")}${open.replace("(5)\n\n", "(5)\nFasten off.\n\n")}`);
    expectClean(after);
  });

  test.each([
    "sc in each st to end (5)",
    "sc in each st, join with sl st to first sc (5)",
    "sc in same st as join, sc in next 4 sts, join (5)",
    "sc in each st around, do not turn (5)",
  ])("words of a row end nothing: %s", (row) => {
    const last = open.replace("sc in each st around (5)", row);
    expect(foundBy("piece-not-finished", `${head}${ear(" (make 2)")}${last}`)).toHaveLength(1);
  });

  test.each([
    ["a tail", open.replace("\n\n", "\nLeave a long tail.\n\n")],
    [
      "a piece closed flat",
      open.replace("Rnd 2: sc in each st around (5)", "Rnd 2: fold flat, 2 sc through both layers (2)"),
    ],
    [
      "a piece that goes on under another heading",
      `${open}Nose\nRnd 3: sc in each st around (5)\nFasten off.\n`,
    ],
    ["a last row that says so", open.replace("around (5)", "around (5). FO.")],
  ])("is silent on %s", (_, last) => {
    expect(foundBy("piece-not-finished", `${head}${ear(" (make 2)")}${last}`)).toEqual([]);
  });

  test("what goes on from another piece speaks for the others, too, but for the last words of a pattern", () => {
    const sides = "Sides\nRnds 9-10: sc in each st around (12)\nFasten off.\n\n";
    const base = head.replace("Fasten off.", "Do not fasten off.");
    expect(
      foundBy("piece-not-finished", `${base}${sides}${open}${assembly("Sew on the snout.")}`),
    ).toHaveLength(1);
    expect(foundBy("piece-not-finished", `${base}${sides}${open}`)).toEqual([]);
  });

  test("is silent where most pieces have no end", () => {
    expect(foundBy("piece-not-finished", `${head}${open}${open.replace("Snout", "Nose")}`)).toEqual([]);
  });
});

describe("odd-eyelets", () => {
  // Trade practice: an even number of eyelets, so that both ends of a cord come out on one face.
  const pouch = (groups: number, sentence = "Lace the cord through the eyelets."): string =>
    `Rnd 1: fsc ${3 * groups}, join (${3 * groups})\nRnd 2 (Eyelet Rnd): *sc in next 2 sts, ch 1, sk next st; rep from * around (${2 * groups} sc, ${groups} ch-1 sps)\n${sentence}\n`;

  test("an odd number", () => {
    const { message, severity } = onlyFinding("odd-eyelets", pouch(11));
    expect(severity).toBe("information");
    expect(message).toContain("Rnd 2 has 11 eyelets, an odd number");
  });

  test.each([
    ["an even number", pouch(12)],
    ["eyelets without a cord", pouch(11, "Fasten off.")],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("odd-eyelets", text)).toEqual([]);
  });
});
