import { describe, expect, test } from "vitest";
import { actionsAt, actionsOnAll } from "../../server/src/features/actions/all-actions";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";
import { Prover } from "../../server/src/workspace/prover";
import { mutantsOf } from "../mutants/numbers";
import { correctsTheSlip, offersAtFindings, offersIn, sceneOf } from "../mutants/promises";
import { readCases } from "../spec/case-file";

/** The actions on the line marked with `|`, which is taken out of the text. */
function offered(marked: string) {
  const start = marked.indexOf("|");
  return actionsAt(sceneOf(marked.replace("|", "")), { start, end: start });
}

function titles(marked: string): string[] {
  return offered(marked).map(({ title }) => title);
}

/** The text once the action of some title was chosen. */
function chosen(marked: string, title: string): string {
  const action = offered(marked).find((one) => one.title === title);
  if (!action) throw new Error(`"${title}" is not offered, but ${titles(marked).join(", ")}`);
  return withEdits(marked.replace("|", ""), action.edits());
}

const ring = "Rnd 1: 6 sc in mr (6)\n";

const cases = readCases();
/** Patterns with a number that is off by one. `npm run mutants -- fixes` tries them all, and those of the samples. */
const faults = cases
  .filter(({ text }) => new Checker().check(text).findings.length === 0)
  .flatMap(({ name, text }) => mutantsOf(name, text));
const everyNth = (stride: number) => faults.filter((_, index) => index % stride === 0);

describe("whatever is offered mends what it says, brings nothing new and is not offered again", () => {
  test("in all cases of the specification", () => {
    const offers = cases.flatMap(({ name, text }) => offersIn(text).map((offer) => ({ name, ...offer })));
    expect(offers.length).toBeGreaterThan(60);
    const broken = offers.filter((offer) => offer.broken !== null);
    expect(broken.map(({ name, action, broken }) => `${name}: ${action.title}: ${broken}`)).toEqual([]);
  });

  test("in patterns with a number that is off by one", () => {
    const offers = everyNth(37).flatMap(({ file, shown, text }) =>
      offersAtFindings(text).map((offer) => ({ name: `${file}: ${shown}`, ...offer })),
    );
    expect(offers.length).toBeGreaterThan(150);
    const broken = offers.filter((offer) => offer.broken !== null);
    expect(broken.map(({ name, action, broken }) => `${name}: ${action.title}: ${broken}`)).toEqual([]);
  });
});

describe("the judge of offers", () => {
  const promise = (title: string, edits: readonly { start: number; end: number; newText: string }[]) => {
    const scene = sceneOf(`${ring}Rnd 2: inc x6 (13)\nRnd 3: (sc, inc) x6 (18)`);
    const list = edits.map(({ start, end, newText }) => ({ span: { start, end }, newText }));
    return new Prover(scene.text, scene.findings, (text) => new Checker().check(text)).proves(
      list,
      title === "nothing" ? [] : scene.findings,
    );
  };
  const count = ring.length + "Rnd 2: inc x6 (".length;

  test("takes what mends", () => {
    expect(promise("mends", [{ start: count, end: count + 2, newText: "12" }])).toBe(true);
  });

  test("refuses what leaves the finding, what brings another, and what does nothing", () => {
    expect(promise("leaves it", [{ start: count, end: count + 2, newText: "14" }])).toBe(false);
    const times = ring.length + "Rnd 2: inc x".length;
    expect(promise("another", [{ start: times, end: times + 1, newText: "7" }])).toBe(false);
    expect(promise("does nothing", [{ start: count, end: count + 2, newText: "13" }])).toBe(false);
    const next = "Rnd 3: (sc, inc) x".length + count + "13)\n".length;
    expect(promise("nothing", [{ start: next, end: next + 1, newText: "5" }])).toBe(false);
  });

  test("tries no more than it may", () => {
    const scene = sceneOf(`${ring}Rnd 2: inc x6 (13)`);
    const [finding] = scene.findings;
    if (!finding) throw new Error("There is a finding to mend.");
    const check = (text: string) => new Checker().check(text);
    expect(new Prover(scene.text, scene.findings, check, 1).fixesOf(finding)).toHaveLength(1);
    expect(new Prover(scene.text, scene.findings, check, 0).fixesOf(finding)).toEqual([]);
  });
});

