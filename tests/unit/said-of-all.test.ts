import { expect, test } from "vitest";
import { saidOfAll } from "../../server/src/features/sizes/in-all-sizes";

/* Sizes in one line: the first, and the others in brackets (common practice, no source). */

test.each([
  [["62 sts", "68 sts", "74 sts"], "62 (68, 74) sts"],
  [["40.5 cm", "45.2 cm"], "40.5 (45.2) cm"],
  [["40 cm", "45.2 cm"], "40 (45.2) cm"],
  [["40.5 cm wide, 12 rows", "40.5 cm wide, 14 rows"], "40.5 cm wide, 12 (14) rows"],
  [["60 sts fit.", "66 sts fit."], "60 (66) sts fit."],
])("%j is said as %s", (texts, said) => {
  expect(saidOfAll(texts)).toBe(said);
});

test("other words are not put into one sentence", () => {
  expect(saidOfAll(["12 rows", "1 row"])).toBeNull();
});
