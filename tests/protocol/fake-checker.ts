import { readPattern } from "../../server/src/fabric/pattern";
import { Versions } from "../../server/src/fabric/versions";
import type { Checked, Checker } from "../../server/src/workspace/checker";
import type { Finding, MeasuredRow, PatternReport } from "../../server/src/workspace/report";

type FakeChecker = Pick<Checker, "check" | "work">;

/**
 * A checker for tests of the plumbing, that knows no crochet. Every line that starts with `Rnd` is a row;
 * a number in brackets is its stated count. `misfit`, `odd` and `hm` on a line are findings of
 * three rules; `crash` makes checking throw.
 */
export function fakeChecker(): FakeChecker {
  return { check: reportOf, work: checkedOf };
}

/** Counts the texts that are checked. */
export function countingChecker(checked: string[]): () => FakeChecker {
  return () => ({
    check: reportOf,
    work(text) {
      checked.push(text);
      return checkedOf(text);
    },
  });
}

function checkedOf(text: string): Checked {
  return {
    report: reportOf(text),
    worked: { ...readPattern(text), pieces: [], copies: () => new Versions() },
  };
}

const RULES = [
  { word: /\bmisfit\b/, rule: "does-not-fit", severity: "error" },
  { word: /\bodd\S*/, rule: "not-understood", severity: "information" },
  { word: /\bhm\b/, rule: "ambiguous", severity: "warning" },
] as const;

function reportOf(text: string): PatternReport {
  if (text.includes("crash")) throw new Error("invented fault");
  const rows: MeasuredRow[] = [];
  const findings: Finding[] = [];
  for (const line of text.matchAll(/[^\r\n]+/g)) {
    const head = /^Rnd \d+/.exec(line[0])?.[0];
    if (head) rows.push(rowOf(head, line[0], line.index));
    findings.push(...findingsOf(line[0], line.index));
  }
  const span = { start: 0, end: text.length };
  const pieces = rows.length > 0 ? [{ name: "Body", make: 1, span, rows }] : [];
  return { terms: "US", sizes: ["one size"], pieces, findings };
}

function rowOf(head: string, line: string, start: number): MeasuredRow {
  const count = /\((\d+)\)/.exec(line)?.[1];
  const isOdd = /\bodd/.test(line);
  return {
    kind: "row",
    head,
    span: { start, end: start + line.length },
    times: [1],
    needs: isOdd ? null : [6],
    has: isOdd ? null : [7],
    makes: isOdd ? null : [12],
    stated: count === undefined ? null : [Number(count)],
    made: isOdd ? {} : { sc: [12] },
    statedKinds: null,
    result: isOdd ? "unchecked" : line.includes("misfit") ? "does-not-fit" : "ok",
    assumptions: line.includes("maybe") ? ["the ch 1 is no st"] : [],
    readings: [],
    reason: isOdd ? "an invented reason" : null,
    yarnMetres: null,
  };
}

function findingsOf(line: string, start: number): Finding[] {
  return RULES.flatMap(({ word, rule, severity }) => {
    const found = word.exec(line);
    if (!found) return [];
    const span = { start: start + found.index, end: start + found.index + found[0].length };
    const related = [{ span: { start: 0, end: 1 }, message: "the first row" }];
    const fixes =
      rule === "does-not-fit" ? [replacing("write 7", span, "7"), replacing("take 1 st out", span, "")] : [];
    return [{ rule, severity, span, message: `about "${found[0]}"`, fixes, related }];
  });
}

function replacing(title: string, span: Finding["span"], newText: string): Finding["fixes"][number] {
  return { title, edits: () => [{ span, newText }] };
}
