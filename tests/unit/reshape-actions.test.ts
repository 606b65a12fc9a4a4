import { describe, expect, test } from "vitest";
import { type Action, actionsOnRequest } from "../../server/src/features/actions/all-actions";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import { sceneOf } from "../mutants/promises";
import { readCases } from "../spec/case-file";

/* Changes of rows that nothing is wrong with: offered where someone asks for them. */

function offered(marked: string): readonly Action[] {
  const start = marked.indexOf("|");
  return actionsOnRequest(sceneOf(marked.replace("|", "")), { start, end: start });
}

function titles(marked: string): string[] {
  return offered(marked).map(({ title }) => title);
}

function chosen(marked: string, title: string): string {
  const action = offered(marked).find((one) => one.title === title);
  if (!action) throw new Error(`"${title}" is not offered, but ${titles(marked).join(", ")}`);
  return withEdits(marked.replace("|", ""), action.edits());
}

const ball = `Ball
Rnd 1: |6 sc in magic ring (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc) x6 (18)
Rnd 4: 1 sc, inc, (2 sc, inc) x5, 1 sc (24)
Rnds 5-8: sc in each st around (24)
Rnd 9: (2 sc, dec) x6 (18)
Rnd 10: (sc, dec) x6 (12)
Rnd 11: dec x6 (6)`;

describe("a row for another count, with the rounds that follow", () => {
  test("keeps the style of each round", () => {
    expect(titles(ball)).toContain("Rewrite Rnd 1 for 7 sts and update the rounds that follow");
    expect(chosen(ball, "Rewrite Rnd 1 for 7 sts and update the rounds that follow")).toBe(`Ball
Rnd 1: 7 sc in magic ring (7)
Rnd 2: inc x7 (14)
Rnd 3: (sc, inc) x7 (21)
Rnd 4: 1 sc, inc, (2 sc, inc) x6, 1 sc (28)
Rnds 5-8: sc in each st around (28)
Rnd 9: (2 sc, dec) x7 (21)
Rnd 10: (sc, dec) x7 (14)
Rnd 11: dec x7 (7)`);
  });

  test("shows each round that follows by itself", () => {
    const [first] = offered(ball);
    expect([...new Set(first?.edits().map(({ note }) => note?.label))]).toEqual([
      undefined,
      "Rnd 2: spaced anew",
      "Rnd 3: spaced anew",
      "Rnd 4: spaced anew",
      "Rnds 5-8: another count",
      "Rnd 9: spaced anew",
      "Rnd 10: spaced anew",
      "Rnd 11: spaced anew",
    ]);
  });

  test("passes over counts that a later row cannot be worked on", () => {
    // An eyelet every 4 stitches: 36, 48 and 60 fit, 42 and 54 do not; arithmetic, no source.
    const pouch = (n: number) => `Pouch
Ch ${n + 1}.
Row 1: |Sc in 2nd ch from hook and in each ch across, turn. (${n} sc)
Row 2: Ch 1, *sc in next 3 sts, ch 1, sk next st; rep from * across, turn. (${(n / 4) * 3} sc, ${n / 4} ch-1 sps)`;
    expect(titles(pouch(48))).toEqual([
      "Rewrite Row 1 for 52 sts and update the rows that follow",
      "Rewrite Row 1 for 44 sts and update the rows that follow",
    ]);
    expect(chosen(pouch(48), "Rewrite Row 1 for 52 sts and update the rows that follow")).toBe(
      pouch(52).replace("|", ""),
    );
  });
});

