import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import type { Finding, PatternReport } from "../../server/src/workspace/report";
import { rowsOf } from "./compare";

const folder = new URL("../../samples/", import.meta.url);
const draft = "first-draft.crochet";
const samples = readdirSync(folder).filter((file) => file.endsWith(".crochet"));

/** The slips of the first draft, in order: the head of the row and what is wrong with it. */
const slips: readonly { readonly head: string; readonly result: string; readonly slip: string }[] = [
  { head: "Tower > Rnd 3", result: "does-not-fit", slip: "x5 where twelve places take six groups" },
  { head: "Tower > Rnd 5", result: "wrong-count", slip: "the 0 of (30) was not typed" },
  { head: "Tower > Rnd 20", result: "does-not-fit", slip: "inc for dec" },
  { head: "Gallery > Row 1", result: "does-not-fit", slip: "the chain is one too long" },
  { head: "Rock > Row 3", result: "does-not-fit", slip: "the plain stretch is one too long" },
  { head: "Wave > Row 2", result: "does-not-fit", slip: "the top of the turning chain is forgotten" },
];
/** Rows of samples that are not ok although nothing is wrong with them. Empty. */
const notOk: readonly { readonly row: string; readonly reason: string }[] = [];

function reportOf(file: string): PatternReport {
  return new Checker().check(readFileSync(new URL(file, folder), "utf8"));
}

function isLoud({ severity }: Finding): boolean {
  return severity === "error" || severity === "warning";
}

describe.each(samples.filter((file) => file !== draft))("%s", (file) => {
  test("reads clean", () => {
    const loud = reportOf(file).findings.filter(isLoud);
    expect(loud.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([]);
  });

  test("every row is ok", () => {
    const rows = rowsOf(reportOf(file));
    expect(rows.length).toBe(rowLines(file));
    const wrong = rows.filter(({ row }) => row.result !== "ok");
    const shown = wrong.map(({ piece, row }) => `${piece} > ${row.head}: ${row.result} ${row.reason ?? ""}`);
    expect(shown).toEqual(notOk.map(({ row }) => row));
  });
});

describe(draft, () => {
  test("has an error on each slip and nowhere else", () => {
    const report = reportOf(draft);
    const errors = report.findings.filter(({ severity }) => severity === "error");
    const heads = errors.map(({ span }) => {
      const hit = rowsOf(report).find(
        ({ row }) => row.span.start <= span.start && span.start <= row.span.end,
      );
      return hit ? `${hit.piece} > ${hit.row.head}` : "no row";
    });
    expect([...new Set(heads)]).toEqual(slips.map(({ head }) => head));
  });

  test("the rows without a slip are ok, the others are judged by what is wrong with them", () => {
    const rows = rowsOf(reportOf(draft));
    expect(rows.length).toBe(rowLines(draft));
    const wrong = rows.filter(({ row }) => row.result !== "ok");
    const shown = wrong.map(({ piece, row }) => ({ head: `${piece} > ${row.head}`, result: row.result }));
    expect(shown).toEqual(slips.map(({ head, result }) => ({ head, result })));
  });
});

/** How many lines look like a row to someone leafing through: a check on rows lost without a word. */
function rowLines(file: string): number {
  const lines = readFileSync(new URL(file, folder), "utf8").split("\n");
  const head = /^(R(nd|nds|ow|ows|ound|ounds)? ?\d[^:]*:|\d+(st|nd|rd|th) row:|(Next|Last) rnd:|Rep last)/;
  return lines.filter((line) => head.test(line)).length;
}
