import { describe, expect, test } from "vitest";
import { allRules } from "../../server/src/rules/all-rules";
import { headings, sectionOf } from "../../server/src/rules/documentation";
import { Checker } from "../../server/src/workspace/checker";

/** The pattern under a heading of a rule's documentation. */
function patternUnder(heading: (typeof headings)[number], documentation: string): string {
  const pattern = /```crochet\n([\s\S]*?)```/.exec(sectionOf(documentation, heading))?.[1];
  if (pattern === undefined) throw new Error(`no pattern under "${heading}"`);
  return pattern;
}

describe.each(allRules.map((rule) => [rule.id, rule] as const))(
  "%s",
  (id, { documentation, severity, startsOff }) => {
    test("has its headings in their order, each with text", () => {
      const sections = documentation.split(/^## /m).slice(1);
      expect(sections.map((section) => section.split("\n")[0])).toEqual(headings);
      for (const section of sections) expect(section.split("\n").slice(1).join("").trim()).not.toBe("");
    });

    test("the example has this finding and no other", () => {
      const { findings: loud, quietFindings = [] } = new Checker().check(
        patternUnder("Example", documentation),
      );
      const findings = startsOff ? [...loud, ...quietFindings] : loud;
      expect(findings.map(({ rule, severity }) => ({ rule, severity }))).toEqual([{ rule: id, severity }]);
    });

    test("the mended example is right", () => {
      const { findings, pieces, quietFindings } = new Checker().check(patternUnder("Mended", documentation));
      expect(findings).toEqual([]);
      if (startsOff) expect(quietFindings).toEqual([]);
      for (const { result } of pieces.flatMap(({ rows }) => rows)) expect(result).toBe("ok");
    });
  },
);
