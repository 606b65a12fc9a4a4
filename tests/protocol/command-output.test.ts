import { describe, expect, test } from "vitest";
import { STANDARD_INPUT } from "../../server/src/cli/report-shape";
import { fakeChecker } from "./fake-checker";
import { runInProcess } from "./in-process-command";
import { checkedReport } from "./report-schema";

/** Checks one text from standard input, with a checker made for tests. */
const checkText = (text: string, ...options: string[]) =>
  runInProcess(["check", ...options, STANDARD_INPUT], text, fakeChecker);

describe("text for people", () => {
  test("lists rows that are not well, then findings, then queries for a mail", async () => {
    const pattern = "Rnd 1: fine (6)\nRnd 2: misfit (12)\nRnd 3: odd (12)\nRnd 4: maybe\nRnd 5: maybe, hm\n";
    const { out, err, status } = await checkText(pattern);
    expect(out).toMatchInlineSnapshot(`
      "(standard input)
        Body
          line  row    needs  has  makes  says
             2  Rnd 2      6    7     12    12  does not fit
             3  Rnd 3      -    -      -    12  not checked: an invented reason
        Assuming (Body, Rnd 4, Rnd 5): the ch 1 is no st
        4 rows checked, 1 not checked, 2 queries.
      (standard input):2:8: error: about "misfit"
      (standard input):1:1: note: the first row
      (standard input):3:8: note: about "odd"
      (standard input):1:1: note: the first row
      (standard input):5:15: warning: about "hm"
      (standard input):1:1: note: the first row

      Queries
      1. Body, Rnd 2, line 2: about "misfit" To mend it: write 7, or: take 1 st out.
      2. Body, Rnd 5, line 5: about "hm"
      "
    `);
    expect(err).toBe("");
    expect(status).toBe(1);
  });

  test("keeps what steers a terminal, or turns a line round, away from it", async () => {
    const { out } = await checkText("Rnd 1: odd\u001b[31m\u202e\u0007 (6)");
    expect(out).toContain("note: about");
    for (const steering of ["\u001b", "\u202e", "\u0007"]) expect(out).not.toContain(steering);
  });

  test("is all that a warning changes: the status stays 0", async () => {
    const { out, status } = await checkText("Rnd 1: hm (6)");
    expect(out).toContain("1 query");
    expect(status).toBe(0);
  });
});

describe("JSON for programs", () => {
  test("has lines and columns from 1, in UTF-16 units", async () => {
    const { out } = await checkText("Rnd 1: fine (6)\r\nRnd 2: 🧶 misfit (12)", "--format", "json");
    expect(checkedReport(out)).toEqual({
      version: 1,
      files: [
        {
          file: "-",
          terms: "US",
          sizes: ["one size"],
          pieces: [{ name: "Body", make: 1, line: 1, rows: [expect.anything(), expect.anything()] }],
          findings: [
            {
              rule: "does-not-fit",
              severity: "error",
              line: 2,
              column: 11,
              endLine: 2,
              endColumn: 17,
              message: 'about "misfit"',
              fixes: ["write 7", "take 1 st out"],
              related: [{ line: 1, column: 1, endLine: 1, endColumn: 2, message: "the first row" }],
            },
          ],
        },
      ],
      unreadable: [],
    });
    expect(checkedReport(out).files[0]?.pieces[0]?.rows[1]).toEqual({
      kind: "row",
      head: "Rnd 2",
      line: 2,
      column: 1,
      endLine: 2,
      endColumn: 22,
      times: [1],
      needs: [6],
      has: [7],
      makes: [12],
      stated: [12],
      made: { sc: [12] },
      statedKinds: null,
      result: "does-not-fit",
      assumptions: [],
      readings: [],
      reason: null,
      yarnMetres: null,
    });
  });

  test("names a file on which checking failed, with the fault", async () => {
    const { out, err, status } = await checkText("Rnd 1: crash", "--format", "json");
    expect(checkedReport(out)).toMatchObject({
      files: [],
      unreadable: [{ file: "-", reason: expect.stringContaining("invented fault") }],
    });
    expect(err).toContain("fault in Loopledger");
    expect(status).toBe(2);
  });
});
