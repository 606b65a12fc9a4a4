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

const others = ["", "\n", "\n\nA line above all.\n\n", "Tassel\nRnd 1: 6 sc in mr (6)\nFasten off.\n\n"];

describe("a checker that is kept tells of every rule's example what a new one tells, wherever it moves", () => {
  test.each(allRules.map(({ id, documentation }) => [id, exampleOf(documentation)]))("%s", (_, text) => {
    const kept = new Checker();
    for (const above of [...others, ...others.toReversed()])
      for (const whole of [above + text, `${above}${text}\n${text}`, above + text])
        expect(told(whole, kept)).toBe(told(whole, new Checker()));
  });
});
