import { describe, expect, test } from "vitest";
import { type Action, actionsOnRequest } from "../../server/src/features/actions/all-actions";
import { resizeAnswerInSizes } from "../../server/src/features/sizes/resize-question-in-sizes";
import { rewriteAnswerInSizes } from "../../server/src/features/sizes/rewrite-question-in-sizes";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import { sceneOf } from "../mutants/promises";

/* Rows and pieces that are written for several sizes, rewritten in all of them or in one. Common practice, no source. */

const band = (numbers: string) => {
  const [chain, row, times, wide] = numbers.split("; ");
  return `Sizes: S (M, L)
Gauge: 16 sc and 18 rows = 10 cm

Band
Ch ${chain}.
Row 1: Sc in 2nd ch from hook and in each ch across. ${row} sc.
Row 2: Ch 1, turn, [sc in next 3 sts, 2 sc in next st] ${times} times. ${wide} sc.
Rows 3-8 (10, 12): Ch 1, turn, sc in each st. ${wide} sc.`;
};
const text = band("61 (65, 69); 60 (64, 68); 15 (16, 17); 75 (80, 85)");

function offered(from: string, row: string): readonly Action[] {
  const start = from.indexOf(row);
  return actionsOnRequest(sceneOf(from), { start, end: start });
}

function chosen(from: string, row: string, title: string): string {
  const all = offered(from, row);
  const action = all.find((one) => one.title === title);
  if (!action) throw new Error(`"${title}" is not offered, but ${all.map((one) => one.title).join(", ")}`);
  return checked(withEdits(from, action.edits()));
}

function checked(done: string): string {
  expect(new Checker().check(done).findings.filter(({ severity }) => severity !== "hint")).toEqual([]);
  return done;
}

describe("a row of several sizes", () => {
  test("is offered for as many stitches more or fewer in each, that suit the rows below in all", () => {
    const mesh = (chain: string, row: string, plain: string, spaces: string) => `Sizes: S (M, L)
Ch ${chain}.
Row 1: Sc in 2nd ch from hook and in each ch across. ${row} sc.
Row 2: Ch 1, turn, *sc in next 3 sts, ch 1, sk next st; rep from * across. ${plain} sc, ${spaces} ch-1 sps.`;
    const now = mesh("61 (65, 69)", "60 (64, 68)", "45 (48, 51)", "15 (16, 17)");
    const [more, fewer] = ["64 (68, 72)", "56 (60, 64)"].map(
      (count) => `Rewrite Row 1 for ${count} sts and update the rows that follow`,
    );
    expect(offered(now, "Row 1").map(({ title }) => title)).toEqual([more, fewer]);
    expect(chosen(now, "Row 1", `${more}`)).toBe(
      mesh("65 (69, 73)", "64 (68, 72)", "48 (51, 54)", "16 (17, 18)"),
    );
  });

  const asked = (typed: string | null, row = "Row 1") =>
    rewriteAnswerInSizes(sceneOf(text), text.indexOf(row), typed);
  const rewritten = (typed: string, row?: string) => {
    const answer = asked(typed, row);
    expect(answer.fits, answer.says).toBe(true);
    return checked(withEdits(text, answer.edits));
  };

  test("is asked for with the counts that it has, and told what may be typed", () => {
    expect(asked(null)).toMatchObject({
      row: "Row 1",
      now: "60 (64, 68)",
      ways: "a number for each, as in 60 (64, 68), or for one, as in M 64, or x1.1 for all",
      fits: true,
    });
  });

  test("may be told a count for each, a share for all, or one size by its name", () => {
    for (const typed of ["64 (68, 76)", "64, 68, 76", "64/68/76", "64[68:76]"])
      expect(rewritten(typed)).toBe(band("65 (69, 77); 64 (68, 76); 16 (17, 19); 80 (85, 95)"));
    expect(rewritten("L 76")).toBe(band("61 (65, 77); 60 (64, 76); 15 (16, 19); 75 (80, 95)"));
    expect(rewritten("x2")).toBe(band("121 (129, 137); 120 (128, 136); 30 (32, 34); 150 (160, 170)"));
    // 16 stitches to 10 cm: 45 cm are 72.
    expect(rewritten("L: 45 cm")).toBe(band("61 (65, 73); 60 (64, 72); 15 (16, 18); 75 (80, 90)"));
    expect(asked("L 76").says).toBe(
      "60 (64, 76) sts fit: Sc in 2nd ch from hook and in each ch across. 60 (64, 76) sc. (2 lines below change too)",
    );
  });

  test("that cannot have a count tells the size, the row and the nearest that fit", () => {
    const mesh =
      "Sizes: S (M)\nCh 13 (17).\nRow 1: Sc in 2nd ch from hook and in each ch across. 12 (16) sc.\nRow 2: Ch 1, turn, *sc in next 3 sts, ch 1, sk next st; rep from * across.";
    expect(rewriteAnswerInSizes(sceneOf(mesh), mesh.indexOf("Row 1"), "M 18")).toMatchObject({
      fits: false,
      edits: [],
      says: "Size M: Row 2 cannot follow: it is worked over a multiple of 4: 16 or 20, and there are 18. The nearest that fit: 16 (as it is now) and 20.",
    });
  });

  test("says what is wrong with what is typed, and changes nothing", () => {
    const three =
      "There are 3 sizes, S, M, L: type a number for each, as in 60 (64, 68), or for one, as in M 64, or x1.1 for all.";
    for (const [typed, says] of [
      ["60", three],
      ["60 (64)", three],
      ["60 (64, 68, 72)", three],
      ["XL 60", three],
      ["M 0", "Size M: A row has one stitch or more."],
      ["M 4.5", "Size M: A number of stitches is whole."],
      ["M", three],
      ["M -4", "Size M: A row has one stitch or more."],
      ["0 (64, 68)", "Size S: A row has one stitch or more."],
      ["", "Type a number of stitches."],
    ] as const)
      expect(asked(typed)).toMatchObject({ fits: false, says, edits: [] });
  });

  test("gets a list where one number was for all sizes", () => {
    const round = "Sizes: S (M)\nRnd 1: 6 sc in magic ring. 6 (6) sc.\nRnd 2: 2 sc in each st. 12 (12) sc.";
    const answer = rewriteAnswerInSizes(sceneOf(round), round.indexOf("Rnd 1"), "M 8");
    expect(withEdits(round, answer.edits)).toBe(
      "Sizes: S (M)\nRnd 1: 6 (8) sc in magic ring. 6 (8) sc.\nRnd 2: 2 sc in each st. 12 (16) sc.",
    );
  });

  test("is not changed where the sizes would need different words", () => {
    const round =
      "Sizes: S (M)\nRnd 1: 24 (24) sc in magic ring. 24 (24) sc.\nRnd 2: [sc in next 3 sts, 2 sc in next st] 6 times. 30 (30) sc.";
    const answer = rewriteAnswerInSizes(sceneOf(round), round.indexOf("Rnd 2"), "M 29");
    expect(answer).toMatchObject({
      fits: false,
      says: "The sizes would need different words in Rnd 2. Type counts that differ from the present ones by as much, or change the numbers in the grading sheet.",
      edits: [],
    });
  });
});

