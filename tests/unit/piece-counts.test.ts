import { describe, test } from "vitest";
import { checkHover } from "./check-hover";

/* What counts suit rows together is arithmetic that anybody can follow, no source; the rows are common practice. */

describe("the heading of a piece tells which counts suit", () => {
  test("all its rows, with the starting chain: multiples of 3 and of 2 are multiples of 6", () => {
    checkHover(
      `
      Pa$0nel
      Ch 19.
      Row 1: Sc in 2nd ch from hook and in each ch across, turn. (18)
      Row 2: Ch 1, *sc in next 2 sts, dc in next st; rep from * across, turn. (18)
      Row 3: Ch 1, *sc in next st, dc in next st; rep from * across, turn. (18)
      `,
      `
      Panel
      Panel
      time: about 3 minutes
      suits all its rows: multiple of 6, plus 1 for the starting chain; next are 12 and 24
      `,
    );
  });

  test("the rows of one width, where the rows above them widen", () => {
    checkHover(
      `
      Po$0uch
      Rnd 1: 6 sc in magic ring (6)
      Rnd 2: inc x6 (12)
      Rnd 3: (sc, inc) x6 (18)
      Rnd 4: sc in each st around (18)
      Rnd 5: *sc 2, ch 1, skip 1; rep from * around (12 sc, 6 ch-1 sps)
      Rnd 6: *sc 2, sc in ch-1 sp; rep from * around (18)
      `,
      `
      Pouch
      Pouch
      time: about 4½ minutes
      suits Rnd 4 to Rnd 6: multiple of 3; next are 15 and 21
      `,
    );
  });

  test("which two rows stand against each other", () => {
    checkHover(
      `
      Pa$0nel
      Row 1: Fsc 18, turn. (18)
      Row 2: Ch 1, sc in first st, *sc in next 2 sts, dc in next 2 sts; rep from * to last st, sc in last st, turn. (18)
      Row 3: Ch 1, sc in first st, *sc in next 3 sts, dc in next st; rep from * across, turn. (18)
      `,
      `
      Panel
      Panel
      time: about 2½ minutes
      - No number of stitches suits both Row 2 (multiple of 4 + 2) and Row 3 (multiple of 4 + 1).
      `,
    );
  });

  test("the row that the count there is does not suit, and what would do", () => {
    checkHover(
      `
      Po$0uch
      Rnd 1: Fsc 42, join. (42)
      Rnd 2: Ch 1, sc in each st around, join. (42)
      Rnd 3: Ch 1, *sc in next 3 sts, ch 1, skip next st; rep from * around, join.
      `,
      `
      Pouch
      Pouch
      time: about 6 minutes
      suits Rnd 2 to Rnd 3: multiple of 4; next are 40 and 44
      - Rnd 3 needs a multiple of 4, and there are 42: 40 or 44 would do.
      `,
    );
  });
});
