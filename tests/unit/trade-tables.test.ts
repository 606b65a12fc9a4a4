import { describe, expect, test } from "vitest";
import { abbreviations, meaningOf } from "../../server/src/trade/abbreviations";
import { hookLabelOf, hookSizesOf, hooks, steelHooks } from "../../server/src/trade/hooks";
import { numberWords, ordinalWords, timesWords } from "../../server/src/trade/number-words";
import {
  convertLength,
  convertWeight,
  printedLength,
  sameLength,
  unitSpellings,
} from "../../server/src/trade/units";
import { yarnWeightNamed, yarnWeights } from "../../server/src/trade/yarn-weights";

describe("abbreviations", () => {
  // danceswithwools.net/2022/09/16/understanding-crochet-abbreviations; stitch4ever.com/2012/01/30/abbreviations-in-crochet-patterns
  test.each([
    ["RS", "US", "right side"],
    ["rep", "US", "repeat"],
    ["foll", "US", "following"],
    ["dc", "US", "double crochet"],
    ["FPtr", "US", "front post treble crochet"],
    ["sc2tog", "US", "single crochet 2 together"],
    ["dc", "UK", "double crochet"],
    ["tr", "UK", "treble crochet"],
    ["sc", "UK", "double crochet"],
  ] as const)("%s in %s terms is %s", (word, terms, meaning) => {
    expect(meaningOf(word, terms)).toBe(meaning);
  });

  test("an unknown abbreviation has no meaning", () => expect(meaningOf("zz", "US")).toBeUndefined());

  test("no abbreviation is in the list twice, and each has a source", () => {
    const words = abbreviations.flatMap((entry) => entry.words.map((word) => word.toLowerCase()));
    expect(new Set(words).size).toBe(words.length);
    expect(abbreviations.every((entry) => entry.source !== "")).toBe(true);
  });
});

describe("number words", () => {
  test.each([
    ["one", 1],
    ["twelve", 12],
    ["twenty", 20],
    ["twenty-one", 21],
    ["forty-eight", 48],
    ["ninety-nine", 99],
  ])("%s is %i", (word, number) => expect(numberWords.get(word)).toBe(number));

  test.each([
    ["first", 1],
    ["twelfth", 12],
    ["twentieth", 20],
    ["thirty-second", 32],
  ])("%s is %i", (word, number) => expect(ordinalWords.get(word)).toBe(number));

  test("each table has every number below 100 once", () => {
    const toNinetyNine = Array.from({ length: 99 }, (_, index) => index + 1);
    expect([...numberWords.values()].toSorted((a, b) => a - b)).toEqual(toNinetyNine);
    expect([...ordinalWords.values()].toSorted((a, b) => a - b)).toEqual(toNinetyNine);
    expect([...timesWords]).toEqual([
      ["once", 1],
      ["twice", 2],
      ["thrice", 3],
    ]);
  });
});

describe("units", () => {
  // International yard and pound agreement, 1959.
  test("an inch is 2.54 cm, a yard 0.9144 m, an ounce 28.349523125 g", () => {
    expect(convertLength(1, "in", "cm")).toBeCloseTo(2.54, 12);
    expect(convertLength(1, "yd", "m")).toBeCloseTo(0.9144, 12);
    expect(convertLength(36, "in", "yd")).toBeCloseTo(1, 12);
    expect(convertWeight(1, "oz", "g")).toBeCloseTo(28.349523125, 9);
    expect(convertWeight(1, "lb", "oz")).toBeCloseTo(16, 9);
  });

  // Pattern sheet BRC0502-035419M: the colour of 1570 yd is 1436 m, printed as 1425.
  test("1570 yards are 1436 metres", () => {
    expect(printedLength(convertLength(1570, "yd", "m"), "m")).toBe(1436);
    expect(sameLength(1570, "yd", 1436, "m")).toBe(true);
    expect(sameLength(1570, "yd", 1425, "m")).toBe(false);
  });

  // Craft Yarn Council tables give gauge over "4 in/10 cm".
  test("4 in and 10 cm are one printed length, 4 in and 12 cm are not", () => {
    expect(sameLength(4, "in", 10, "cm")).toBe(true);
    expect(sameLength(4, "in", 12, "cm")).toBe(false);
    expect(printedLength(convertLength(10, "cm", "in"), "in")).toBe(4);
  });

  test("spellings", () => {
    expect(["inches", '"', "yds", "gms", "centimetres"].map((word) => unitSpellings.get(word))).toEqual([
      "in",
      "in",
      "yd",
      "g",
      "cm",
    ]);
  });
});

