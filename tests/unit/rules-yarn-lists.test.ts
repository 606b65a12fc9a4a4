import { describe, expect, test } from "vitest";
import { expectClean, foundBy, onlyFinding } from "./rule-cases";

// How yarns are listed: common practice, no source. The texts are invented.

const rows = (second: string): string =>
  `Rnd 1: With A, 6 sc in magic ring (6)\nChange to ${second}.\nRnd 2: 2 sc in each st around (12)\nFasten off.\n`;

const lists = [
  "Colour A (Navy): 1 skein\nColour B (Amber): 1 skein\n",
  "Color A (Navy): 1 skein\nColor B (Amber): 1 skein\n",
  "A (Navy): 1 skein\nB (Amber): 1 skein\n",
  "Navy (A): 1 skein\nAmber (B): 1 skein\n",
  "Colour A: Navy, 1 skein\nColour B: Amber, 1 skein\n",
  "A – Navy, 1 skein\nB – Amber, 1 skein\n",
];

describe.each(lists)("%s", (list) => {
  const front = `Materials\nWorsted weight wool\n${list}5 mm (H-8) hook\n\n`;

  test("a yarn that is not listed, and one that nothing takes up", () => {
    const text = front + rows("D");
    expect(onlyFinding("unlisted-yarn", text).message).toBe(
      "Yarn D is used here, and the list of yarns has Navy (A) and Amber (B). Add it to the list, or write the name that is meant.",
    );
    expect(onlyFinding("unused-yarn", text).message).toBe(
      "Amber (B) is in the list of yarns, and no row and no sentence takes it up.",
    );
  });

  test.each(["B", "Amber", "amber"])("%s is of the list", (name) => expectClean(front + rows(name)));
});

describe("letters", () => {
  const front = (hook: string): string => `Materials\nA – Navy, 1 skein\nB – Amber, 1 skein\n${hook}\n\n`;

  test.each([
    ["3.25 mm (D-3) hook", "D"],
    ["2.75 mm (US C-2) crochet hook", "C"],
    ["Size H hook", "H"],
    ["5 mm (H-8) hook", "C2"],
    ["5 mm (H-8) hook", "CC2"],
  ])("with %s, %s is no yarn of the list", (hook, name) => {
    expect(onlyFinding("unlisted-yarn", front(hook) + rows("B") + rows(name)).on).toBe(name);
  });

  test("the letter of a second hook is no yarn", () => {
    const text = `Materials: Yarn in navy (A) and amber (B); hooks D-3 (3.25 mm) and E-4 (3.5 mm)\n\n${rows("B")}`;
    expectClean(text);
  });

  test("a hook that a row takes up is no yarn", () => {
    const text = `${front("Hooks: 3.25 mm (D-3) and 4 mm (G-6)")}${rows("B")}With G hook:\n`;
    expect(foundBy("unlisted-yarn", text)).toEqual([]);
  });
});

describe("shades", () => {
  const bird = (list: string, bill = "Tangerine"): string =>
    `Materials\n1 x 50 g ball DK cotton, shade Lemon\nsmall amounts of DK cotton, shades ${list}\n\nHead (Lemon)\nRnd 1: 6 sc in magic ring (6)\nFasten off.\n\nBill (${bill})\nRnd 1: 5 sc in magic ring (5)\nFasten off.\n`;

  test("a shade that no piece is made in", () => {
    expect(onlyFinding("unused-yarn", bird("Tangerine and Black")).on).toBe("Black");
    expect(foundBy("unused-yarn", bird("Tangerine"))).toEqual([]);
    expect(foundBy("unlisted-yarn", bird("Tangerine"))).toEqual([]);
    expect(onlyFinding("unlisted-yarn", bird("Tangerine", "Red")).on).toBe("Red");
  });
});

describe("letters in the heads of rows", () => {
  const striped = (head: string): string =>
    `Materials\nA (Navy): 1 skein\nB (Amber): 1 skein\n\nRnd 1 (A): 6 sc in magic ring (6)\n${head} 2 sc in each st around (12)\nFasten off.\n`;

  test.each([
    "Rnd 2 (D):",
    "Rnd 2 [D]:",
    "Rnd 2, D:",
    "Rnd 2 - D:",
    "Rnd 2 (RS, D):",
    "Rnd 2 (in D):",
    "Rnd 2: (D)",
  ])("%s", (head) => {
    expect(onlyFinding("unlisted-yarn", striped(head)).on).toBe("D");
    expect(foundBy("unlisted-yarn", striped(head.replace("D", "B")))).toEqual([]);
  });
});
