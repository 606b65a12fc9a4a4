import { describe, expect, test } from "vitest";
import { type ProofText, proofTextAt } from "../../server/src/features/proof/proof-text";
import { marked, outdented } from "./marked-pattern";

function proofAt(pattern: string): ProofText | null {
  const { worked, offset } = marked(outdented(pattern));
  return proofTextAt(worked, offset);
}

function checkProof(pattern: string, expected: string): void {
  expect(proofAt(pattern)?.text).toBe(outdented(expected));
}

describe("the proof of a row, as it is copied into a reply", () => {
  // The doubled sphere increases are common practice, no source; the sums can be followed by hand.
  test("quotes the row, works it step by step and adds up", () => {
    checkProof(
      `
      Rnd 1: 6 sc in magic ring (6)
      Rnd 2: inc x6 (12)
      Rnd 3: (sc, $0inc) x6 (18)
      `,
      `
      Rnd 3: (sc, inc) x6 (18)

      Worked over the sts of Rnd 2:
      1. st 1: sc (1 made so far)
      2. st 2: 2 sc in one st (3 made so far)
      3. sts 3-12: steps 1-2 again, 5 more times (18 made so far)

      In all: worked over 12 of the 12 sts of Rnd 2; makes 18 sc.
      `,
    );
  });

  test("of a row in a ring has no places to number", () => {
    checkProof(
      "Rnd 1: Ch 3 (counts as dc), 11 dc in $0ring, join. (12 dc)",
      `
      Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)

      Worked step by step:
      1. the opening chain counts as 1 dc (1 made so far)
      2. 11 dc in the ring (12 made so far)

      In all: makes 12 dc.
      `,
    );
  });

  test("numbers spaces, and stitches and spaces together", () => {
    checkProof(
      `
      Rnd 1: fsc 12, join (12)
      Rnd 2: Ch 1, *hdc in next 2 sts, ch 1, sk next st; rep from * around, join. (8 hdc, 4 ch-1 sps)
      $0Rnd 3: Ch 1, *hdc in next 2 sts, 2 hdc in next ch-1 sp; rep from * around, join. (16 hdc)
      `,
      `
      Rnd 3: Ch 1, *hdc in next 2 sts, 2 hdc in next ch-1 sp; rep from * around, join. (16 hdc)

      Worked over the sts and sps of Rnd 2:
      1. places 1-2: hdc in each (2 made so far)
      2. place 3: 2 hdc in one sp (4 made so far)
      3. places 4-12: steps 1-2 again, 3 more times (16 made so far)

      In all: worked over 12 of the 12 sts and sps of Rnd 2; makes 16 hdc.
      `,
    );
  });

  test("of a row that stands for another quotes both", () => {
    checkProof(
      `
      Rnd 1: 6 sc in mr (6)
      Rnd 2: sc in each st around (6)
      $0Rnds 3-5: Rep Rnd 2. (6)
      `,
      `
      Rnds 3-5: Rep Rnd 2. (6)
      Rnd 2: sc in each st around (6)

      The last of them is worked over the sts of the row before it:
      1. sts 1-6: sc in each (6 made so far)

      The first of them: worked over 6 of the 6 sts of Rnd 2; the last of them makes 6 sc.
      `,
    );
  });

  test("of a row that is wrong says so", () => {
    checkProof(
      `
      Rnd 1: fsc 18, join (18)
      $0Rnd 2: (4 sc, dec) x6 (15)
      `,
      `
      Rnd 2: (4 sc, dec) x6 (15)

      Worked over the sts of Rnd 1:
      1. sts 1-4: sc in each (4 made so far)
      2. sts 5-6: sc over 2 sts together (5 made so far)
      3. sts 7-36: steps 1-2 again, 5 more times (30 made so far)

      In all: worked over 36 of the 18 sts of Rnd 1; makes 30 sc. It does not fit: 18 short.
      `,
    );
  });

  test("of several sizes has a number for each, and a part of its own for a size that goes another way", () => {
    checkProof(
      `
      Sizes: S (M, L)
      Rnd 1: fsc 6 (12, 18), join. 6 (12, 18) sts.
      $0Rnd 2: *2 sc, inc; rep from * around. 8 (16, 24) sts.
      `,
      `
      Rnd 2: *2 sc, inc; rep from * around. 8 (16, 24) sts.

      In size S, worked over the sts of Rnd 1:
      1. sts 1-2: sc in each (2 made so far)
      2. st 3: 2 sc in one st (4 made so far)
      3. sts 4-6: steps 1-2 again, 1 more time (8 made so far)

      In size M and size L, worked over the sts of Rnd 1:
      1. sts 1-2: sc in each (2 made so far)
      2. st 3: 2 sc in one st (4 made so far)
      3. sts 4-12 (18): steps 1-2 again, 3 (5) more times (16 (24) made so far)

      In all: worked over 6 (12, 18) of the 6 (12, 18) sts of Rnd 1; makes 8 (16, 24) sc.
      `,
    );
  });

  test("states its assumption", () => {
    const proof = proofAt(
      "Ch 4, join to form ring.\n$0Rnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 times, join.",
    );
    expect(proof?.text).toContain('This is so if "5 times" means 5 times in all.');
  });

  test("of a chain that reads in two ways keeps parts of a group together", () => {
    checkProof(
      `
      With A, ch 4, join with sl st in first ch to form ring.
      Rnd 1: Ch 3 (counts as dc throughout), 2 dc in ring, ch 2, [3 dc in ring, ch 2] 3 times, join. (12 dc, 4 ch-2 sps)
      $0Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, [(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1] 3 times, join. (24 dc, 4 ch-2 sps, 4 ch-1 sps)
      `,
      `
      Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, [(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1] 3 times, join. (24 dc, 4 ch-2 sps, 4 ch-1 sps)

      Worked over the sps of Rnd 1:
      1. sp 1: (the opening chain as 1 dc, 2 dc, ch 2, 3 dc) in one sp (6 made so far)
      2. ch 1
      3. sp 2: (3 dc, ch 2, 3 dc) in one sp (12 made so far)
      4. sps 3-4: steps 2-3 again, 2 more times (24 made so far)
      5. ch 1

      In all: worked over 4 of the 4 sps of Rnd 1; makes 24 dc, 4 ch-2 sps, 4 ch-1 sps.
      `,
    );
  });
});

describe("where there is no proof", () => {
  test("the reason is told", () => {
    expect(proofAt("R1: 6 sc in mr (6)\n$0R2: lotus x6 (6)")).toEqual({
      row: "R2",
      text: null,
      reason: 'R2 is not checked: "lotus" is not explained in this pattern.',
    });
    expect(proofAt("$0Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)")).toEqual({
      row: "Starting chain",
      text: null,
      reason: "A starting chain or ring has no row below it to be worked over.",
    });
    const told = "Row 1: fsc 20 (20)\nDec 1 st $0each end of next 4 rows.";
    expect(proofAt(told)?.reason).toBe(
      "Dec 1 st each end of next 4 rows says how the count changes, not which stitches are worked.",
    );
  });

  test("outside the pieces there is no row", () => {
    expect(proofAt("Hat$0\n\nRnd 1: 6 sc in mr (6)")).toBeNull();
    expect(proofAt("Rnd 1: 6 sc in mr (6)\n\nAssembly\nSew it $0up.")).toBeNull();
  });

  test("between rows the row before is meant", () => {
    expect(proofAt("Rnd 1: 6 sc in mr (6)\nStuff $0firmly.\nRnd 2: 6 sc (6)")?.row).toBe("Rnd 1");
  });
});
