import fc from "fast-check";
import { expect, test } from "vitest";
import { readPattern } from "../../server/src/fabric/pattern";
import { turnedText } from "../../server/src/features/turn-pattern";
import { turnTerms } from "../../server/src/reshape/terms/turn-terms";
import { anyText, runs } from "./pattern-texts";

const terms = fc.constantFrom("US" as const, "UK" as const);

test("changes of any text follow one another and lie within a line", () => {
  const check = (text: string, to: "US" | "UK") => {
    const { edits, left } = turnTerms(readPattern(text), to);
    let end = 0;
    for (const { span } of edits) {
      expect(span.start).toBeGreaterThanOrEqual(end);
      expect(text.slice(span.start, span.end)).not.toMatch(/[\r\n]/);
      end = span.end;
    }
    for (const { word, start } of left)
      expect(
        text
          .slice(start, start + word.length)
          .toLowerCase()
          .replace(/\s/g, " "),
      ).toBe(word.toLowerCase().replace(/\s/g, " "));
  };
  fc.assert(fc.property(anyText, terms, check), { numRuns: 4 * runs });
});

test("a text that was turned is in the wanted terms, and is not turned again", () => {
  const check = (text: string, to: "US" | "UK") => {
    const turned = turnedText(text, to);
    if (turned) expect(turnedText(turned.text, to)).toBeNull();
  };
  fc.assert(fc.property(anyText, terms, check), { numRuns: 4 * runs });
});

test("a word that something is stuck to declares no terms, and so none that could not be turned", () => {
  const text = "6Terms: UK\nMake 18ch.\nRow 1: 1dtr in 5th ch from hook, 1dtr in each ch to end. 15dtr.\n";
  const turned = turnedText(text, "US");
  expect(turned && turnedText(turned.text, "US")).toBeNull();
});
