import { describe, expect, test } from "vitest";
import { expectClean, foundBy, mended, onlyFinding } from "./rule-cases";

// Text of another pattern, and things that no list has: common practice, no source. The texts are invented.

const rows = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: sc in each st around (12)\n";

describe("left-over-text", () => {
  const seal = (sentence: string): string => `Pebble the whale\n\n${rows}${sentence}\n`;

  test.each([
    ["Stuff the bear's body firmly.", "bear"],
    ["Slip it over the teapot.", "teapot"],
    ["Block the shawl to 150 cm.", "shawl"],
    ["Embroider the eyes of the fox.", "fox"],
  ])("%s", (sentence, on) => {
    const found = onlyFinding("left-over-text", seal(sentence));
    expect([found.on, found.severity]).toEqual([on, "information"]);
  });

  test.each([
    "Stuff the whale's body firmly.",
    "Wear it like a scarf.",
    "Make another one for a doll.",
    "Work around the edge in blanket stitch.",
    "Wash it in a laundry bag.",
  ])("is silent: %s", (sentence) => expect(foundBy("left-over-text", seal(sentence))).toEqual([]));

  test.each([
    ["Tide Shawl", "Pin the shawl to your blocking mat."],
    ["Tide Shawl", "Roll it in the towel and cover it with the damp cloth."],
    ["Tide Shawl", "Stretch it over the bowl."],
    ["Shell Purse", "Fold the square in half."],
    ["Buoy Toy", "Lay the toy on the mat."],
  ])("what one works with or on is nothing left over: %s: %s", (title, sentence) =>
    expect(foundBy("left-over-text", `${title}\n\n${rows}${sentence}\n`)).toEqual([]),
  );

  test("words that mean the same are one thing", () => {
    const text = `Bunny in a basket\n\n${rows}Sew the rabbit to the edge.\n`;
    expect(foundBy("left-over-text", text)).toEqual([]);
  });
});

describe("left-over-text, by what a pattern is of", () => {
  const of = (title: string, ...sentences: readonly string[]): string =>
    `${title}\n${rows}Fasten off.\n\nFinishing\n${sentences.join("\n")}\n`;

  test.each([
    ["Market Bag", "Block the shawl to 150 cm.", "shawl", "Block the bag to 150 cm."],
    ["Squall Hat", "Slip it over the teapot and weave in ends.", "teapot", "Slip it over the hat"],
    ["Pebble the Seal", "Stuff the bear's body firmly.", "bear", "Stuff the seal's body firmly."],
  ])("%s: %s", (title, sentence, on, after) => {
    const text = of(title, sentence);
    const found = onlyFinding("left-over-text", text);
    expect([found.on, found.severity]).toEqual([on, "information"]);
    expect(found.message).toBe(
      `This speaks of "${on}", and nothing else in the pattern does. Is it left over from another pattern?`,
    );
    expect(mended("left-over-text", text)).toContain(after);
    expectClean(mended("left-over-text", text));
  });

  test.each([
    ["a part of another sort of thing", of("Market Bag", "Fold the sleeve in half.")],
    ["the eyes of an animal that is none", of("Groyne Cushion", "Embroider the eyes of the fox.")],
    ["the eyes of an animal that is none", of("Groyne Cushion", "Embroider the eyes of the fox.")],
    ["a thing with another word before it", of("Harbour Blanket", "Press the finished mitten.")],
  ])("%s", (_, text) => {
    expect(foundBy("left-over-text", text)).toHaveLength(1);
  });

  test.each([
    ["the same sort by another word", of("Squall Hat", "Turn the beanie right side out.")],
    ["a title made of the word", of("Foxy Cushion", "Embroider the eyes of the fox.")],
    ["another sentence that names it", of("Market Bag", "Use it as a shawl pouch.", "Fold the shawl.")],
    ["no title that tells", of("Tide", "Fold the shawl and stuff the bear.")],
    ["things that go together", of("Bear", "Put the hat on.")],
    ["a mug on a coaster", of("Rope Coaster", "Set the mug on it. Press the mug down.")],
    ["one of some thing", of("Market Bag", "Wear it over a shawl, and keep mittens in it.")],
    ["a thing of the maker", of("Market Bag", "Keep the scarf that you took off in it.")],
    ["a word of two", of("Market Bag", "Close it with the shawl-pin.")],
  ])("is silent on %s", (_, text) => {
    expect(foundBy("left-over-text", text)).toEqual([]);
  });
});

describe("left-over-text, within one sort of thing", () => {
  const puffin = (sentence: string): string =>
    `Bosun the Puffin\n${rows}Fasten off.\n\nWing (make 2)\n${rows}Fasten off.\n\nAssembly\nSew the wings on. ${sentence}\n`;

  test.each([["Stuff the trunk firmly."], ["Turn the left paw out."]])("%s", (sentence) => {
    expect(foundBy("left-over-text", puffin(sentence))).toHaveLength(1);
  });

  test("a part by another name is there", () => {
    const text = puffin("Stuff the bill.").replace("Wing", "Beak").replace("wings", "beaks");
    expect(foundBy("left-over-text", text)).toEqual([]);
  });
});

describe("left-over-text, the size to block to", () => {
  const throwOf = (sentence: string): string =>
    `Tide Throw\n\nFinished size: 96 x 128 cm\n\n${rows}Fasten off.\n${sentence}\n`;

  test("is none of the finished size", () => {
    const found = onlyFinding("left-over-text", throwOf("Block to 150 x 170 cm."));
    expect(found.message).toContain("blocked to 150 x 170 cm, and the finished size is 96 x 128 cm");
  });

  test.each([
    "Block to 96 x 128 cm.",
    "Block it to 38 x 50 in.",
    "Block to measurements.",
    "Block to 100 cm across.",
  ])("is silent: %s", (sentence) => expect(foundBy("left-over-text", throwOf(sentence))).toEqual([]));
});

describe("unlisted-notion", () => {
  const front = (notions: string): string =>
    `Materials\n50 g cotton in red\n3 mm hook\n${notions}\n\n${rows}`;

  test.each([
    ["Stuff firmly and close the hole.", "stuffing"],
    ["Fix the safety eyes between Rnds 2 and 3.", "safety eyes"],
    ["Sew the two buttons to the front.", "buttons"],
    ["Sew in the zip.", "a zip"],
  ])("%s", (sentence, name) => {
    const text = front("yarn needle") + sentence;
    expect(onlyFinding("unlisted-notion", text).message).toContain(`asks for ${name},`);
    const after = mended("unlisted-notion", text);
    expect(after).toContain(`yarn needle\n${name}\n`);
    expectClean(after.replace(sentence, `${sentence} Fasten off.`));
  });

  test.each([
    [front("yarn needle, fibrefill"), "Stuff firmly."],
    [front("yarn needle, 8 mm eyes"), "Stuff firmly. Insert the safety eyes between Rnds 2 and 3."],
    [front("yarn needle, 2 toggles"), "Sew on the buttons."],
    [rows, "Stuff firmly."],
    [front("yarn needle"), "Stuff it with scraps of yarn."],
    [`${front("yarn needle")}\nBell (make 2)\n${rows}`, "Sew the bells to the front."],
  ])("is silent: %s%s", (before, sentence) =>
    expect(foundBy("unlisted-notion", before + sentence)).toEqual([]),
  );
});
