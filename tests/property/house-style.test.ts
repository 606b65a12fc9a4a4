import fc from "fast-check";
import { expect, test } from "vitest";
import { anyText, runs } from "./pattern-texts";
import { allNames, meaning, styled } from "./styled";

const style = fc.constantFrom(...allNames);

test("a text in any style comes to the same, and from one style into another", () => {
  const check = (text: string, first: string, second: string) => {
    const once = styled(text, first);
    expect(meaning(once)).toEqual(meaning(text));
    expect(meaning(styled(once, second))).toEqual(meaning(text));
  };
  fc.assert(fc.property(anyText, style, style, check), { numRuns: runs });
});

test("a text in a style is not changed a second time", () => {
  const check = (text: string, name: string) => {
    const once = styled(text, name);
    expect(styled(once, name)).toBe(once);
  };
  fc.assert(fc.property(anyText, style, check), { numRuns: runs });
});