describe("a row whose count is set further up", () => {
  test("is rewritten from there: rounds that stand for several, rows in a stitch repeat", () => {
    const even = `Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x6 (12)
|Rnds 3-8: sc in each st around (12)`;
    expect(titles(even)).toContain("Rewrite Rnds 3-8 for 13 sts, from Rnd 2 on");
    const ribs = `Ch 20.
Row 1: Sc in 2nd ch from hook and in each ch across. (19)
|Row 2: Ch 1, turn, sc in first st, *dc in next st, sc in next st; rep from * across. (19)`;
    expect(chosen(ribs, "Rewrite Row 2 for 21 sts, from Row 1 on")).toBe(
      ribs.replace("|", "").replace("Ch 20", "Ch 22").replaceAll("(19)", "(21)"),
    );
  });

  test("keeps the names of what it counts", () => {
    const flower = `Rnd 1: Ch 1, (sc in ring, ch 3) 5 times, join. (5 ch-3 loops)
|Rnd 2: (Sc, hdc, 3 dc, hdc, sc) in each loop around, join. (5 petals)`;
    expect(chosen(flower, "Rewrite Rnd 2 for 6 sts, from Rnd 1 on")).toBe(
      `Rnd 1: Ch 1, (sc in ring, ch 3) 6 times, join. (6 ch-3 loops)
Rnd 2: (Sc, hdc, 3 dc, hdc, sc) in each loop around, join. (6 petals)`,
    );
  });

  test("changes numbers at both ends alike, and the one in the middle", () => {
    const heights = (n: number, all: number) => `Ch ${all + 1}.
|Row 1: Sc in 2nd ch from hook and in each ch across. (${all})
Row 2: Ch 1, turn, sc in next 7, hdc in next ${n}, sc in next 7. (14 sc, ${n} hdc)`;
    expect(chosen(heights(10, 24), "Rewrite Row 1 for 25 sts and update the rows that follow")).toBe(
      heights(11, 25).replace("|", ""),
    );
  });
});

test("a row that was not checked before stays as it is, and is named", () => {
  const lotus = `Ch 17.
|Row 1: Sc in 2nd ch from hook and in each ch across. (16)
Row 2: Ch 1, turn, lotus in each st across. (16)`;
  expect(titles(lotus)).toContain("Rewrite Row 1 for 17 sts (look at Row 2 yourself)");
});

test("after a round changed, those that follow are updated", () => {
  const changed = ball.replace("|", "").replace("6 sc in magic ring (6)", "|8 sc in magic ring (8)");
  expect(chosen(changed, "Update Rnd 2 and the rounds that follow")).toContain(
    "Rnds 5-8: sc in each st around (32)\nRnd 9: (2 sc, dec) x8 (24)",
  );
});

describe("increases", () => {
  const round = (row: string) => `Rnd 1: 42 sc in magic ring (42)\nRnd 2: |${row} (48)`;

  test("are staggered by half a group, and lined up again", () => {
    const stacked = round("(6 sc, inc) x6");
    const moved = round("3 sc, inc, (6 sc, inc) x5, 3 sc");
    expect(chosen(stacked, "Stagger the increases by half a group")).toBe(moved.replace("|", ""));
    expect(chosen(moved, "Line the increases up")).toBe(stacked.replace("|", ""));
  });

  test("are spaced evenly where they are bunched", () => {
    const bunched = round("(3 sc, inc) x5, 21 sc, inc");
    expect(chosen(bunched, "Space the increases evenly")).toBe(round("(6 sc, inc) x6").replace("|", ""));
  });
});

describe("a repeat", () => {
  const round = (row: string) => `Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x6 (12)\nRnd 3: |${row} (18)`;
  const bare = (row: string) => round(row).replace("|", "");

  test("is spelled out, and folded again", () => {
    const long = "sc, inc, sc, inc, sc, inc, sc, inc, sc, inc, sc, inc";
    expect(chosen(round("(sc, inc) x6"), "Spell the repeat out")).toBe(bare(long));
    expect(chosen(round(long), "Fold what comes again into a repeat")).toBe(bare("(sc, inc) 6 times"));
  });

  test("is written in brackets, and from an asterisk again", () => {
    const [star, bracket] = ["*sc, inc; rep from * around", "(sc, inc) around"];
    expect(chosen(round(star), "Write the repeat in brackets")).toBe(bare(bracket));
    expect(chosen(round(bracket), "Write the repeat from an asterisk")).toBe(bare(star));
    expect(chosen(round("(sc, inc) 6 times"), "Write the repeat from an asterisk")).toBe(
      bare("*sc, inc; rep from * 5 more times"),
    );
    expect(chosen(round("*sc, inc; rep from * 5 more times"), "Write the repeat in brackets")).toBe(
      bare("(sc, inc) 6 times"),
    );
  });

  test("in which the last pass is another is left alone", () => {
    expect(titles(round("*sc, inc; rep from * to last 2 sts, sc, inc"))).not.toContain(
      "Spell the repeat out",
    );
  });
});

