import { describe, expect, test } from "vitest";
import { type TextEdit, withEdits } from "../../server/src/text/span";
import { asMeantEdit } from "../../server/src/workspace/as-meant";
import { Checker } from "../../server/src/workspace/checker";
import type { Finding } from "../../server/src/workspace/report";

function findingsOf(text: string): readonly Finding[] {
  return new Checker().check(text).findings;
}

/** The rules that report something, with the words they report it under. */
function reported(text: string): string[] {
  return findingsOf(text).map(({ rule, span }) => `${rule}: ${text.slice(span.start, span.end)}`);
}

const ring = "Rnd 1: 6 sc in mr (6)";
const slip = "Rnd 2: inc x6 (13)";

describe("a remark answers the queries it names", () => {
  test.each([
    ["at the end of the row", `${ring}\n${slip} [as meant: wrong-count]`],
    ["before the count", `${ring}\nRnd 2: inc x6 [as meant: wrong-count] (13)`],
    ["on the line above", `${ring}\n[as meant: wrong-count]\n${slip}`],
    ["with a blank line between", `${ring}\n[as meant: wrong-count]\n\n${slip}`],
    ["in other letters", `${ring}\n${slip} [As meant: Wrong-Count]`],
    ["without a colon", `${ring}\n${slip} [as meant wrong-count]`],
    ["on the first line of a row of two", `${ring}\nRnd 2: inc x3, [as meant: wrong-count]\ninc x3 (13)`],
    ["on the last line of a row of two", `${ring}\nRnd 2: inc x3,\ninc x3 (13) [as meant: wrong-count]`],
    ["in a row that another row follows on the same line", `${ring} ${slip} [as meant: wrong-count]`],
  ])("%s", (_, text) => {
    expect(reported(text)).toEqual([]);
  });

  test.each([
    ["a line with a title", "Hook: 5 mm (I-9) [as meant: hook-mismatch]"],
    ["a line of a list", "Materials\n5 mm (I-9) hook [as meant: hook-mismatch]\n50 g cotton"],
    ["the line above it", "Materials\n[as meant: hook-mismatch]\n5 mm (I-9) hook"],
    [
      "an entry of a list",
      "Abbreviations\nsc - single crochet\nhdc - half double crochet [as meant: unused-abbreviation]\ninc - increase",
    ],
  ])("in the front matter: %s", (_, front) => {
    expect(reported(`${front}\n\n${ring}\nRnd 2: inc x6 (12)`)).toEqual([]);
  });

  test("and no others", () => {
    expect(reported(`${ring}\n${slip} [as meant: does-not-fit]`)).toEqual([
      "wrong-count: (13)",
      "idle-remark: does-not-fit",
    ]);
  });

  test("several at once", () => {
    const text = `${ring}\n${slip} [as meant: wrong-count, does-not-fit]`;
    expect(reported(text)).toEqual(["idle-remark: does-not-fit"]);
  });

  test("in its own row only", () => {
    const text = `${ring}\n${slip} [as meant: wrong-count]\nRnd 3: (sc, inc) x6 (19)`;
    expect(reported(text)).toEqual(["wrong-count: (19)"]);
  });

  test("alone on its line, of the next line, though rows follow the remark above", () => {
    const text = `${ring}\n[as meant: wrong-count]\n[as meant: does-not-fit]\n${slip}`;
    expect(reported(text)).toEqual(["idle-remark: does-not-fit"]);
  });
});

describe("a remark changes nothing else", () => {
  test("the row is read as if it were not there", () => {
    const plain = new Checker().check(`${ring}\nRnd 2: inc x6 (12)`);
    const remarked = new Checker().check(`${ring} [as meant: ambiguous]\nRnd 2: inc x6 (12)`);
    const rowsOf = ({ pieces }: typeof plain) =>
      pieces.flatMap(({ rows }) => rows.map(({ needs, makes, result }) => ({ needs, makes, result })));
    expect(rowsOf(remarked)).toEqual(rowsOf(plain));
  });

  test("a repeat in brackets is a repeat still", () => {
    expect(reported(`${ring}\nRnd 2: [inc] 6 times [12]`)).toEqual([]);
    expect(reported(`${ring}\nRnd 2: [inc 6 times`)).not.toContain("idle-remark");
  });
});

