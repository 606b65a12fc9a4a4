import { describe, expect, test } from "vitest";
import { PatternReader, readPattern } from "../../server/src/fabric/pattern";
import { Fabric, type WorkedPiece, type WorkedRow } from "../../server/src/fabric/worked";
import { type Mend, mendsOf } from "../../server/src/rules/mends";
import { Checker } from "../../server/src/workspace/checker";
import type { RowReport } from "../../server/src/workspace/report";
import { readCases } from "../spec/case-file";

interface Found {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
  readonly mends: readonly Mend[];
}

function wrongRows(text: string): Found[] {
  const pieces = new Fabric().work(readPattern(text));
  return pieces.flatMap((piece) =>
    piece.rows
      .filter(({ result }) => result === "does-not-fit" || result === "wrong-count")
      .map((row) => {
        const { instructions, count } = mendsOf(row, piece);
        return { row, piece, mends: count ? [...instructions, count] : instructions };
      }),
  );
}

/** The whole pattern with one mend made. */
function mended(text: string, { row }: Found, { edits }: Mend): string {
  const placed = edits.map(({ line, span, newText }) => {
    const from = line === "row" ? row.line.start : (row.below?.start ?? Number.NaN);
    return { start: from + span.start, end: from + span.end, newText };
  });
  return placed
    .sort((a, b) => b.start - a.start)
    .reduce((now, edit) => now.slice(0, edit.start) + edit.newText + now.slice(edit.end), text);
}

function rowsOf(text: string): readonly RowReport[] {
  return new Checker().check(text).pieces.flatMap((piece) => piece.rows);
}

/** What became of the row once the text was changed: it is the same one in order, whatever its words are. */
function resultIn(after: string, before: string, { row }: Found): string | undefined {
  const at = rowsOf(before).findIndex(({ span }) => span.start === row.line.span.start);
  return rowsOf(after)[at]?.result;
}

/** The titles offered for the only wrong row of a pattern. */
function titles(text: string): string[] {
  const [only, ...others] = wrongRows(text);
  expect(others).toEqual([]);
  return only?.mends.map(({ title }) => title) ?? [];
}

describe("every mend is proved in the whole pattern", () => {
  const all = readCases().flatMap((spec) =>
    wrongRows(spec.text).flatMap((found) =>
      found.mends.map((mend) => [`${spec.name} > ${mend.title}`, spec.text, found, mend] as const),
    ),
  );

  test("there are mends to prove", () => expect(all.length).toBeGreaterThan(15));

  test.each(all)("%s", (_, text, found, mend) => {
    const after = mended(text, found, mend);
    expect(after).not.toBe(text);
    expect(resultIn(after, text, found), after).toBe("ok");
  });
});

