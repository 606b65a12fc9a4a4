import fc from "fast-check";
import { expect, test } from "vitest";
import { longPattern } from "../bench/long-pattern";
import { anyText, runs } from "./pattern-texts";
import { allNames, meaning, styled } from "./styled";

/** Enough for some pieces; more would be the same again. */
const rowsOfPattern = 12;

const style = fc.constantFrom(...allNames);

test("a text in any style comes to the same, and from one style into another", () => {
  const check = (text: string, first: string, second: string) => {
    const once = styled(text, first);
    expect(meaning(once)).toEqual(meaning(text));
    expect(meaning(styled(once, second))).toEqual(meaning(text));
  };
  fc.assert(fc.property(anyText, style, style, check), { numRuns: runs });
});

test("a pattern of many forms comes to the same in any style and from one into another, and is not changed a second time", () => {
  const check = (seed: number, first: string, second: string) => {
    const text = longPattern(rowsOfPattern, seed);
    const said = meaning(text);
    const once = styled(text, first);
    expect(meaning(once)).toEqual(said);
    expect(styled(once, first)).toBe(once);
    const again = styled(once, second);
    expect(meaning(again)).toEqual(said);
    expect(styled(again, second)).toBe(again);
  };
  fc.assert(fc.property(fc.nat(), style, style, check), { numRuns: runs });
});

test("a text in a style is not changed a second time", () => {
  const check = (text: string, name: string) => {
    const once = styled(text, name);
    expect(styled(once, name)).toBe(once);
  };
  fc.assert(fc.property(anyText, style, check), { numRuns: runs });
});
