import { describe, expect, test } from "vitest";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import type { Finding } from "../../server/src/workspace/report";

/** The only finding of a pattern, with the text it stands under. */
function only(text: string): Finding & { readonly under: string } {
  const { findings } = new Checker().check(text);
  expect(findings, text).toHaveLength(1);
  const [finding] = findings as [Finding];
  return { ...finding, under: text.slice(finding.span.start, finding.span.end) };
}

function titlesOf(fixes: Finding["fixes"]): string[] {
  return fixes.map(({ title }) => title);
}

function resultsOf(text: string): string[] {
  return new Checker().check(text).pieces.flatMap(({ rows }) => rows.map(({ result }) => result));
}

const twenty = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)";

describe("a row that does not fit", () => {
  test("is told with its numbers, what it is worked on and what to do", () => {
    const { message, under, related } = only("R1: fsc 18, join (18)\nR2: (4 sc, dec) x6 (15)");
    expect(message).toBe("R2 needs 36 stitches; R1 has 18: 18 short. Did you mean x3?");
    expect(under).toBe("(4 sc, dec) x6");
    expect(related.map((each) => each.message)).toEqual(["R1 leaves 18 stitches to work into."]);
  });

  test("on a starting chain counts chains", () => {
    const { message } = only("Ch 32.\nRow 1: Sc in 2nd ch from hook, sc in each of next 29 ch. (30)");
    expect(message).toBe(
      "Row 1 needs 30 chains; the starting chain has 31: 1 left over. With ch 31 it fits.",
    );
  });

  test("in chain spaces counts chain spaces, or loops where the row says so", () => {
    const below = "Rnd 1: (2 dc, ch 2) 4 times in magic ring. (8 dc, 4 ch-2 sps)";
    const row =
      "Rnd 2: Sl st to ch-2 sp, ch 1, 4 hdc in same sp, *4 hdc in next ch-2 sp; rep from * 3 more times, join. (16 hdc)";
    expect(only(`${below}\n${row}`).message).toBe(
      "Rnd 2 needs 5 chain spaces; Rnd 1 has 4: 1 short. Did you mean 2 more times?",
    );
    const loops = "Rnd 1: 6 sc in mr (6)\nRnd 2: *sc in next st, ch 3; rep from * around. (6 sc, 6 ch-3 sps)";
    expect(only(`${loops}\nRnd 3: *3 sc in next ch-3 loop; rep from * 4 more times.`).message).toBe(
      "Rnd 3 needs 5 loops; Rnd 2 has 6: 1 left over. Did you mean 5 more times?",
    );
  });

  test("because its repeat does not divide says how often it goes", () => {
    const text = `Ch 41.\nRow 1: Sc in 2nd ch from hook and in each ch across. (40)
Row 2: Ch 1, turn, *sc in next 5 sts, dc in next st; rep from * across. (40)`;
    expect(only(text).message).toContain(
      "Row 2 needs 36 stitches; Row 1 has 40: the repeat of 6 goes 6 times into 40 and leaves 4.",
    );
  });

  test("among rows of which the first fits is told with the numbers where it goes wrong", () => {
    const decreasing = "Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog.";
    expect(only(`${twenty}\nRows 2-41: ${decreasing}`).message).toContain(
      "Rows 2-41: 9 of these rows fit; the next one needs 4 stitches and has 2: 2 short.",
    );
    const counted = "Ch 1, turn, 2 sc in first st, sc in next 19 sts.";
    expect(only(`${twenty}\nRows 2-9: ${counted}`).message).toContain(
      "Rows 2-9: the first of these rows fits; the next one needs 20 stitches and has 21: 1 left over.",
    );
  });

  test("names each size that is wrong, and no other", () => {
    const text = `Sizes S (M, L)
Ch 41 (45, 49).
Row 1: Sc in 2nd ch from hook and in each ch across. 40 (44, 48) sc.
Row 2: Ch 1, turn, sc in next 40 (45, 49) sts. 40 (44, 48) sc.`;
    expect(only(text).message).toBe(
      "Row 2 does not fit Row 1: in size M it needs 45 stitches and has 44 (1 short) and in size L it needs 49 stitches and has 48 (1 short).",
    );
  });

  test("along both sides of a chain says so", () => {
    const text = "R1: ch 11, sc in 2nd ch, 8 sc, 3 sc in last ch, other side: 4 sc, 2 sc in last ch (22)";
    expect(only(text).message).toContain(
      "the starting chain has 19, both sides taken together: 4 left over.",
    );
  });

  test("as a range has a verb for several rows", () => {
    expect(only("Rnd 1: 6 sc in mr (6)\nRnds 2-4: (sc, inc) x4").message).toBe(
      "Rnds 2-4 need 8 stitches; Rnd 1 has 6: 2 short.",
    );
  });

  test("one stitch is not stitches", () => {
    expect(only("Rnd 1: 6 sc in mr (6)\nRnd 2: 7 sc").message).toContain(
      "Rnd 2 needs 7 stitches; Rnd 1 has 6: 1 short.",
    );
    expect(only("Rnd 1: 2 sc in mr (2)\nRnd 2: sc in next st (1)").message).toContain(
      "Rnd 2 needs 1 stitch;",
    );
  });
});