describe("sizes that work different rounds", () => {
  test("keep their dashes and their lines for one size", () => {
    const hat = `Sizes: S (M, L)
Rnd 1: 8 hdc in magic ring. 8 (8, 8) hdc.
Rnd 2: 2 hdc in each st around. 16 (16, 16) hdc.
Rnd 3: [hdc in next st, 2 hdc in next st] - (8, 8) times. - (24, 24) hdc.
Size L only:
Rnd 4: [hdc in next 2 sts, 2 hdc in next st] 8 times. 32 hdc.
All sizes:
Rnd 5: Hdc in each st around. 16 (24, 32) hdc.`;
    expect(chosen(hat, "Rnd 1", "Rewrite Rnd 1 for 9 sts and update the rounds that follow")).toBe(
      `Sizes: S (M, L)
Rnd 1: 9 hdc in magic ring. 9 (9, 9) hdc.
Rnd 2: 2 hdc in each st around. 18 (18, 18) hdc.
Rnd 3: [hdc in next st, 2 hdc in next st] - (9, 9) times. - (27, 27) hdc.
Size L only:
Rnd 4: [hdc in next 2 sts, 2 hdc in next st] 9 times. 36 hdc.
All sizes:
Rnd 5: Hdc in each st around. 18 (27, 36) hdc.`,
    );
  });
});

describe("a piece of several sizes", () => {
  const asked = (typed: string | null, from = text) =>
    resizeAnswerInSizes(sceneOf(from), from.lastIndexOf("1:"), typed);

  test("is resized in all of them by a share, in one by its name, or to a width for each", () => {
    expect(asked(null)).toMatchObject({ piece: "Band", now: "75 (80, 85)", fits: true });
    const wider = asked("x1.2");
    expect(wider.fits, wider.says).toBe(true);
    const done = band("76 (81, 86); 75 (80, 85); 15 (16, 17); 90 (96, 102)").replace(
      "next 3 sts",
      "next 4 sts",
    );
    expect(checked(withEdits(text, wider.edits))).toBe(done.replace("3-8 (10, 12)", "3-9 (12, 14)"));
    // A width alone leaves the rows as many as they are.
    expect(withEdits(text, asked("90 (96, 102)").edits)).toBe(done);
    const one = asked("L 102");
    expect(one.fits, one.says).toBe(true);
    expect(checked(withEdits(text, one.edits))).toBe(
      band("61 (65, 86); 60 (64, 85); 15 (16, 17); 75 (80, 102)").replace("next 3 sts", "next 3 (3, 4) sts"),
    );
  });

  test("gets higher in one size by its rows alone", () => {
    const higher = asked("L 10 cm high");
    expect(higher.fits, higher.says).toBe(true);
    expect(checked(withEdits(text, higher.edits))).toBe(text.replace("3-8 (10, 12)", "3-8 (10, 18)"));
  });

  test("that would get other rounds in each size is told so, and what to do", () => {
    const hat = `Sizes: S (M)
Hat
Rnd 1: 6 (8) sc in magic ring. 6 (8) sc.
Rnd 2: 2 sc in each st. 12 (16) sc.
Rnd 3: [sc in next st, 2 sc in next st] 6 (8) times. 18 (24) sc.
Rnds 4-9: Sc in each st. 18 (24) sc.`;
    const answer = asked("M 32", hat);
    expect(answer).toMatchObject({ fits: false, edits: [] });
    expect(answer.says).toMatch(
      /^One text does not do for all sizes then: the sizes would need different words in Rnd/,
    );
  });

  test("whose sizes cannot be told apart is told so", () => {
    const short =
      "Sizes: S (M, L)\nBand\nRow 1: Fsc 40 (44). 40 (44, 48) sc.\nRow 2: Sc in each st. 40 (44, 48) sc.";
    expect(asked(null, short).says).not.toBe("");
    expect(asked(null, short).fits).toBe(false);
  });
});
