import { describe, test } from "vitest";
import { checkHover } from "./check-hover";

/* The numbers of the rows are sums that anybody can follow; those of a flat circle, six more each round, are common practice, no source. */

describe("the head of a row", () => {
  test("tells what it is worked over, what it makes, how it changes, the totals and the proof", () => {
    checkHover(
      `
      Rnd 1: 6 sc in magic ring (6)
      Rnd 2: inc x6 (12)
      R$0nd 3: (sc, inc) x6 (18)
      Rnd 4: (2 sc, inc) x6 (24)
      `,
      `
      Rnd 3:
      Rnd 3
      worked over sts of Rnd 2: 12 of 12
      makes: 18 sc
      change from Rnd 2: +6
      so far in this piece: 36 of 60 sts
      Step | Sts of Rnd 2 | Sts made | Worked
      1 | 1 | 1 | sc
      2 | 2 | 2–3 | 2 sc in one st
      3 | 3–12 | 4–18 | steps 1–2 again, 5 more times
      In words: Round 3 is worked over the 12 stitches of round 2. Step 1, on stitch 1: work single crochet. Step 2, on stitch 2: work 2 single crochet in one stitch. Step 3, on stitches 3 to 12: do steps 1 to 2 again, 5 more times. Round 3 has 18 stitches.
      `,
    );
  });

  test("counts each piece as often as it is made", () => {
    checkHover(
      `
      Float (make 4)
      R1: 5 sc in MR [5]
      R2: inc x5 [10]

      Body (make 2)
      R1: 6 sc in MR [6]
      $0R2: inc x6 [12]
      `,
      `
      R2:
      R2
      worked over sts of R1: 6 of 6
      makes: 12 sc
      change from R1: +6
      so far in Body: 18 of 18 sts
      so far in the whole pattern: 78 of 96 sts
      - It is made 2 times: the total of the whole pattern counts it 2 times.
      Step | Sts of R1 | Sts made | Worked
      1 | 1–6 | 1–12 | 2 sc in each
      In words: Round 2 is worked over the 6 stitches of round 1. Step 1, on stitches 1 to 6: work 2 single crochet in each. Round 2 has 12 stitches.
      `,
    );
  });

  test("has one column a size, and a dash where a size does not work the row", () => {
    checkHover(
      `
      Sizes: S (M, L)
      Rnd 1: fsc 36 (42, 48), join. 36 (42, 48) sts.
      $0Rnd 2: [5 sc, inc] - (7, 8) times. - (49, 56) sts.
      `,
      `
      Rnd 2:
      Rnd 2 | S | M | L
      worked over sts of Rnd 1: – | 42 of 42 | 48 of 48
      makes: – | 49 sc | 56 sc
      change from Rnd 1: – | +7 | +8
      so far in this piece: 36 of 36 sts | 91 of 91 sts | 104 of 104 sts
      In size M and size L:
      Step | Sts of Rnd 1 | Sts made | Worked
      1 | 1–5 | 1–5 | sc in each
      2 | 6 | 6–7 | 2 sc in one st
      3 | 7–42 (48) | 8–49 (56) | steps 1–2 again, 6 (7) more times
      In words: Round 2 is worked over the 42 (48) stitches of round 1. In size M and size L: Step 1, on stitches 1 to 5: work single crochet in each. Step 2, on stitch 6: work 2 single crochet in one stitch. Step 3, on stitches 7 to 42 (48): do steps 1 to 2 again, 6 (7) more times. Round 2 has 49 (56) stitches.
      `,
    );
  });

  test("says of a range what the first row finds and the last one makes, and adds up all of them", () => {
    checkHover(
      `
      Ch 11.
      Row 1: Sc in 2nd ch from hook and in each ch across. (10)
      $0Rows 2-5: Ch 1, turn, 2 sc in first st, sc in each st across. (14)
      `,
      `
      Rows 2-5:
      Rows 2-5
      rows: 4
      the first is worked over sts of Row 1: 10 of 10
      the last makes: 14 sc
      change from Row 1: +4
      so far in this piece: 60 of 60 sts
      Step | Sts of the row before it | Sts made | Worked
      1 | 1 | 1–2 | 2 sc in one st
      2 | 2–13 | 3–14 | sc in each
      In words: Rows 2 to 5 are worked one like the other. Step 1, on stitch 1: work 2 single crochet in one stitch. Step 2, on stitches 2 to 13: work single crochet in each. The last of them has 14 stitches.
      `,
    );
  });

  test("tells the multiple that a pattern would print", () => {
    // The arithmetic of a ripple: each wave takes 12 stitches (3 together, 4, 3 into one, 4), the edges are 1 more.
    checkHover(
      `
      Row 1: fsc 25 (25)
      $0Row 2: Ch 1, turn, 2 sc in first st, sc in next 4 sts, *sc3tog, sc in next 4 sts, 3 sc in next st, sc in next 4 sts; rep from * to last 8 sts, sc3tog, sc in next 4 sts, 2 sc in last st. (25)
      `,
      `
      Row 2:
      Row 2
      worked over sts of Row 1: 25 of 25
      makes: 25 sc
      change from Row 1: none
      so far in this piece: 50 of 50 sts
      can be worked on: multiple of 12 + 1
      Step | Sts of Row 1 | Sts made | Worked
      1 | 1 | 1–2 | 2 sc in one st
      2 | 2–5 | 3–6 | sc in each
      3 | 6–8 | 7 | sc over 3 sts together
      4 | 9–12 | 8–11 | sc in each
      5 | 13 | 12–14 | 3 sc in one st
      6 | 14–17 | 15–18 | sc in each
      7 | 18–20 | 19 | sc over 3 sts together
      8 | 21–24 | 20–23 | sc in each
      9 | 25 | 24–25 | 2 sc in one st
      In words: Row 2 is worked over the 25 stitches of row 1. Step 1, on stitch 1: work 2 single crochet in one stitch. Step 2, on stitches 2 to 5: work single crochet in each. Step 3, on stitches 6 to 8: work single crochet over 3 stitches together. Step 4, on stitches 9 to 12: work single crochet in each. Step 5, on stitch 13: work 3 single crochet in one stitch. Step 6, on stitches 14 to 17: work single crochet in each. Step 7, on stitches 18 to 20: work single crochet over 3 stitches together. Step 8, on stitches 21 to 24: work single crochet in each. Step 9, on stitch 25: work 2 single crochet in one stitch. Row 2 has 25 stitches.
      `,
    );
  });

  test("shows what a row leaves where that is more than stitches", () => {
    checkHover(
      `
      Rnd 1: fsc 12, join (12)
      $0Rnd 2: *hdc in next 2 sts, ch 1, sk next st; rep from * around. (8 hdc, 4 ch-1 sps)
      `,
      `
      Rnd 2:
      Rnd 2
      worked over sts of Rnd 1: 12 of 12
      makes: 8 hdc, 4 ch-1 sps
      leaves: 8 sts, 4 sps
      change from Rnd 1: −4
      so far in this piece: 20 of 20 sts
      can be worked on: multiple of 3
      Step | Sts of Rnd 1 | Sts made | Worked
      1 | 1–2 | 1–2 | hdc in each
      2 | – | – | ch 1
      3 | 3 | – | skip
      4 | 4–12 | 3–8 | steps 1–3 again, 3 more times
      In words: Round 2 is worked over the 12 stitches of round 1. Step 1, on stitches 1 to 2: work half double crochet in each. Step 2: make 1 chain. Step 3, on stitch 3: skip. Step 4, on stitches 4 to 12: do steps 1 to 3 again, 3 more times. Round 2 has 8 half double crochet, 4 spaces of 1 chain.
      `,
    );
  });

  test("of groups that are counted as one tells their stitches too, and no change of unlike numbers", () => {
    checkHover(
      `
      Shell: 5 dc in one st.

      Rnd 1: fsc 12, join (12)
      $0Rnd 2: *sk 2 sts, shell in next st, sk 2 sts, sc in next st; rep from * around. (2 shells, 2 sc)
      `,
      `
      Rnd 2:
      Rnd 2
      worked over sts of Rnd 1: 12 of 12
      makes: 2 shells, 2 sc (12 stitches)
      so far in this piece: 24 of 24 sts
      can be worked on: multiple of 6
      Step | Sts of Rnd 1 | Sts made | Worked
      1 | 1–2 | – | skip
      2 | 3 | 1–5 | shell: 5 dc in one st
      3 | 4–5 | – | skip
      4 | 6 | 6 | sc
      5 | 7–12 | 7–12 | steps 1–4 again, 1 more time
      In words: Round 2 is worked over the 12 stitches of round 1. Step 1, on stitches 1 to 2: skip. Step 2, on stitch 3: work shell: 5 double crochet in one stitch. Step 3, on stitches 4 to 5: skip. Step 4, on stitch 6: work single crochet. Step 5, on stitches 7 to 12: do steps 1 to 4 again, 1 more time. Round 2 has 2 shells, 2 single crochet.
      `,
    );
  });

  test("says what does not fit, what the line says, and by which count a later row is judged", () => {
    checkHover(
      `
      Rnd 1: 6 sc in mr (6)
      $0Rnd 2: (sc, inc) x2 (6)
      `,
      `
      Rnd 2:
      Rnd 2
      worked over sts of Rnd 1: 4 of 6
      makes: 6 sc
      change from Rnd 1: none
      so far in this piece: 12 of 12 sts
      - Rnd 2 does not fit.
      Step | Sts of Rnd 1 | Sts made | Worked
      1 | 1 | 1 | sc
      2 | 2 | 2–3 | 2 sc in one st
      3 | 3–4 | 4–6 | steps 1–2 again, 1 more time
      In words: Round 2 is worked over the 6 stitches of round 1. Step 1, on stitch 1: work single crochet. Step 2, on stitch 2: work 2 single crochet in one stitch. Step 3, on stitches 3 to 4: do steps 1 to 2 again, 1 more time. Round 2 has 6 stitches. It does not fit: it needs 4, and there are 6.
      `,
    );
    checkHover(
      `
      Rnd 1: 6 sc in mr (6)
      $0Rnd 2: inc x6 (13)
      Rnd 3: 13 sc (13)
      `,
      `
      Rnd 2:
      Rnd 2
      worked over sts of Rnd 1: 6 of 6
      makes: 12 sc
      the line says: 13
      change from Rnd 1: +6
      so far in this piece: 18 of 31 sts
      Step | Sts of Rnd 1 | Sts made | Worked
      1 | 1–6 | 1–12 | 2 sc in each
      In words: Round 2 is worked over the 6 stitches of round 1. Step 1, on stitches 1 to 6: work 2 single crochet in each. Round 2 has 12 stitches. The line says 13.
      `,
    );
    checkHover(
      `
      Rnd 1: 6 sc in mr (6)
      Rnd 2: inc x6 (13)
      $0Rnd 3: 13 sc (13)
      `,
      `
      Rnd 3:
      Rnd 3
      worked over sts of Rnd 2: 13 of 13
      makes: 13 sc
      change from Rnd 2: +1
      so far in this piece: 31 of 31 sts
      - It is judged by the count that Rnd 2 states, not by what that makes.
      Step | Sts of Rnd 2 | Sts made | Worked
      1 | 1–13 | 1–13 | sc in each
      In words: Round 3 is worked over the 13 stitches of round 2. Step 1, on stitches 1 to 13: work single crochet in each. Round 3 has 13 stitches.
      `,
    );
  });

  test("says why a row is not checked, and leaves it out of the totals", () => {
    checkHover(
      `
      R1: 6 sc in mr (6)
      $0R2: lotus x6 (6)
      `,
      `
      R2:
      R2
      sts of R1: 6
      so far in this piece: 6 of 6 sts
      - Not checked: "lotus" is not explained in this pattern.
      - Not in the totals, since it is not known what they make: R2.
      `,
    );
  });

  test("says what a doubtful row could mean", () => {
    checkHover(
      `
      Ch 4, join to form ring.
      $0Rnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 times, join.
      `,
      `
      Rnd 1:
      Rnd 1
      makes: 10 dc, 5 ch-1 sps
      leaves: 10 sts, 5 sps
      so far in this piece: 0 of 0 sts
      - It could mean 10 dc, 5 ch-1 sps if "5 times" means 5 times in all.
      - It could mean 12 dc, 6 ch-1 sps if "5 times" means 5 more times.
      - The numbers and the steps shown are those of the first of these.
      - Not in the totals, since it is not known what they make: Rnd 1.
      Step | Sts made | Worked
      1 | 1–2 | 2 dc in the ring
      2 | – | ch 1
      3 | 3–10 | steps 1–2 again, 4 more times
      In words: Round 1 is worked on nothing: it begins a piece. Step 1: work 2 double crochet in the ring. Step 2: make 1 chain. Step 3: do steps 1 to 2 again, 4 more times. Round 1 has 10 double crochet, 5 spaces of 1 chain.
      `,
    );
  });
});

test("prose between rows and an empty text have no hover", () => {
  checkHover("Rnd 1: 6 sc in mr (6)\nStart $0gently.", "nothing");
  checkHover("$0", "nothing");
});

test("a starting chain tells its chains, which are in no total", () => {
  checkHover(
    `
    C$0h 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10)
    `,
    `
    Ch
    Ch: chain
    `,
  );
  checkHover(
    `
    With A, ch 11$0.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10)
    `,
    `
    With A, ch 11.
    Starting chain
    makes: 11 chains
    `,
  );
  checkHover(
    "Magic $0ring.\nRnd 1: Ch 1, 8 sc in ring. (8)",
    "Magic ring.\nStarting chain\nmakes: a ring for any number of stitches",
  );
});