describe("a wrong count", () => {
  test("stands under the count and says what the number comes from", () => {
    const { message, under, fixes } = only("Rnd 1: fsc 36, join (36)\nRnd 2: (5 sc, inc) x6 (24)");
    expect(message).toBe("Rnd 2 makes 42 stitches from the 36 of Rnd 1; the line says 24. Did you mean 42?");
    expect(under).toBe("(24)");
    expect(titlesOf(fixes)).toEqual(["Change the count to 42"]);
  });

  test("that later rows are written for points to the instructions", () => {
    const text = `Rnd 1: 9 sc in magic ring (9)
Rnd 2: 2 sc in each st (18)
Rnd 3: (sc, inc) x9 (28)
Rnds 4-6: sc in each st around (28)
Rnd 7: *2 sc, dec; rep from * around (21)`;
    const { message, related } = only(text);
    expect(message).toBe(
      "Rnd 3 makes 27 stitches from the 18 of Rnd 2; the line says 28. Rnds 4-6 are written for 28, so look at the instructions first.",
    );
    expect(related.map((each) => each.message)).toEqual([
      "Rnds 4-6 are written for 28.",
      "Rnd 7 is written for 28.",
    ]);
  });

  test("of several kinds names the kinds that differ", () => {
    const text = `Rnd 1: fsc 12, join (12)
Rnd 2: *sc in next 2 sts, ch 2, sk next st; rep from * around. (9 sc, 4 ch-2 sps)`;
    expect(only(text).message).toContain("Rnd 2 makes 8 sc from the 12 of Rnd 1; the line says 9.");
  });

  test("names the size", () => {
    const text = `Sizes S (M)
Rnd 1: fsc 36 (42), join. 36 (42) sts.
Rnd 2: *5 sc, inc; rep from * around. 42 (48) sts.`;
    expect(only(text).message).toBe(
      "Rnd 2 makes 49 stitches in size M, where the line says 48. Did you mean 42 (49) sts?",
    );
  });

  test("that is missing for a size is asked for", () => {
    const text = `Sizes 1 (2, 3, 4)
Ch 41 (45, 49, 53).
Row 1: Sc in 2nd ch from hook and in each ch across. 40 (44, 48) sc.`;
    const { message, fixes } = only(text);
    expect(message).toBe("Row 1 gives 3 counts, and the pattern has 4 sizes. Add the count for size 4: 52.");
    expect(titlesOf(fixes)).toEqual(["Change the count to 40 (44, 48, 52) sc"]);
  });
});

describe("an ambiguous row", () => {
  test.each([
    ["Ch 4, join to form ring.", "Rnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 times, join."],
    ["Rnd 1: fsc 20, join. (20)", "Rnd 2: 2 sc in every other st around."],
    [
      "Rnd 1: fsc 20, join. (20)",
      "Rnd 2: *Sc in next 3, 2 sc in next; rep from * 2 times, sc in each remaining st.",
    ],
    [
      "Rnd 1: fsc 20, join. (20)",
      "Rnd 2: *Sc in next 3, 2 sc in next; rep from * 3 times, sc in each remaining st.",
    ],
    ["", "Row 1: Ch 22, hdc in 3rd ch from hook and in each ch across."],
  ])("is settled by each text it names: %s %s", (below, row) => {
    const found = only(`${below}\n${row}`);
    expect(found.fixes).toHaveLength(2);
    for (const fix of found.fixes) {
      const mended = withEdits(`${below}\n${row}`, fix.edits());
      expect(resultsOf(mended).at(-1), mended).toBe("ok");
    }
  });

  test("gives the numbers of each meaning", () => {
    const { message } = only(
      "Ch 4, join to form ring.\nRnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 times, join.",
    );
    expect(message).toBe(
      'Rnd 1 could mean 10 dc, 5 ch-1 sps if "5 times" means 5 times in all, or 12 dc, 6 ch-1 sps if "5 times" means 5 more times. Write "4 more times" or "5 more times" to settle it, or say once in the notes what is meant.',
    );
  });

  test("that stops early is settled by saying so", () => {
    const found = only(`${twenty}\nRow 2: Ch 1, turn, sc in next 15 sts. (15)`);
    expect(found.message).toBe(
      'Row 2 stops with 5 stitches of the row below not worked. If that is meant, write "leave remaining 5 sts unworked" before the count.',
    );
    expect(
      resultsOf(`${twenty}\nRow 2: Ch 1, turn, sc in next 15 sts, leave remaining 5 sts unworked. (15)`),
    ).toEqual(["ok", "ok", "ok"]);
  });
});

describe("a row that is not checked", () => {
  test.each([
    ["R2: sc in ch-2 sp at underarm (6)", 'where "underarm" is, is not known here. The rows after it'],
    ["R2: sc free, sc in next 5 sts (6)", '"free" is not understood here. The rows after it'],
  ])("%s does not advise to explain what is no stitch", (row, says) => {
    const { message } = only(`R1: 6 sc in mr (6)\n${row}`);
    expect(message).toContain(`R2 is not checked: ${says}`);
    expect(message).not.toContain("3 dc in same st");
  });

  test("names the words that nothing explains and how to explain them", () => {
    const { message, under } = only("R1: 6 sc in mr (6)\nR2: lotus x6 (6)");
    expect(message).toContain('R2 is not checked: "lotus" is not explained in this pattern.');
    expect(message).toContain('"lotus = 3 dc in same st"');
    expect(under).toBe("lotus");
    expect(resultsOf("Lotus = 3 dc in same st\n\nR1: 6 sc in mr (6)\nR2: lotus x6 (18)")).toEqual([
      "ok",
      "ok",
    ]);
  });

  test("with nothing below it says what to write above it", () => {
    expect(only("Row 1: Ch 1, turn, sc in each st across.").message).toContain(
      "Write above it what it is worked on: a starting chain, a ring or a row with its count.",
    );
  });
});
