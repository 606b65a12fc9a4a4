import { describe, expect, test } from "vitest";
import { rewriteAnswer } from "../../server/src/features/rewrite-question";
import { withEdits } from "../../server/src/text/span";
import { sceneOf } from "../mutants/promises";

/* Rows as common practice writes them, no source; the numbers are sums that anybody can follow. */

/** The pattern with the row that begins so made to come to another count; or what is said. */
function rewritten(text: string, row: string, count: number): string {
  const scene = sceneOf(text);
  const answer = rewriteAnswer(scene, text.indexOf(row), `${count}`);
  return answer.fits ? withEdits(text, answer.edits) : answer.says;
}

describe("a row is rewritten for another count", () => {
  test("along a chain that was joined", () => {
    const text = "Ch 48, join with sl st in first ch.\nRnd 1: Ch 1, sc in each ch around, join. (48 sc)\n";
    expect(rewritten(text, "Rnd 1", 50)).toBe(text.replaceAll("48", "50"));
  });

  test("along a chain that is told with the chain to turn", () => {
    const text =
      "Make a chain of 10 plus 1 to turn.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n";
    expect(rewritten(text, "Row 1", 14)).toBe(text.replace("of 10", "of 14").replace("(10)", "(14)"));
  });

  test("with its numbers in words", () => {
    const text =
      "Chain twelve.\n1st row: Single crochet in second chain from hook and in each of the ten remaining chains. Eleven sts.\n";
    expect(rewritten(text, "1st row", 12)).toBe(
      text.replace("twelve", "thirteen").replace("the ten", "the eleven").replace("Eleven sts", "Twelve sts"),
    );
  });

  test("along an edge, where its count alone is checked", () => {
    const text =
      "Panel\nRow 1: Fsc 10, turn. (10)\nRows 2-10: Ch 1, sc in each st, turn. (10)\n\nBorder\nRnd 1: Ch 1, work 40 sc evenly around the edge, join. (40)\nRnd 2: Ch 1, sc in each st around, join. (40)\n";
    expect(rewritten(text, "Rnd 1", 42)).toBe(text.replaceAll("40", "42"));
  });

  test("that leaves stitches unworked: one more is worked, one fewer is left", () => {
    const text =
      "Row 1: Fsc 40, turn. (40)\nRow 2: Ch 1, sc in next 32 sts, leave remaining 8 sts unworked, turn. (32)\n";
    expect(rewritten(text, "Row 2", 34)).toBe(
      text.replace("next 32", "next 34").replace("remaining 8", "remaining 6").replace("(32)", "(34)"),
    );
  });

  test("by a row far above, where all between have their numbers from there", () => {
    const rows = Array.from(
      { length: 8 },
      (_, i) => `Row ${i + 2}: Ch 1, sc2tog, sc in next ${17 - i} sts, sc in last st, turn. (${19 - i})`,
    );
    const text = [
      "Ch 21.",
      "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20)",
      ...rows,
      "",
    ].join("\n");
    const done = rewritten(text, "Row 9", 14);
    expect(done).toContain("Ch 23.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (22)\n");
    expect(done).toContain("Row 9: Ch 1, sc2tog, sc in next 12 sts, sc in last st, turn. (14)\n");
  });

  test("but not for one that the row behind it would settle otherwise", () => {
    // Whether the ch 3 is a stitch, only the 4 stitches of each repeat tell.
    const text =
      "Shell: 5 dc in one st.\nRnd 1: Ch 3, 11 dc in ring, join with sl st in top of ch 3.\nRnd 2: Ch 1, *sc in next dc, skip next dc, shell in next dc, skip next dc; rep from * around, join. (3 sc, 3 shells)\n";
    expect(rewritten(text, "Rnd 1", 16)).toContain("Ch 3, 15 dc in ring");
    expect(rewritten(text, "Rnd 1", 21)).not.toContain("dc in ring");
  });
});