describe("a remark that answers nothing gets a note", () => {
  function only(text: string): Finding {
    const [finding, ...others] = findingsOf(text).filter(({ rule }) => rule === "idle-remark");
    expect(others).toEqual([]);
    return finding as Finding;
  }

  test("a mistyped name: with the likeliest one, and the change to it", () => {
    const text = `${ring}\n${slip} [as meant: wrong-cuont]`;
    const { message, severity, fixes } = only(text);
    expect(severity).toBe("information");
    expect(message).toBe(
      '"wrong-cuont" is the name of no query, so the remark answers nothing. Did you mean "wrong-count"?',
    );
    expect(reported(withEdits(text, fixes[0]?.edits() as TextEdit[]))).toEqual([]);
  });

  test("a name like no other: where names are found", () => {
    const { message, fixes } = only(`${ring}\n${slip} [as meant: sea shanty]`.replace("sea ", "sea-"));
    expect(message).toContain("The name stands behind each query in the list of problems.");
    expect(fixes).toEqual([]);
  });

  test("no name at all", () => {
    expect(only(`${ring} [as meant]`).message).toBe(
      'This remark names no query. Write the name of the query it answers: "[as meant: wrong-count]".',
    );
  });

  test("a name that is not needed: it is taken out, the others stay", () => {
    const text = `${ring}\n${slip} [as meant: ambiguous, wrong-count]`;
    const { message, fixes } = only(text);
    expect(message).toBe('Nothing is wrong here by the name of "ambiguous", so the remark can go.');
    expect(withEdits(text, fixes[0]?.edits() as TextEdit[])).toBe(`${ring}\n${slip} [as meant: wrong-count]`);
  });

  test("a remark that is not needed goes with the blank before it", () => {
    const text = `${ring} [as meant: ambiguous]\nRnd 2: inc x6 (12)`;
    expect(withEdits(text, only(text).fixes[0]?.edits() as TextEdit[])).toBe(`${ring}\nRnd 2: inc x6 (12)`);
  });
});

describe("the change that answers a query", () => {
  test.each([
    ["at the end of its row", `${ring}\n${slip}`, `${ring}\n${slip} [as meant: wrong-count]`],
    ["before blanks at the end", `${ring}\n${slip}  \n`, `${ring}\n${slip} [as meant: wrong-count]  \n`],
    [
      "in a row of two lines",
      `${ring}\nRnd 2: inc x3,\ninc x3 (13)`,
      `${ring}\nRnd 2: inc x3,\ninc x3 (13) [as meant: wrong-count]`,
    ],
    [
      "in a remark that is there",
      `${ring}\n${slip} [as meant: ambiguous]`,
      `${ring}\n${slip} [as meant: ambiguous, wrong-count]`,
    ],
    [
      "in one that stands above",
      `${ring}\n[as meant: ambiguous]\n${slip}`,
      `${ring}\n[as meant: ambiguous, wrong-count]\n${slip}`,
    ],
    ["in an empty one", `${ring}\n${slip} [as meant]`, `${ring}\n${slip} [as meant wrong-count]`],
    [
      "in a row that another follows on the same line",
      `${ring} ${slip} Rnd 3: (sc, inc) x6 (18)`,
      `${ring} ${slip} [as meant: wrong-count] Rnd 3: (sc, inc) x6 (18)`,
    ],
  ])("stands %s, and it is answered", (_, text, expected) => {
    const report = new Checker().check(text);
    const finding = report.findings.find(({ rule }) => rule === "wrong-count") as Finding;
    const changed = withEdits(text, [asMeantEdit(text, report, finding)]);
    expect(changed).toBe(expected);
    expect(reported(changed)).not.toContainEqual(expect.stringContaining("wrong-count: ("));
  });
});
