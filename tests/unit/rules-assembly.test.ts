import { describe, expect, test } from "vitest";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

// How pieces are put together: common practice, no source. The texts are invented.

const ring = (name: string, last: string): string =>
  `${name}\nRnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\n${last}Fasten off.\n\n`;
const buoy = ring("Buoy", "Rnds 3-8: sc in each st around (12)\n");
const ear = (make = "", end = "Fasten off."): string =>
  `Ear${make}\nRnd 1: 5 sc in mr (5)\nRnd 2: sc in each st around (5)\n${end}\n\n`;
const assembly = (sentence: string): string => `Assembly\n${sentence}\n`;

describe("wrong-number-of-pieces", () => {
  const sentence =
    "Sew the two ears to the buoy over Rnds 3-5, one on each face, with 3 sts between the ends of each ear.";

  test.each([" (make 3)", " (make 4)", " (make 5)"])("one on each face, of each ear: %s", (make) => {
    const text = buoy + ear(make) + assembly(sentence);
    expect(onlyFinding("wrong-number-of-pieces", text).on).toBe("two ears");
    expectClean(mended("wrong-number-of-pieces", text));
  });

  test.each([
    [" (make 2)", sentence],
    [" (make 4)", "Sew the two ears to each side of the buoy."],
    [" (make 4)", "Sew the two ears to the buoy, and the other ears beside each ear."],
  ])("%s: %s", (make, said) => {
    expect(foundBy("wrong-number-of-pieces", buoy + ear(make) + assembly(said))).toEqual([]);
  });
});

describe("piece-not-used", () => {
  const others = `${buoy}${ear(" (make 2)")}${ear().replace("Ear", "Bell")}`;
  const arm = (end: string): string => ear(" (make 2)", end).replace("Ear", "Arm");
  const sewn = assembly("Sew the ears and the bell to the buoy.");

  test.each([
    "Fasten off with a long tail and sew the opening flat.",
    "Sew the top opening closed. Fasten off.",
    "Sew the end shut and fasten off.",
    "Fasten off, leaving a tail for sewing.",
  ])("%s", (end) => {
    expect(onlyFinding("piece-not-used", others + arm(end) + sewn).on).toContain("Arm");
    const named = sewn.replace("to the buoy.", "to the buoy. Sew the arms to the sides.");
    expect(foundBy("piece-not-used", others + arm(end) + named)).toEqual([]);
  });

  test.each([
    "Sew the opening flat to the side.",
    "Fasten off, leaving a tail for sewing to the buoy.",
    "Sew on at the side.",
    "Sew in place. Sew the opening closed.",
  ])("%s tells what becomes of it", (end) => {
    expect(foundBy("piece-not-used", others + arm(end) + sewn)).toEqual([]);
  });
});

describe("edges-differ", () => {
  const neck = ring("Neck", "Rnds 3-8: sc in each st around (12)\n");
  const wide = ring("Neck", "Rnd 3: (3 sc, inc) x3 (15)\n");
  const sentence = (n: number): string =>
    assembly(`Sew the buoy to the neck, matching the ${n} sts of each opening.`);

  test("a number tells the seam stitch for stitch", () => {
    expect(onlyFinding("edges-differ", buoy + wide + sentence(12)).message).toContain(
      '"Buoy" ends with 12 stitches, "Neck" ends with 15 stitches, and the assembly sews them stitch for stitch.',
    );
  });

  test("another number than both edges have", () => {
    const { on, message } = onlyFinding("edges-differ", buoy + neck + sentence(14));
    expect(on).toBe("14");
    expect(message).toBe(
      'The assembly speaks of 14 stitches, and "Buoy" ends with 12 stitches, as does "Neck". Did you mean 12?',
    );
    expectClean(mended("edges-differ", buoy + neck + sentence(14)));
  });

  test("the number that both have leaves nothing to find", () => {
    expect(foundBy("edges-differ", buoy + neck + sentence(12))).toEqual([]);
  });

  test("stitches that may be anywhere on the piece are not held against its opening", () => {
    const said = assembly("Sew the ear to the buoy, matching the 5 sts with those that were marked.");
    expect(foundBy("edges-differ", buoy + ear() + said)).toEqual([]);
  });
});
