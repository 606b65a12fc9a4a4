import { afterAll, describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import type { PatternReport, RowReport } from "../../server/src/workspace/report";
import { casesOf, readCases, type SpecCase } from "./case-file";
import { compareRows, compareWhole, type PlacedRow, type RowOutcome, rowsOf } from "./compare";

/** Cases that are known to differ, each with the reason. Empty: nothing is excused. */
const knownDifferences: readonly { readonly name: string; readonly reason: string }[] = [];
/** Rows that are ok by the table although the checker cannot check them. Empty. */
const uncheckedThoughOk: readonly { readonly row: string; readonly reason: string }[] = [];

interface Outcome {
  readonly spec: SpecCase;
  readonly got: readonly PlacedRow[];
  readonly rows: readonly RowOutcome[];
  readonly whole: readonly string[];
}

const cases = readCases();
const outcomes = cases.map(outcomeOf);
const topics = [...new Set(cases.map(({ topic }) => topic))];

/** A checker that throws is one more difference: the other cases must still be told. */
function outcomeOf(spec: SpecCase): Outcome {
  const [report, failure] = reportOf(spec.text);
  const whole = compareWhole(spec, report);
  return { spec, got: rowsOf(report), rows: compareRows(spec, report), whole: [...failure, ...whole] };
}

function reportOf(text: string): readonly [PatternReport, readonly string[]] {
  try {
    return [new Checker().check(text), []];
  } catch (error) {
    return [{ terms: "US", sizes: [], pieces: [], findings: [] }, [`the checker threw: ${String(error)}`]];
  }
}

function differencesOf({ rows, whole }: Outcome): readonly string[] {
  const cells = rows.flatMap(({ head, differences }) => differences.map((text) => `${head} | ${text}`));
  return [...cells, ...whole];
}

for (const topic of topics) {
  describe(topic, () => {
    const list = outcomes.filter(({ spec }) => spec.topic === topic);
    test.each(list.map((outcome) => [outcome.spec.name, outcome] as const))("%s", (name, outcome) => {
      const differences = differencesOf(outcome);
      const known = knownDifferences.some((difference) => difference.name === name);
      if (known) expect(differences, "no longer differs: take it off the list").not.toEqual([]);
      else expect(differences, `\n${outcome.spec.text}`).toEqual([]);
    });
  });
}

describe("over all cases", () => {
  const rowPairs = outcomes.flatMap(({ spec, got }) =>
    spec.rows.map((expected, index) => ({
      name: `${spec.name} > ${expected.head}`,
      expected,
      got: got[index]?.row,
    })),
  );
  const ok = rowPairs.filter(({ expected }) => expected.verdict === "ok");

  test("at most one ok row in ten rests on an assumption", () => {
    const assumed = ok.filter(({ got }) => (got?.assumptions.length ?? 0) > 0);
    expect(assumed.length / ok.length, assumed.map(({ name }) => name).join("\n")).toBeLessThanOrEqual(0.1);
  });

  test("no ok row goes unchecked", () => {
    const unchecked = ok
      .filter(({ got }) => got === undefined || got.result === "unchecked")
      .map(({ name }) => name);
    expect(unchecked).toEqual(uncheckedThoughOk.map(({ row }) => row));
  });

  test("no case name is used twice", () => {
    const names = cases.map(({ topic, name }) => `${topic} > ${name}`);
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([]);
  });
});

describe("the comparison itself", () => {
  const wrong = casesOf("own", caseText("| Rnd 1 | 3 | 4 | 99 | - | wrong-count |"))[0];

  test("reports every cell that differs", () => {
    if (!wrong) throw new Error("the case was not read");
    const row = { kind: "row", head: "Rnd 2", needs: [3], has: [4], makes: [6], stated: null } as const;
    const rest = {
      span: { start: 0, end: 20 },
      times: [1],
      made: {},
      statedKinds: null,
      assumptions: [],
      readings: [],
    };
    const piece = {
      name: "",
      make: 1,
      span: rest.span,
      rows: [{ ...row, ...rest, result: "ok", reason: null, yarnMetres: null } as const],
    };
    const report = { terms: "US", sizes: ["one size"], pieces: [piece], findings: [] } as const;
    expect(compareRows(wrong, report)[0]?.differences).toEqual([
      "head: expected Rnd 1, got Rnd 2",
      "makes: expected 99, got 6",
      "verdict: expected wrong-count, got ok",
    ]);
    expect(compareWhole(wrong, report)).toEqual(["no error reported at Rnd 1"]);
  });

  const report = (row: Partial<RowReport>): PatternReport => {
    const span = { start: 0, end: 20 };
    const rest = {
      span,
      times: [1],
      stated: null,
      statedKinds: null,
      assumptions: [],
      readings: [],
      reason: null,
      yarnMetres: null,
    };
    const numbers = { needs: [4], has: [4], makes: [12], made: {}, result: "ok" } as const;
    const rows = [{ kind: "row", head: "Rnd 1", ...rest, ...numbers, ...row } as const];
    return { terms: "US", sizes: ["one size"], pieces: [{ name: "", make: 1, span, rows }], findings: [] };
  };
  const compared = (line: string, row: Partial<RowReport>): readonly string[] => {
    const [spec] = casesOf("own", caseText(line));
    return spec ? (compareRows(spec, report(row))[0]?.differences ?? []) : ["the case was not read"];
  };

  test("spaces are compared apart and left out of the sum", () => {
    const line = "| Rnd 1 | 4 | 4 | 12 dc + 4 ch-2 sp | 12 dc + 4 ch-2 sp | ok |";
    const kinds = { dc: [12], "ch-2 sp": [4] };
    expect(compared(line, { made: kinds, stated: [12], statedKinds: kinds })).toEqual([]);
    const fewer = { dc: [12], "ch-2 sp": [3] };
    expect(compared(line, { made: fewer, stated: [12], statedKinds: kinds })).toEqual([
      "makes: expected 12 dc + 4 ch-2 sp, got 12 dc + 3 ch-2 sp",
    ]);
  });

  test("sizes are compared one by one", () => {
    const line = "| Rnd 1 | -/4 | -/4 | -/12 | - | ok |";
    expect(compared(line, { needs: [null, 4], has: [null, 4], makes: [null, 12] })).toEqual([]);
    expect(compared(line, { needs: [4, 4], has: [null, 4], makes: [null, 12] })).toEqual([
      "needs: expected -/4, got 4/4",
    ]);
  });

  test("every reading of an ambiguous row must be there, and no other", () => {
    const line = "| Rnd 1 | 4 | 4 | 18 or 24 | - | ambiguous |";
    const reading = (makes: number) => ({ needs: [4], makes: [makes], made: {}, assumption: "" });
    expect(compared(line, { result: "ambiguous", readings: [reading(24), reading(18)] })).toEqual([]);
    expect(compared(line, { result: "ambiguous", readings: [reading(24)] })).toEqual([
      "makes: expected 18 or 24, got readings 24 {}",
    ]);
  });

  test("a malformed table is refused", () => {
    expect(() => casesOf("own", caseText("| Rnd 1 | 3 | 4 |"))).toThrow("filled cells");
  });
});

function caseText(line: string): string {
  const table = "| head | needs | has | makes | stated | verdict |\n|---|---|---|---|---|---|";
  return `### a-case\n\nWhy.\n\n\`\`\`crochet\nRnd 1: 6 sc in ring\n\`\`\`\n\n${table}\n${line}\n`;
}

afterAll(() => {
  const good = outcomes.filter((outcome) => differencesOf(outcome).length === 0);
  const rows = outcomes.flatMap((outcome) => outcome.rows);
  const agreeing = rows.filter(({ differences }) => differences.length === 0);
  console.log(`${good.length} of ${outcomes.length} cases, ${agreeing.length} of ${rows.length} rows agree`);
});
