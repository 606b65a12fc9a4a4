import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { repeatHelpAt } from "../../server/src/features/repeat-help/repeat-help";
import { toPlainText } from "../../server/src/features/shown/plain-text";
import { Checker } from "../../server/src/workspace/checker";
import { marked, outdented } from "./marked-pattern";

function helpAt(pattern: string): { part: string | undefined; says: string[] } | null {
  const { worked, offset } = marked(outdented(pattern));
  const help = repeatHelpAt(worked, offset);
  if (!help) return null;
  const { start = 0, end = 0 } = help.parts[help.active] ?? {};
  return { part: help.label.slice(start, end), says: toPlainText(help.blocks).trim().split(/\n+/) };
}

const upToRnd3 = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)\n";

// The numbers are arithmetic: sc is worked into one stitch and makes one, inc into one and makes two.
test.each<[string, string]>([
  ["a repeat that is worked", "Rnd 4: (2 sc, in$0c) x6 (24)"],
  ["one told by an asterisk", "Rnd 4: *2 sc, in$0c; rep from * 5 more times (24)"],
])("%s", (_, row) => {
  expect(helpAt(upToRnd3 + row)).toEqual({
    part: "inc",
    says: [
      "Each time it uses 3 sts and makes 4.",
      "Worked 6 times.",
      "Of the 18 stitches of Rnd 3, 18 are used by its end: 0 left.",
    ],
  });
});

test.each<[string, string]>([
  ["not closed", "Rnd 4: (2 sc, inc$0"],
  ["closed by the editor", "Rnd 4: (2 sc, inc$0)"],
  ["told by an asterisk", "Rnd 4: *2 sc, inc$0"],
  ["with a comma behind", "Rnd 4: (2 sc, inc,$0"],
])("a repeat that is being written, %s, is tried", (_, row) => {
  expect(helpAt(upToRnd3 + row)).toEqual({
    part: "inc",
    says: [
      "Each time it uses 3 sts and makes 4.",
      "As a repeat it fits 6 times.",
      "Of the 18 stitches of Rnd 3, 18 are used by its end: 0 left.",
    ],
  });
});

test("what does not go evenly is left, and so is what stands before", () => {
  expect(helpAt(`${upToRnd3}Rnd 4: 4 sc, (3 sc, inc$0`)?.says).toEqual([
    "Each time it uses 4 sts and makes 5.",
    "As a repeat it fits 3 times.",
    "Of the 18 stitches of Rnd 3, 16 are used by its end: 2 left.",
  ]);
});

test("half a word is not counted yet", () => {
  expect(helpAt(`${upToRnd3}Rnd 4: (2 sc, in$0)`)).toEqual({
    part: "in",
    says: [
      "Each time it uses 2 sts and makes 2.",
      "As a repeat it fits 9 times.",
      "Of the 18 stitches of Rnd 3, 18 are used by its end: 0 left.",
    ],
  });
});

test("a row that needs more than there is says so", () => {
  expect(helpAt(`${upToRnd3}Rnd 4: (2 sc, in$0c) x7 (28)`)?.says).toEqual([
    "Each time it uses 3 sts and makes 4.",
    "Worked 7 times.",
    "21 used by its end; Rnd 3 has 18.",
  ]);
});

test("each size has its own numbers", () => {
  const sizes = "Sizes: S (M)\nRnd 1: 6 (8) sc in mr (6 (8))\nRnd 2: (sc, in$0c) x3 (4) (9 (12))";
  expect(helpAt(sizes)?.says).toEqual([
    "Each time it uses 2 sts and makes 3.",
    "Worked 3 (4) times.",
    "Of the 6 (8) stitches of Rnd 1, 6 (8) are used by its end: 0 left.",
  ]);
});

test.each<[string, string]>([
  ["outside every repeat", "Rnd 4: 2 s$0c, (2 sc, inc) x5"],
  ["behind a bracket that has nothing in it yet", "Rnd 4: ($0"],
  ["in a count", "Rnd 4: (2 sc, inc) x6 (2$04)"],
  ["in what is worked into one place", "Rnd 4: (sc, ch 1, s$0c) in next st"],
  ["with a word that nobody knows", "Rnd 4: (2 sc, blurb, $0"],
  ["with nothing but half a word", "Rnd 4: (s$0"],
  ["in prose", "Stuff (fir$0mly"],
])("%s, nothing is told", (_, row) => {
  expect(helpAt(upToRnd3 + row)).toBeNull();
});

const samples = new URL("../../samples/", import.meta.url);

test.each(readdirSync(samples))(
  "%s: wherever the caret is, what is used and what is left are all there is",
  (name) => {
    const text = readFileSync(new URL(name, samples), "utf8");
    const { worked } = new Checker().work(text);
    let told = 0;
    for (let offset = 0; offset <= text.length; offset += 3) {
      const help = repeatHelpAt(worked, offset);
      const says = help ? toPlainText(help.blocks) : "";
      const [, has, used, left] =
        /Of the (\d+) [a-z ]+ of [^,]*, (\d+) are used by its end: (\d+) left/.exec(says) ?? [];
      if (has === undefined) continue;
      told++;
      expect(Number(used) + Number(left), says).toBe(Number(has));
    }
    expect(told).toBeGreaterThan(0);
  },
);