describe("hooks", () => {
  // The charts named in the table agree on these.
  test.each([
    ["H-8", [5]],
    ["H/8", [5]],
    ["E-4", [3.5]],
    ["7", [4.5]],
    ["K/10.5", [6.5]],
    ["K-10 1/2", [6.5]],
    ["L-11", [8]],
    ["I-9", [5.5]],
  ])("%s is %j mm", (label, sizes) => expect(hookSizesOf(label)).toEqual(sizes));

  // Letters on which the charts differ.
  test.each([
    ["B", [2, 2.25, 2.5]],
    ["C", [2.5, 2.75]],
    ["D", [3.125, 3.25]],
    ["G", [4, 4.25]],
    ["I", [5.25, 5.5]],
    ["J", [5.75, 6]],
    ["N", [9, 10]],
    ["P", [10, 11.5, 15]],
    ["Q", [15, 15.75, 16]],
  ])("%s may be %j mm", (label, sizes) => expect(hookSizesOf(label)).toEqual(sizes));

  // joann.com/how-to-make-a-baby-cable-scarf: "5mm [US I-9]", a published misprint.
  test("I-9 is never 5 mm", () => expect(hookSizesOf("I-9")).not.toContain(5));

  test("what nobody prints has no size", () => {
    expect(hookSizesOf("H-9")).toEqual([]);
    expect(hookSizesOf("")).toEqual([]);
  });

  test("the label of a size is the one most charts print", () => {
    expect(hookLabelOf(5)).toBe("H-8");
    expect(hookLabelOf(6.5)).toBe("K-10.5");
    expect(hookLabelOf(10)).toBe("N-P-15");
    expect(hookLabelOf(7)).toBeNull();
    expect(hookLabelOf(5.1)).toBeNull();
  });

  // Charts by Lindley General Store, Tangled Yarn and matifs.com.
  test("old UK numbers: the charts agree on 8 for 4 mm and differ for 6 mm", () => {
    const ukOf = (mm: number) => new Set(Object.values(hooks.find((hook) => hook.mm === mm)?.ukOld ?? {}));
    expect(ukOf(4)).toEqual(new Set(["8"]));
    expect(ukOf(6)).toEqual(new Set(["4", "3"]));
    expect(ukOf(2.75)).toEqual(new Set(["12", "11"]));
  });

  test("sizes rise, steel sizes fall", () => {
    const sizes = hooks.map((hook) => hook.mm);
    const steel = steelHooks.map((hook) => hook.mm);
    expect(sizes).toEqual(sizes.toSorted((a, b) => a - b));
    expect(steel).toEqual(steel.toSorted((a, b) => b - a));
    // homequestionsanswered.com/what-are-the-different-crochet-hook-sizes.htm
    expect([steel[0], steel.at(-1)]).toEqual([3.5, 0.75]);
  });
});

describe("yarn weights", () => {
  // Craft Yarn Council table as printed in Crochet World, October 2018, p. 64.
  test.each([
    [1, "Super Fine", 21, 32, 2.25, 3.5],
    [2, "Fine", 16, 20, 3.5, 4.5],
    [3, "Light", 12, 17, 4.5, 5.5],
    [4, "Medium", 11, 14, 5.5, 6.5],
    [5, "Bulky", 8, 11, 6.5, 9],
    [6, "Super Bulky", 6, 9, 9, 16],
  ])("%i %s: %i to %i sc in 4 in, hook %d to %d mm", (category, name, least, most, thin, thick) => {
    expect(yarnWeights[category]).toMatchObject({
      category,
      name,
      gauge: { min: least, max: most, stitch: "sc" },
      hookMm: { min: thin, max: thick },
    });
  });

  test("lace is measured in dc; jumbo is open at one end (same table)", () => {
    expect(yarnWeights[0]).toMatchObject({ gauge: { min: 32, max: 42, stitch: "dc" } });
    expect(yarnWeights[7]).toMatchObject({ gauge: { min: null, max: 5 }, hookMm: { min: 16, max: null } });
  });

  // theyarnbar.com.au/pages/yarn-weights: wraps an inch.
  test.each([
    ["Fingering", 14],
    ["Sport", 12],
    ["DK", 11],
    ["Worsted", 9],
    ["Bulky", 7],
    ["Super Bulky", 5],
  ])("a shop's %s, %i wraps, lies in its category", (name, wraps) => {
    const { min, max } = yarnWeightNamed(name)?.wrapsPerInch ?? { min: null, max: null };
    expect(min).not.toBeNull();
    expect(wraps).toBeGreaterThanOrEqual(min ?? 0);
    expect(wraps).toBeLessThanOrEqual(max ?? 0);
  });

  test("names of a weight", () => {
    expect(yarnWeightNamed("dk")?.category).toBe(3);
    expect(yarnWeightNamed(" Aran ")?.category).toBe(4);
    expect(yarnWeightNamed("roving")).toBeUndefined();
    expect(yarnWeightNamed("baby")).toBeUndefined();
  });
});