describe("what follows beside the rows below", () => {
  test("a round that joins two legs, and rounds worked as those of another piece", () => {
    const doll = (n: number) => `Legs (make 2)
Rnd 1: |${n} sc in mr (${n})
Rnd 2: inc x${n} (${2 * n})

Arm
Rnds 1-2: As Rnds 1-2 of Legs. (${2 * n})

Body
Rnd 3: ${2 * n} sc on the first leg, ${2 * n} sc on the second leg (${4 * n})
Rnd 4: sc in each st around (${4 * n})`;
    const done = chosen(doll(6), "Rewrite Rnd 1 for 7 sts and update the rounds that follow");
    expect(done).toBe(doll(7).replace("|", ""));
  });

  test("a line that only tells what it comes to", () => {
    const rib = (n: number, even: number) => `Ch ${n + 1}.
Row 1: |Sc in 2nd ch from hook and in each ch across. (${n})
Row 2: Ch 1, turn, sc in first st, *dc in next st, sc in next st; rep from * across. (${n})
Work even in patt for 6 rows. (${even})`;
    expect(chosen(rib(21, 21), "Rewrite Row 1 for 23 sts and update the rows that follow")).toBe(
      rib(23, 23).replace("|", ""),
    );
  });

  test("openings, which go by so many times as wide, with what is worked into them", () => {
    const basket = (n: number, into: number) => `Rnd 1: |${6 * n} sc in mr (${6 * n})
Rnd 2: Sc in next ${n} sts, ch ${n}, sk next ${n} sts, sc in next ${2 * n} sts, ch ${n}, sk next ${n} sts, sc in next ${n} sts. (${4 * n} sc, 2 ch-${n} sps)
Rnd 3: Sc in next ${n} sts, ${into} sc in next ch-${n} sp, sc in next ${2 * n} sts, ${into} sc in next ch-${n} sp, sc in next ${n} sts. (${4 * n + 2 * into})`;
    expect(chosen(basket(8, 10), "Rewrite Rnd 1 for 54 sts and update the rounds that follow")).toBe(
      basket(9, 11).replace("|", ""),
    );
  });
});

describe("a range of rows", () => {
  const band = (rows: string) => `Band
Ch 9.
Row 1: Sc in 2nd ch from hook and in each ch across. (8)
${rows}
Row 6: Ch 1, turn, hdc in each st. (8)`;
  const range = band("Rows 2-5: Ch 1, turn, sc in each st. (8)");
  const single = band([2, 3, 4, 5].map((n) => `Row ${n}: Ch 1, turn, sc in each st. (8)`).join("\n"));

  test("is written row by row, and as a range again", () => {
    expect(chosen(range.replace("Rows 2-5", "|Rows 2-5"), "Write Rows 2-5 one by one")).toBe(single);
    for (const row of ["Row 2", "Row 4", "Row 5"])
      expect(chosen(single.replace(row, `|${row}`), "Write Row 2 to Row 5 as one line")).toBe(range);
  });

  test("that gets wider or narrower has the count of each row", () => {
    const lines = (rows: string) =>
      `Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n${rows}`;
    expect(
      chosen(lines("|Rows 2-4: Ch 1, turn, sc2tog, sc in each st to end. (7)"), "Write Rows 2-4 one by one"),
    ).toBe(
      lines(
        [9, 8, 7].map((n, i) => `Row ${i + 2}: Ch 1, turn, sc2tog, sc in each st to end. (${n})`).join("\n"),
      ),
    );
  });

  test("is left alone where it tells how many it is, repeats others, or stands among other lines", () => {
    const told = (text: string) => titles(text).filter((title) => /one by one|as one line/.test(title));
    expect(told(range.replace("Rows 2-5:", "|Rows 2-5 (4 rows):"))).toEqual([]);
    expect(told(band("Row 2: Ch 1, turn, sc in each st. (8)\n|Rows 3-5: Rep Row 2. (8)"))).toEqual([]);
    expect(
      told(single.replace("Row 3", "Stuff lightly.\n|Row 3").replace("Row 4", "Change to red.\nRow 4")),
    ).toEqual([]);
  });
});

test("what is offered on request brings nothing new, in all cases of the specification", {
  timeout: 300_000,
}, () => {
  const stride = 5;
  const all = readCases()
    .filter((_, i) => i % stride === 0)
    .flatMap(({ name, text }) => {
      const scene = sceneOf(text);
      const rows = scene.report.pieces.flatMap(({ rows }) => rows);
      return rows.flatMap(({ span }) =>
        actionsOnRequest(scene, span).map((action) => ({ name, scene, action })),
      );
    });
  expect(all.length).toBeGreaterThan(50);
  for (const { name, scene, action } of all) {
    const after = new Checker().check(withEdits(scene.text, action.edits()));
    const before = scene.report.findings.length;
    expect(after.findings.length, `${name}: ${action.title}`).toBeLessThanOrEqual(before);
  }
});
