import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";

function rowsOf(text: string) {
  return new Checker().check(text).pieces.flatMap(({ rows }) => rows);
}

const openRow = "Row 1: Ch 22, hdc in 3rd ch from hook and in each ch across.";
const doubtful = "Rnd 1: Ch 1, *2 sc in ring, ch 1; rep from * 5 times, join.";

describe("what the trade leaves open, a pattern settles by what it does throughout", () => {
  test("nothing tells: the row is ambiguous", () => {
    expect(rowsOf(openRow).at(-1)?.result).toBe("ambiguous");
    expect(rowsOf(`Ch 4, join to form ring.\n${doubtful}`).at(-1)?.result).toBe("ambiguous");
  });

  /** 6 in all with one more time five: the count of one row tells how this designer counts repeats. */
  test.each([
    ["5 more", "Rnd 1: 6 sc in mr. (6)\nRnd 2: Ch 1, *2 sc in next st; rep from * 5 times, join. (12)", [12]],
    [
      "5 in all",
      "Rnd 1: 5 sc in mr. (5)\nRnd 2: Ch 1, *2 sc in next st; rep from * 5 times, join. (10)",
      [10],
    ],
  ])("times are counted as in the row with a count: %s", (_, counted, made) => {
    const rows = rowsOf(`Base\n${counted}\n\nTop\nCh 4, join to form ring.\n${doubtful}`);
    const last = rows.at(-1);
    expect(last?.result).toBe("ok");
    expect(last?.made.sc).toEqual(made);
    expect(last?.assumptions.join()).toContain("as elsewhere in this pattern");
  });

  test("a pattern that does it both ways settles nothing", () => {
    const both = `Base
Rnd 1: 6 sc in mr. (6)
Rnd 2: Ch 1, *2 sc in next st; rep from * 5 times, join. (12)

Lid
Rnd 1: 5 sc in mr. (5)
Rnd 2: Ch 1, *2 sc in next st; rep from * 5 times, join. (10)

Top
Ch 4, join to form ring.
${doubtful}`;
    expect(rowsOf(both).at(-1)?.result).toBe("ambiguous");
  });

  test("the habit is followed wherever the piece stands in the pattern, and forgotten with its row", () => {
    const checker = new Checker();
    const counted = "Rnd 1: 6 sc in mr. (6)\nRnd 2: Ch 1, *2 sc in next st; rep from * 5 times, join. (12)";
    const top = `Top\nCh 4, join to form ring.\n${doubtful}`;
    const results = [`${top}\n\nBase\n${counted}`, top, `${top}\n\nBase\n${counted}`].map(
      (text) => checker.check(text).pieces[0]?.rows.at(-1)?.result,
    );
    expect(results).toEqual(["ok", "ambiguous", "ok"]);
  });
});