describe("at a finding", () => {
  test("the likeliest way is marked, and only that", () => {
    const actions = offered("Rnd 1: fsc 36, join (36)\n|Rnd 2: [(2 sc, inc) x2, 4 sc] x3 (42)");
    expect(actions.map(({ title, preferred }) => [title, preferred])).toEqual([
      ['Change "2 sc" to "3 sc"', true],
      ['Change "4 sc" to "6 sc"', false],
      ['Leave it as it is: add "[as meant: does-not-fit]"', false],
    ]);
  });

  test("of two answers to a question neither is marked", () => {
    const actions = offered(
      "Ch 4, join to form ring.\n|Rnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 times, join.",
    );
    expect(actions.map(({ title }) => title).slice(0, 2)).toEqual([
      'Write "4 more times"',
      'Write "5 more times"',
    ]);
    expect(actions.filter(({ preferred }) => preferred)).toEqual([]);
  });

  test("anywhere on its line, and on no other", () => {
    const text = `${ring}Rnd 2: inc x6 (13)\nRnd 3: (sc, inc) x6 (18)`;
    expect(titles(text.replace("Rnd 2", "|Rnd 2"))).toContain("Change the count to 12");
    expect(titles(text.replace("(13)", "(13)|"))).toContain("Change the count to 12");
    expect(titles(text.replace("Rnd 3", "|Rnd 3"))).toEqual([]);
    expect(titles(`|${text}`)).toEqual([]);
  });

  test("a count that the next row was not written for is not offered", () => {
    const text = "|Rnd 1: 7 sc in mr (6)\nRnd 2: inc x6 (12)";
    expect(titles(text)).toEqual([
      'Change "7 sc in mr" to "6 sc in mr"',
      'Leave it as it is: add "[as meant: wrong-count]"',
    ]);
  });

  test("each is linked to what it mends", () => {
    const actions = offered(`${ring}|Rnd 2: inc x6 (13)`);
    for (const { mends } of actions) expect(mends.map(({ rule }) => rule)).toEqual(["wrong-count"]);
  });

  test("a word of the designer answers it", () => {
    const title = 'Leave it as it is: add "[as meant: wrong-count]"';
    expect(chosen(`${ring}|Rnd 2: inc x6 (13)`, title)).toBe(
      `${ring}Rnd 2: inc x6 (13) [as meant: wrong-count]`,
    );
  });
});

describe("a word in the notes settles it for all rows", () => {
  const hdc = "|Row 1: Ch 22, hdc in 3rd ch from hook and in each ch across.";
  const counts = `Say it once in the notes: "Ch 2 counts as a stitch."`;

  test("before the first row, where there are no notes", () => {
    expect(chosen(hdc, counts)).toBe(`Ch 2 counts as a stitch.\n\n${hdc.slice(1)}`);
  });

  test("before the heading of the first piece", () => {
    expect(chosen(`Mat\r\n\r\nBody\r\n${hdc}`, counts)).toBe(
      `Mat\r\n\r\nCh 2 counts as a stitch.\r\n\r\nBody\r\n${hdc.slice(1)}`,
    );
  });

  test("at the end of the notes, else behind the terms", () => {
    const notes = "Mat\n\nNotes\nKeep it loose.\n\nTerms: US\n\nBody\n";
    expect(chosen(`${notes}${hdc}`, counts)).toContain("Keep it loose.\nCh 2 counts as a stitch.\n\nTerms");
    expect(chosen(`Mat\n\nTerms: US\nLevel: easy\n\nBody\n${hdc}`, counts)).toContain(
      "Level: easy\nCh 2 counts as a stitch.\n\nBody",
    );
  });

  test("either way, and neither is marked as the likelier", () => {
    const ring = "Ch 4, join to form ring.\n|Rnd 1: Ch 1, *2 dc in ring, ch 1; rep from * 5 times, join.";
    const said = offered(ring).filter(({ title }) => title.startsWith("Say it once"));
    expect(said.map(({ title, preferred }) => [title, preferred])).toEqual([
      [`Say it once in the notes: "'Repeat 5 times' means 5 times in all."`, false],
      [`Say it once in the notes: "'Repeat 5 times' means 5 more times."`, false],
    ]);
  });
});

