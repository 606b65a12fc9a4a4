import { describe, expect, test } from "vitest";
import { isNotRenamed, namedAt, renamed } from "../../server/src/features/names/names";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import { Prover } from "../../server/src/workspace/prover";
import { marked, outdented } from "./marked-pattern";

/** Where what is named at the `$0` is named: the definitions in «», the uses in ‹›. */
function named(pattern: string): string {
  const { text, offset, worked } = marked(outdented(pattern));
  const thing = namedAt(worked, offset);
  const around = (open: string, close: string) => (span: { start: number; end: number }) => ({
    span,
    newText: `${open}${text.slice(span.start, span.end)}${close}`,
  });
  const marks = [
    ...(thing?.definitions ?? []).map(around("«", "»")),
    ...(thing?.uses ?? []).map(around("‹", "›")),
  ];
  return thing ? withEdits(text, marks) : "nothing";
}

/** The pattern with another name at the `$0`, or why not. */
function givenName(pattern: string, to: string): string {
  const { text, offset, worked } = marked(outdented(pattern));
  const thing = namedAt(worked, offset);
  if (!thing) return "nothing";
  const checker = new Checker();
  const prover = new Prover(text, checker.check(text).findings, (copy) => checker.check(copy));
  const edits = renamed(thing, to, prover);
  return isNotRenamed(edits) ? edits.why : withEdits(text, edits);
}

const shells = `
  Special stitches
  Wave: 5 dc in one st.
  Beg wave: ch 3, 4 dc in same st.

  Rnd 1: fsc 12, join (12)
  Rnd 2: *sk 2 sts, w$0ave in next st, sk 2 sts, sc in next st; rep from * around. (2 waves, 2 sc)
`;

describe("a special stitch", () => {
  test("is found where it is explained and where it is worked and counted", () => {
    expect(named(shells)).toBe(
      outdented(`
        Special stitches
        «Wave»: 5 dc in one st.
        Beg wave: ch 3, 4 dc in same st.

        Rnd 1: fsc 12, join (12)
        Rnd 2: *sk 2 sts, ‹wave› in next st, sk 2 sts, sc in next st; rep from * around. (2 ‹wave›s, 2 sc)
      `),
    );
  });

  test("gets another name everywhere, and the numbers stay", () => {
    const after = givenName(shells, "ripple");
    expect(after).toBe(
      outdented(`
        Special stitches
        Ripple: 5 dc in one st.
        Beg wave: ch 3, 4 dc in same st.

        Rnd 1: fsc 12, join (12)
        Rnd 2: *sk 2 sts, ripple in next st, sk 2 sts, sc in next st; rep from * around. (2 ripples, 2 sc)
      `),
    );
    expect(new Checker().check(after).findings).toEqual([]);
  });

  test("gets no name that the trade uses, that is taken, or that is none", () => {
    expect(givenName(shells, "popcorn")).toContain('The trade uses "popcorn" already');
    expect(givenName(shells, "around")).toContain('The trade uses "around" already');
    expect(givenName(shells, "Beg wave")).toContain('explains "Beg wave" already');
    expect(givenName(shells, "5+1")).toBe("A stitch is named by letters, and figures behind them.");
  });

  test("a word of the trade keeps its name", () => {
    const listed = "Abbreviations\nsc - single crochet\nst - stitch\n\nRnd 1: 6 s$0c in ring (6)";
    expect(named(listed)).toContain("«sc» - single crochet");
    expect(givenName(listed, "sg")).toContain('"sc" is a word of the trade');
  });
});

describe("a yarn letter", () => {
  const pattern = `
    Materials
    Cotton: 20 g sand (A), 10 g navy (B)

    With A:
    Rnd 1: 6 sc in ring (6)
    Change to $0B.
    Rnd 2: inc x6 (12)
    With B, sew on a button.
  `;

  test("is found in the list and where it is taken up", () => {
    const found = named(pattern);
    expect(found).toContain("10 g navy («B»)");
    expect(found).toContain("Change to ‹B›.");
    expect(found).toContain("With ‹B›, sew");
  });

  test("becomes another letter, if that is free and a letter of a yarn", () => {
    expect(givenName(pattern, "C")).toContain("10 g navy (C)");
    expect(givenName(pattern, "C")).toContain("Change to C.");
    expect(givenName(pattern, "A")).toBe("Another yarn has the letter A already.");
    expect(givenName(pattern, "navy")).toContain("one of the letters");
  });
});

describe("a piece", () => {
  const pattern = `
    MAST
    R1: 6 sc in MR [6]
    R2: 6 sc [6]
    Fasten off.

    FLOAT (make 2)
    R1: 5 sc in MR [5]
    Fasten off.

    ASSEMBLY
    Sew the m$0ast on, and both floats to the mast.
  `;

  test("is found by its heading and wherever it is spoken of", () => {
    expect(named(pattern)).toContain("«MAST»");
    expect(named(pattern)).toContain("Sew the ‹mast› on, and both floats to the ‹mast›.");
  });

  test("gets another name as each place is written", () => {
    const after = givenName(pattern, "Pole");
    expect(after).toContain("POLE\nR1");
    expect(after).toContain("Sew the pole on, and both floats to the pole.");
  });

  test("gets no name that is taken or a word of rows", () => {
    expect(givenName(pattern, "float")).toBe('There is a piece named "float" already.');
    expect(givenName(pattern, "skip")).toContain('The trade uses "skip" in rows');
  });
});

describe("a row", () => {
  const pattern = `
    BODY
    R1: 6 sc in MR [6]
    R2: inc x6 [12]
    R3: 12 sc [12]
    Rep R$03 once.
    Eyes go between R2 and R3.
  `;

  test("is found by its head and wherever its number is named", () => {
    expect(named(pattern)).toContain("R«3»: 12 sc");
    expect(named(pattern)).toContain("Rep R‹3› once.");
    expect(named(pattern)).toContain("between R2 and R‹3›.");
  });

  test("gets another number with all that name it", () => {
    const skipped = "R1: 6 sc in MR [6]\nR2: inc x6 [12]\nR$04: 12 sc [12]\nRep R4 once.\nEyes go on R4.";
    expect(givenName(skipped, "3")).toBe(
      "R1: 6 sc in MR [6]\nR2: inc x6 [12]\nR3: 12 sc [12]\nRep R3 once.\nEyes go on R3.",
    );
    expect(givenName(pattern, "2")).toBe("There is a row 2 in this piece already.");
    expect(givenName(pattern, "next")).toContain("write the number alone");
  });
});

test("a number of another piece is left alone", () => {
  const two = `
    BODY
    R1: 6 sc in MR [6]
    R$02: inc x6 [12]

    MAST
    R1: 6 sc in MR [6]
    R2: 6 sc [6]
    Sew on at R2.
  `;
  expect(named(two)).toContain("Sew on at R2.");
});

test.each(["", "\n", "Hat", "A", "Rnd 1:"])(
  "in half a text (%j) nothing is named and nothing fails",
  (text) => {
    const { worked } = new Checker().work(text);
    for (let at = 0; at <= text.length; at++) namedAt(worked, at);
    expect(namedAt(worked, 0)?.uses ?? []).toEqual([]);
  },
);
