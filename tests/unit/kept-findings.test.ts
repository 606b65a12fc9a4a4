import { describe, expect, test } from "vitest";
import { allRules } from "../../server/src/rules/all-rules";
import { sectionOf } from "../../server/src/rules/documentation";
import { Checker } from "../../server/src/workspace/checker";

/** The example of a rule, in which it finds something. */
function exampleOf(documentation: string): string {
  return /```crochet\n([\s\S]*?)```/.exec(sectionOf(documentation, "Example"))?.[1] as string;
}

function told(text: string, checker: Checker): string {
  return JSON.stringify(
    checker
      .check(text)
      .findings.map(({ rule, severity, span, message, related, fixes }) => [
        ...[rule, severity, span, message, related],
        fixes.map(({ title, kind, edits }) => [title, kind, edits()]),
      ]),
  );
}

test("what is assumed of a row is told once, also where a habit of the pattern came and went", () => {
  const before = `UK terms
BACK
Make 12 ch.
1st row: 1tr into 4th ch from hook, 1tr into each ch to end, turn. 10 tr (first 3ch counts as 1tr).
2nd row: 3ch, miss first tr, 1tr into each tr to end, working last tr into top of turning ch, turn.
COLLAR
Round 1: 8 htr into magic ring; ss to join. (8)
Round 2: 1ch (never counts as a st), 2 htr in each st; join. (16)
Round 3: 1ch, 1 htr in each st; join. (16)
`;
  const kept = new Checker();
  for (const text of [before, before.replace("Round 3: 1ch", "Round 3: 1cch"), before]) {
    const [now, fresh] = [kept, new Checker()].map((checker) =>
      checker.check(text).pieces.flatMap(({ rows }) => rows.map(({ assumptions }) => assumptions)),
    );
    expect(now).toEqual(fresh);
    for (const all of fresh ?? []) expect(new Set(all).size).toBe(all.length);
  }
});

const others = ["", "\n", "\n\nA line above all.\n\n", "Tassel\nRnd 1: 6 sc in mr (6)\nFasten off.\n\n"];

describe("a checker that is kept tells of every rule's example what a new one tells, wherever it moves", () => {
  test.each(allRules.map(({ id, documentation }) => [id, exampleOf(documentation)]))("%s", (_, text) => {
    const kept = new Checker();
    for (const above of [...others, ...others.toReversed()])
      for (const whole of [above + text, `${above}${text}\n${text}`, above + text])
        expect(told(whole, kept)).toBe(told(whole, new Checker()));
  });
});