describe("a word that nobody explains", () => {
  test("is begun to be explained with the numbers that its row bears out", () => {
    const text =
      "Special Stitches\nShell = 5 dc in same st\n\nMat\nRnd 1: 6 sc in mr (6)\n|Rnd 2: lotus x6 (18)";
    expect(chosen(text, 'Begin to explain "lotus": worked over 1 st, counts as 3 sts')).toContain(
      "Shell = 5 dc in same st\nlotus = worked over 1 st, counts as 3 sts\n\nMat",
    );
  });

  test("is left alone where nothing bears out a number", () => {
    const begun = (text: string) => titles(text).filter((title) => title.startsWith("Begin"));
    expect(begun(`${ring}|Rnd 2: lotus x6`)).toEqual([]);
    expect(begun(`${ring}|Rnd 2: lotus and tulip x6 (18)`)).toEqual([]);
    expect(begun(`${ring}|Rnd 2: lotus x6 (1)`)).toEqual([]);
  });
});

describe("a row that gives no count", () => {
  const rows = "Rnd 1: 6 sc in mr. (6 sc)\nRnd 2: inc x6.\nRnd 3: sc around.\nRnd 4: (sc, inc) x6. (18 sc)";

  test("is given it as the pattern writes its counts, alone or with the others of its piece", () => {
    const text = rows.replace("Rnd 3", "|Rnd 3");
    const one = "Add the count (12 sc)";
    const all = "Add the count to all 2 rows of the piece that give none";
    expect(titles(text)).toEqual([one, all]);
    expect(chosen(text, one)).toBe(rows.replace("sc around.", "sc around. (12 sc)"));
    expect(chosen(text, all)).toBe(
      rows.replace("inc x6.", "inc x6. (12 sc)").replace("sc around.", "sc around. (12 sc)"),
    );
  });

  test("is left alone where it has one, or where its stitches are not known", () => {
    expect(titles(`|${rows}`)).toEqual([]);
    expect(
      titles("Rnd 1: 6 sc in mr (6)\n|Rnd 2: lotus around").filter((title) => title.startsWith("Add")),
    ).toEqual([]);
  });
});

describe("alike slips are mended together", () => {
  const rows =
    "Rnd 1: 6 sc in mr (7)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (19)\nRnd 4: sc in each st (18)";

  test("all at once", () => {
    expect(chosen(`|${rows}`, "Mend all 2 like this: change the count")).toBe(
      rows.replace("(7)", "(6)").replace("(19)", "(18)"),
    );
  });

  test("without those for which that is not proved", () => {
    const odd = `${rows}\n\nBase\nRnd 1: 7 sc in mr (6)\nRnd 2: inc x6 (12)`;
    expect(titles(`|${odd}`)).toContain("Mend all 2 like this: change the count");
  });

  test("one alone is not", () => {
    expect(titles(`${ring}|Rnd 2: inc x6 (13)`).filter((title) => title.startsWith("Mend all"))).toEqual([]);
  });
});

describe("what may be mended without a look at it", () => {
  test("is the slip itself and nothing else, in patterns with a number that is off by one", () => {
    const safe = everyNth(11).flatMap((mutant) =>
      actionsOnAll(sceneOf(mutant.text)).map((action) => ({ mutant, action })),
    );
    expect(safe.length).toBeGreaterThan(10);
    const wrong = safe.filter(({ mutant, action }) => !correctsTheSlip(action, mutant));
    expect(wrong.map(({ mutant }) => `${mutant.file}: ${mutant.shown}`)).toEqual([]);
  });

  const mended = (text: string) => {
    const [all] = actionsOnAll(sceneOf(text));
    return all ? withEdits(text, all.edits()) : text;
  };

  test("is a count that the rows around it speak against", () => {
    const text = `${ring}Rnd 2: inc x6 (13)\nRnd 3: (sc, inc) x6 (18)`;
    expect(mended(text)).toBe(text.replace("(13)", "(12)"));
  });

  test.each([
    ["the last row", `${ring}Rnd 2: inc x6 (13)`],
    ["a row whose next one states no count", `${ring}Rnd 2: inc x6 (13)\nRnd 3: sc in each st`],
    ["a row with another way to mend it", "Rnd 1: 7 sc in mr (6)\nRnd 2: inc x6 (12)"],
    ["a row that does not fit", `${ring}Rnd 2: inc x5 (12)\nRnd 3: (sc, inc) x6 (18)`],
  ])("is not %s", (_, text) => {
    expect(mended(text)).toBe(text);
  });
});
