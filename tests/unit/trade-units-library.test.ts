// Units of length and weight against a general-purpose library of units: `convert` from the npm registry.
import { convert } from "convert";
import { describe, expect, test } from "vitest";
import { convertLength, convertWeight, type LengthUnit, type WeightUnit } from "../../server/src/trade/units";

const lengths: Readonly<Record<LengthUnit, Parameters<typeof convert>[1]>> = {
  mm: "millimeters",
  cm: "centimeters",
  m: "meters",
  in: "inches",
  ft: "feet",
  yd: "yards",
};
const weights: Readonly<Record<WeightUnit, Parameters<typeof convert>[1]>> = {
  g: "grams",
  kg: "kilograms",
  oz: "ounces",
  lb: "pounds",
};

const pairsOf = <K extends string>(units: Readonly<Record<K, unknown>>): [K, K][] => {
  const keys = Object.keys(units) as K[];
  return keys.flatMap((from) => keys.map((to): [K, K] => [from, to]));
};

/** As a library of units has it. */
function byLibrary(value: number, from: string, to: string): number {
  return (convert as (value: number, from: string) => { to(unit: string): number })(value, from).to(to);
}

describe("a general-purpose library comes to the same", () => {
  test.each(pairsOf(lengths))("for lengths from %s to %s", (from, to) => {
    for (const value of [0.25, 1, 3.5, 10, 60, 162])
      expect(convertLength(value, from, to)).toBeCloseTo(byLibrary(value, lengths[from], lengths[to]), 9);
  });
  test.each(pairsOf(weights))("for weights from %s to %s", (from, to) => {
    for (const value of [0.5, 1, 25, 50, 100])
      expect(convertWeight(value, from, to)).toBeCloseTo(byLibrary(value, weights[from], weights[to]), 9);
  });
});

test("60 cm are 24 in and 30 cm are 12 in, to the nearest whole", () => {
  for (const [cm, inches] of [
    [60, 24],
    [30, 12],
  ] as const) {
    expect(Math.round(convertLength(cm, "cm", "in"))).toBe(inches);
    expect(Math.round(byLibrary(cm, "centimeters", "inches"))).toBe(inches);
  }
});
