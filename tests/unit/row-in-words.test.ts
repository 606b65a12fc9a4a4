import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { rowInWordsAt } from "../../server/src/features/reading/row-in-words";
import { Checker } from "../../server/src/workspace/checker";
import { marked, outdented } from "./marked-pattern";

function read(pattern: string): string | undefined {
  const { worked, offset } = marked(outdented(pattern));
  return rowInWordsAt(worked, offset)?.text;
}

test("a round is read in whole sentences, without abbreviations", () => {
  expect(read("Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\n$0Rnd 3: (sc, inc) x6 (18)")).toBe(
    "Round 3 is worked over the 12 stitches of round 2. Step 1, on stitch 1: work single crochet. Step 2, on stitch 2: work 2 single crochet in one stitch. Step 3, on stitches 3 to 12: do steps 1 to 2 again, 5 more times. Round 3 has 18 stitches.",
  );
});

/* Source of the names: Crochet Terms Translation Chart (cdn.shopify.com/s/files/1/0659/6837/3974/files/Crochet_Terms_Translation_Chart.pdf). */
test("stitches have their names in the terms of the pattern", () => {
  expect(read("Terms: UK\nRound 1: 6dc in ring. 6dc.\n$0Round 2: 2dc in each st around. 12dc.")).toContain(
    "2 double crochet in each",
  );
});

test("a row that does not fit, or is not checked, is told as such", () => {
  expect(read("Rnd 1: 6 sc in mr (6)\n$0Rnd 2: inc x5 (10)")).toContain(
    "It does not fit: it needs 5, and there are 6.",
  );
  expect(read("$0Rnd 7: gribble in next st (6)")).toContain("Round 7 is not checked:");
});

test("outside the pieces there is nothing to read", () => {
  expect(read("Notes$0")).toBeUndefined();
});

const samples = new URL("../../samples/", import.meta.url);

test.each(readdirSync(samples))("no row of %s is read with an abbreviation in it", (name) => {
  const { worked } = new Checker().work(readFileSync(new URL(name, samples), "utf8"));
  const rows = worked.pieces.flatMap(({ rows }) => rows).filter(({ result }) => result !== "unchecked");
  expect(rows.length).toBeGreaterThan(0);
  for (const { line } of rows)
    expect(rowInWordsAt(worked, line.span.start)?.text).not.toMatch(
      /\b(?:sc|hdc|dc|htr|tr|ss|sl|ch|chs|sts?|sps?|inc|dec|rnds?|sk|rep|tog|mr|beg)\b/i,
    );
});