describe("what is offered", () => {
  test("another number of times", () => {
    expect(titles("R1: fsc 18, join (18)\nR2: (4 sc, dec) x6 (15)")).toEqual(['Change "x6" to "x3"']);
    expect(titles("Rnd 1: fsc 30, join (30)\nRnd 2: [4 sc, inc] 5 times (36)")).toEqual([
      'Change "5 times" to "6 times"',
    ]);
    expect(titles("Rnd 1: fsc 24, join (24)\nRnd 2: *2 sc, inc; rep from * twice more. (32)")).toEqual([]);
    expect(titles("Rnd 1: fsc 12, join (12)\nRnd 2: *2 sc, inc; rep from * twice more. (16)")).toEqual([
      'Change "twice more" to "3 more times"',
    ]);
  });

  test("another number in a group within a group", () => {
    const text = "Rnd 1: fsc 36, join (36)\nRnd 2: [(2 sc, inc) x2, 4 sc] x3 (42)";
    expect(titles(text)).toEqual(['Change "2 sc" to "3 sc"', 'Change "4 sc" to "6 sc"']);
  });

  test("another length of a plain run", () => {
    const row = "Row 2: Ch 1, turn, 2 sc in first st, sc in next 19, 2 sc in last st. (22)";
    const text = `Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\n${row}`;
    expect(titles(text)).toEqual(['Change "sc in next 19" to "sc in next 18"']);
  });

  test("only the number of the size that is wrong", () => {
    const first =
      "Sizes S (M, L)\nCh 41 (45, 49).\nRow 1: Sc in 2nd ch from hook and in each ch across. 40 (44, 48) sc.";
    const row = "Row 2: Ch 1, turn, sc in next 40 (45, 48) sts. 40 (44, 48) sc.";
    expect(titles(`${first}\n${row}`)).toEqual([
      'Change "sc in next 40 (45, 48) sts" to "sc in next 40 (44, 48) sts"',
    ]);
  });

  test("dec for inc, and inc for dec", () => {
    expect(titles("Rnd 1: fsc 24, join (24)\nRnd 2: (2 sc, inc) x6 (18)")).toEqual(['Change "inc" to "dec"']);
    expect(titles("Rnd 1: fsc 18, join (18)\nRnd 2: (2 sc, Dec) x6 (24)")).toEqual(['Change "Dec" to "Inc"']);
  });

  test("a starting chain one shorter or longer, in all sizes", () => {
    const row = "Row 1: Sc in 2nd ch from hook, sc in each of next 29 ch. (30)";
    expect(titles(`Ch 32.\n${row}`)).toEqual(["Change the starting chain to ch 31"]);
    expect(titles(`Ch 30.\n${row}`)).toEqual(["Change the starting chain to ch 31"]);
    const sized = "Row 1: Sc in 2nd ch from hook and in next 39 (43, 47) ch. 40 (44, 48) sc.";
    expect(titles(`Sizes S (M, L)\nCh 42 (46, 50).\n${sized}`)).toEqual([
      "Change the starting chain to ch 41/45/49",
    ]);
  });

  test("a starting chain whose count is another, where the row goes to its end", () => {
    const rows =
      "Row 1: Sc in 2nd ch from hook and in each ch across. (17)\nRow 2: Ch 1, turn, sc in next 17 sts. (17)";
    expect(titles(`Ch 19.\n${rows}`)).toEqual([
      "Change the starting chain to ch 18",
      "Change the count to 18",
    ]);
  });

  test("the chain that a stitch is usually begun in", () => {
    const text = "Ch 23.\nRow 1: Dc in 5th ch from hook and in each ch across. (21 dc)";
    expect(titles(text)).toContain('Change "5th ch" to "4th ch"');
    expect(titles("Ch 18.\nRow 1: Sc in 1st ch from hook and in each ch across. (17)")).toContain(
      'Change "1st ch" to "2nd ch"',
    );
  });

  test("another number of stitches worked together, in one place or in all alike", () => {
    const row = "Rnd 2: *sc in next 2, sc3tog; rep from * 5 more times. (18)";
    expect(titles(`Rnd 1: fsc 24, join (24)\n${row}`)).toContain('Change "sc3tog" to "sc2tog"');
    const ends = "Row 2: Ch 1, turn, sc3tog, sc in next 12, sc3tog. (14)";
    expect(titles(`Ch 17.\nRow 1: Sc in 2nd ch from hook and in each ch across. (16)\n${ends}`)).toContain(
      'Change "sc3tog" to "sc2tog"',
    );
  });

  test("in a range of rows that are all alike", () => {
    expect(titles("Rnd 1: fsc 36, join (36)\nRnds 2-4: 35 sc (36)")).toContain('Change "35 sc" to "36 sc"');
    const growing = "Rnd 1: fsc 12, join (12)\nRnds 2-3: inc, sc in next 12 (14)";
    expect(titles(growing)).toEqual([]);
  });

  test("the count of a size where another size does not work the row", () => {
    const rows =
      "Sizes S (M, L)\nRnd 1: fsc 8 (8, 16), join. 8 (8, 16) sts.\nRnd 2: [sc in next 7, inc] - (1, 2) times. - (9, 19) sts.";
    expect(titles(rows)).toContain("Change the count to - (9, 18) sts");
  });

  test("another length of the spaces in a count", () => {
    const rows = "Rnd 1: fsc 12, join (12)\nRnd 2: *sc in next 2 sts, ch 2, sk next st; rep from * around.";
    expect(titles(`${rows} (8 sc, 4 ch-3 sps)`)).toContain("Change the count to 8 sc, 4 ch-2 sps");
  });

  test("another number that is one more, where the row is right with it", () => {
    expect(titles("Rnd 1: Fsc 23, join. (24)")).toContain('Change "Fsc 23" to "Fsc 24"');
  });

  test("the count, of one kind, of several and of each size", () => {
    expect(titles("Rnd 1: fsc 36, join (36)\nRnd 2: (5 sc, inc) x6 (24)")).toEqual([
      "Change the count to 42",
    ]);
    const spaces =
      "Rnd 1: fsc 12, join (12)\nRnd 2: *sc in next 2 sts, ch 2, sk next st; rep from * around. (9 sc, 4 ch-2 sps)";
    expect(titles(spaces)).toContain("Change the count to 8 sc, 4 ch-2 sps");
    const sized =
      "Sizes S (M)\nRnd 1: fsc 36 (42), join. 36 (42) sts.\nRnd 2: *5 sc, inc; rep from * around. 42 (48) sts.";
    expect(titles(sized)).toEqual(["Change the count to 42 (49) sts"]);
  });

  test("nothing where no small change fits", () => {
    const text =
      "Rnd 1: fsc 30, join. (30)\nRnd 2: *Sc in next 4 sts, 2 sc in next st; rep from * 4 more times, sc in next 6 sts. (36)";
    expect(titles(text)).toEqual([]);
  });

  test("nothing that another number of times would make up for in the count", () => {
    // Nor is anything left unworked in a round.
    expect(titles("Rnd 1: fsc 42, join (42)\nRnd 2: (Sc in next 5 sts, sc2tog) 5 times. (30)")).toEqual([]);
  });

  test("nothing for a row that is right", () => {
    const [piece] = new Fabric().work(readPattern("Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)"));
    for (const row of piece?.rows ?? [])
      expect(mendsOf(row, piece as WorkedPiece)).toEqual({ instructions: [], count: null });
  });

  test("is not worked out again after an edit elsewhere", () => {
    const reader = new PatternReader();
    const rows = "Rnd 1: fsc 24, join (24)\nRnd 2: (2 sc, inc) x6 (18)";
    const [before, after] = [rows, `A gift stall.\n\n${rows}`].map((text) => {
      const [piece] = new Fabric().work(reader.read(text)) as [WorkedPiece];
      return mendsOf(piece.rows.at(-1) as WorkedRow, piece);
    });
    expect(before?.instructions).toHaveLength(1);
    expect(after).toBe(before);
  });
});
