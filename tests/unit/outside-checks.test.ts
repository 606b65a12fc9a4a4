import { describe, expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import type { RowReport, RowResult } from "../../server/src/workspace/report";

/*
 * Facts from outside the project, put as small patterns. The numbers are published (the source stands
 * with each check) or common facts of the trade; the wording of the rows is ours. Every check has a twin
 * in which one number is changed: its row must not be ok.
 */

const commonPractice = "common practice, no source";

/** A row as it must be reported; `null` where a ring or nothing lies below. */
type Row = readonly [
  head: string,
  needs: number | null,
  has: number | null,
  makes: number | null,
  result?: RowResult,
];

interface Check {
  readonly name: string;
  readonly source: string;
  readonly lines: readonly string[];
  readonly rows: readonly Row[];
  /** One number, with enough text around it to be found once, and what stands in its place in the twin. */
  readonly twin: readonly [found: string, changed: string];
  /** The row that the twin spoils (or, of a published mistake, the row that it mends). */
  readonly spoils: string;
}

function rowsOf(text: string): readonly RowReport[] {
  const report = new Checker().check(text);
  return report.pieces.flatMap((piece) => piece.rows).filter((row) => row.kind === "row");
}

function summary(row: RowReport): Row {
  return [row.head, only(row.needs), only(row.has), only(row.makes), row.result];
}

function only(counts: RowReport["needs"]): number | null {
  return counts?.[0] ?? null;
}

function textOf(check: Check): string {
  return `${check.lines.join("\n")}\n`;
}

function twinOf(check: Check): string {
  const [found, changed] = check.twin;
  const parts = textOf(check).split(found);
  expect(parts, `"${found}" stands once in the text`).toHaveLength(2);
  return parts.join(changed);
}

/** Each published sequence: the pattern is as told, and its twin is not ok. */
function holds(checks: readonly Check[]): void {
  describe.each(checks)("$name ($source)", (check) => {
    test("the rows are as told", () => {
      const expected = check.rows.map(([head, needs, has, makes, result = "ok"]) => [
        head,
        needs,
        has,
        makes,
        result,
      ]);
      expect(rowsOf(textOf(check)).map(summary)).toEqual(expected);
    });

    test(`${check.twin[1]} in place of ${check.twin[0]} is not ok`, () => {
      const spoilt = rowsOf(twinOf(check)).find((row) => row.head === check.spoils);
      expect(spoilt).toBeDefined();
      expect(spoilt?.result).not.toBe("ok");
    });
  });
}

/** A published mistake: the row is reported as told, and right once the number is mended. */
function fails(checks: readonly Check[]): void {
  describe.each(checks)("$name ($source)", (check) => {
    test("the mistake is found", () => {
      const expected = check.rows.map(([head, needs, has, makes, result = "ok"]) => [
        head,
        needs,
        has,
        makes,
        result,
      ]);
      expect(rowsOf(textOf(check)).map(summary)).toEqual(expected);
    });

    test(`${check.twin[1]} in place of ${check.twin[0]} mends it`, () => {
      const mended = rowsOf(twinOf(check)).find((row) => row.head === check.spoils);
      expect(mended?.result).toBe("ok");
    });
  });
}

/* Rounds of sc or hdc from a list of counts: each is worked evenly into the one before. */

function spiral(stitch: string, counts: readonly number[]): string[] {
  return counts.map((count, index) => {
    const before = counts[index - 1];
    const work = before === undefined ? `${count} ${stitch} in magic ring` : evenly(stitch, before, count);
    return `Rnd ${index + 1}: ${work}. (${count})`;
  });
}

function evenly(stitch: string, before: number, count: number): string {
  if (count === before) return `${stitch} in each st around`;
  const times = Math.abs(count - before);
  const used = before / times - (count > before ? 1 : 2);
  const shaping = count > before ? `2 ${stitch} in next st` : `${stitch}2tog`;
  const plain = used === 0 ? "" : `${plainly(stitch, used)}, `;
  return `(${plain}${shaping}) ${times} times`;
}

function plainly(stitch: string, places: number): string {
  return `${stitch} in next ${places === 1 ? "st" : `${places} sts`}`;
}

/** Rounds whose shapings stand side by side, for counts that do not divide. */
function unevenly(stitch: string, counts: readonly number[]): string[] {
  return counts.map((count, index) => {
    const before = counts[index - 1];
    if (before === undefined) return `Rnd 1: ${count} ${stitch} in magic ring. (${count})`;
    const times = Math.abs(count - before);
    const [shaping, used] = count > before ? [`2 ${stitch} in next st`, 1] : [`${stitch}2tog`, 2];
    const often = times === 1 ? "once" : `${times} times`;
    return `Rnd ${index + 1}: (${shaping}) ${often}, ${plainly(stitch, before - used * times)}. (${count})`;
  });
}

function roundsOf(counts: readonly number[]): Row[] {
  return counts.map((count, index) => {
    const before = counts[index - 1] ?? null;
    return [`Rnd ${index + 1}`, before, before, count];
  });
}

/** Joined rounds of dc that each add as many as the first has; the opening ch 3 is a dc. */
function dcCircle(counts: readonly number[]): string[] {
  const first = counts[0] ?? 0;
  return counts.map((count, index) => {
    const plain = index - 1;
    const opening = plain === 1 ? "" : `${plainly("dc", plain - 1)}, `;
    const work = [
      `${first - 1} dc in magic ring`,
      "dc in same st, 2 dc in each st around",
      `${opening}2 dc in next st, (${plainly("dc", plain)}, 2 dc in next st) ${first - 1} times`,
    ][Math.min(index, 2)];
    return `Rnd ${index + 1}: Ch 3 (counts as dc), ${work}, join with sl st in top of ch-3. (${count} dc)`;
  });
}

describe("flat circles", () => {
  const scCircle = [6, 12, 18, 24, 30, 36, 42, 48];
  const hdcCrown = [8, 16, 24, 32, 40, 48, 56, 64];
  const bagBase = [9, 18, 27, 36, 45, 45, 54, 54, 63, 63, 72];
  const crownSource = "portacraft.com.au/beanie-crochet-pattern";
  holds([
    {
      name: "sc circle of 6",
      source: "yarnpackinmama.com/post/increasing-in-the-round-flat-circle",
      lines: spiral("sc", scCircle),
      rows: roundsOf(scCircle),
      twin: ["(sc in next 3 sts, 2 sc in next st)", "(sc in next 4 sts, 2 sc in next st)"],
      spoils: "Rnd 5",
    },
    {
      name: "sc disc of a toy in super bulky yarn",
      source: "pattern sheet BRC0234-030779M",
      lines: spiral("sc", scCircle.slice(0, 7)),
      rows: roundsOf(scCircle.slice(0, 7)),
      twin: ["(42)", "(43)"],
      spoils: "Rnd 7",
    },
    {
      name: "increases in the middle of the group on every other round",
      source: "blog.lionbrand.com/2011/07/03/how-to-evenly-space-your-increasesdecreases",
      lines: [
        ...spiral("sc", [6, 12, 18, 24]),
        "Rnd 5: (Sc in next 2 sts, 2 sc in next st, sc in next st) 6 times. (30)",
      ],
      rows: roundsOf([6, 12, 18, 24, 30]),
      twin: ["(Sc in next 2 sts", "(Sc in next 3 sts"],
      spoils: "Rnd 5",
    },
    {
      name: "hdc crown of 8",
      source: crownSource,
      lines: spiral("hdc", hdcCrown),
      rows: roundsOf(hdcCrown),
      twin: [
        "(hdc in next 6 sts, 2 hdc in next st) 8 times",
        "(hdc in next 6 sts, 2 hdc in next st) 7 times",
      ],
      spoils: "Rnd 8",
    },
    {
      name: "hdc crown, size 4: 68",
      source: crownSource,
      lines: [...spiral("hdc", hdcCrown), "Rnd 9: (2 hdc in next st, hdc in next 15 sts) 4 times. (68)"],
      rows: roundsOf([...hdcCrown, 68]),
      twin: ["next 15 sts", "next 16 sts"],
      spoils: "Rnd 9",
    },
    {
      name: "hdc crown, size 6: 72",
      source: crownSource,
      lines: [...spiral("hdc", hdcCrown), "Rnd 9: (2 hdc in next st, hdc in next 7 sts) 8 times. (72)"],
      rows: roundsOf([...hdcCrown, 72]),
      twin: ["(72)", "(70)"],
      spoils: "Rnd 9",
    },
    {
      name: "hdc crown, size 8: 76",
      source: crownSource,
      lines: [
        ...spiral("hdc", [...hdcCrown, 72]),
        "Rnd 10: (2 hdc in next st, hdc in next 17 sts) 4 times. (76)",
      ],
      rows: roundsOf([...hdcCrown, 72, 76]),
      twin: ["next 17 sts) 4 times", "next 17 sts) 5 times"],
      spoils: "Rnd 10",
    },
    {
      name: "hdc crown, size 10: 78",
      source: crownSource,
      lines: [
        ...spiral("hdc", [...hdcCrown, 72]),
        "Rnd 10: (2 hdc in next st, hdc in next 11 sts) 6 times. (78)",
      ],
      rows: roundsOf([...hdcCrown, 72, 78]),
      twin: ["next 11 sts", "next 10 sts"],
      spoils: "Rnd 10",
    },
    {
      name: "hdc crown of nine rounds",
      source: "d60crochet.com/p/anytime-beanie.html",
      lines: spiral("hdc", [...hdcCrown, 72]),
      rows: roundsOf([...hdcCrown, 72]),
      twin: ["(72)", "(80)"],
      spoils: "Rnd 9",
    },
    {
      name: "bag base of 9 with even rounds between",
      source: "pattern sheet CAC0503-007249M",
      lines: spiral("sc", bagBase),
      rows: roundsOf(bagBase),
      twin: ["(72)", "(81)"],
      spoils: "Rnd 11",
    },
    {
      name: "dc baby hat",
      source: "lanahobby.blogspot.com/2012/02/how-to-crochet-baby-hat-beanie-free.html",
      lines: [
        ...dcCircle([12, 24, 36]),
        "Rnds 4-10: Ch 3 (counts as dc), dc in each st around, join with sl st in top of ch-3. (36 dc)",
      ],
      rows: [...roundsOf([12, 24, 36]), ["Rnds 4-10", 36, 36, 36]],
      twin: ["2 dc in next st) 11 times", "2 dc in next st) 12 times"],
      spoils: "Rnd 3",
    },
    {
      name: "dc centre of a round blanket",
      source: "pattern sheet BRC0502-031867M",
      lines: dcCircle([12, 24]),
      rows: roundsOf([12, 24]),
      twin: ["(24 dc)", "(23 dc)"],
      spoils: "Rnd 2",
    },
    {
      name: "dc hat of 11",
      source: "gist.github.com/jnf/cf1a5cee92b7c6c976a78b0e25d74626",
      lines: dcCircle([11, 22, 33, 44]),
      rows: roundsOf([11, 22, 33, 44]),
      twin: ["(44 dc)", "(43 dc)"],
      spoils: "Rnd 4",
    },
    {
      name: "dc hat of 13",
      source: "patternsforcrochet.co.uk/beanie-hat-usa.html",
      lines: dcCircle([13, 26, 39, 52, 65]),
      rows: roundsOf([13, 26, 39, 52, 65]),
      twin: ["(dc in next 3 sts", "(dc in next 4 sts"],
      spoils: "Rnd 5",
    },
    {
      name: "dc hat of 14",
      source: "patternsforcrochet.co.uk/adult-beanie-usa.html",
      lines: dcCircle([14, 28, 42, 56]),
      rows: roundsOf([14, 28, 42, 56]),
      twin: ["(dc in next 2 sts, 2 dc in next st) 13 times", "(dc in next 2 sts, 2 dc in next st) 14 times"],
      spoils: "Rnd 4",
    },
    {
      name: "8 in a ring and 8 more each round",
      source: commonPractice,
      lines: spiral("sc", [8, 16, 24, 32, 40, 48]),
      rows: roundsOf([8, 16, 24, 32, 40, 48]),
      twin: ["(40)", "(42)"],
      spoils: "Rnd 5",
    },
    {
      name: "6 in a ring and 3 more each round",
      source: commonPractice,
      lines: [
        "R1: 6 sc in mr (6)",
        "R2: (sc, inc) x3 (9)",
        "R3: (2 sc, inc) x3 (12)",
        "R4: (3 sc, inc) x3 (15)",
      ],
      rows: [
        ["R1", null, null, 6],
        ["R2", 6, 6, 9],
        ["R3", 9, 9, 12],
        ["R4", 12, 12, 15],
      ],
      twin: ["(3 sc, inc) x3", "(3 sc, inc) x4"],
      spoils: "R4",
    },
  ]);
});

describe("ovals", () => {
  const source = "offthehookcrochetdesign.com/post/crochet-an-oval";
  holds([
    {
      name: "14, 20, 26, 32 on 7 chains",
      source,
      lines: [
        "Ch 7.",
        "Rnd 1: Sc in 2nd ch from hook, sc in next 4 ch, 3 sc in last ch; working on opposite side of chain, sc in next 4 ch, 2 sc in last ch. (14)",
        "Rnd 2: 2 sc in next st, sc in next 4 sts, (2 sc in next st) 3 times, sc in next 4 sts, (2 sc in next st) twice. (20)",
        "Rnd 3: Sc in next st, 2 sc in next st, sc in next 4 sts, (sc in next st, 2 sc in next st) 3 times, sc in next 4 sts, (sc in next st, 2 sc in next st) twice. (26)",
        "Rnd 4: Sc in next 2 sts, 2 sc in next st, sc in next 4 sts, (sc in next 2 sts, 2 sc in next st) 3 times, sc in next 4 sts, (sc in next 2 sts, 2 sc in next st) twice. (32)",
      ],
      rows: [
        ["Rnd 1", 11, 11, 14],
        ["Rnd 2", 14, 14, 20],
        ["Rnd 3", 20, 20, 26],
        ["Rnd 4", 26, 26, 32],
      ],
      twin: ["Ch 7.", "Ch 8."],
      spoils: "Rnd 1",
    },
    {
      name: "the second round of the oval",
      source,
      lines: [
        "Ch 7.",
        "Rnd 1: Sc in 2nd ch from hook, sc in next 4 ch, 3 sc in last ch; working on opposite side of chain, sc in next 4 ch, 2 sc in last ch. (14)",
        "Rnd 2: 2 sc in next st, sc in next 4 sts, (2 sc in next st) 3 times, sc in next 4 sts, (2 sc in next st) twice. (20)",
      ],
      rows: [
        ["Rnd 1", 11, 11, 14],
        ["Rnd 2", 14, 14, 20],
      ],
      twin: ["3 times, sc in next 4 sts", "3 times, sc in next 5 sts"],
      spoils: "Rnd 2",
    },
  ]);
  fails([
    {
      name: "21 chains, 22 asked for",
      source: "a published lesson, archived 2007: crochet.about.com/library/weekly/aa100299.htm",
      lines: ["Ch 22.", "Row 1: Sc in 2nd ch from hook, sc in next 20 ch, 3 sc in last ch."],
      rows: [["Row 1", 22, 21, 24, "does-not-fit"]],
      twin: ["next 20 ch", "next 19 ch"],
      spoils: "Row 1",
    },
  ]);
});

/** A first row of sc, and a second that adds one in each repeat, so that the repeats can be counted. */
function multiple(name: string, source: string, chains: number, repeat: number, times: number): Check {
  const stitches = chains - 1;
  const edge = stitches - repeat * times;
  const last = edge === 1 ? "st" : `${edge} sts`;
  return {
    name,
    source,
    lines: [
      `Ch ${chains}.`,
      `Row 1: Sc in 2nd ch from hook and in each ch across. (${stitches})`,
      `Row 2: Ch 1, turn, *sc in next ${repeat - 1} sts, 2 sc in next st; rep from * to last ${last}, sc in last ${last}. (${stitches + times})`,
    ],
    rows: [
      ["Row 1", stitches, stitches, stitches],
      ["Row 2", stitches, stitches, stitches + times],
    ],
    twin: [`*sc in next ${repeat - 1} sts`, `*sc in next ${repeat} sts`],
    spoils: "Row 2",
  };
}

/** V-stitches between two edge dc. `before` chains are skipped behind the three that count as the first dc. */
function vStitches(source: string, chains: number, between: number, before: number, count: number): Check {
  const places = chains - 3 - before;
  const skipped = before === 1 ? "next ch" : `next ${before} ch`;
  return {
    name: `${count} V-sts on ${chains} chains`,
    source,
    lines: [
      "V-st: (dc, ch 1, dc) in same st.",
      `Ch ${chains}.`,
      `Row 1: V-st in ${before + 4}th ch from hook (skipped ch count as dc), *sk ${between} ch, V-st in next ch; rep from * to last ${before + 1} ch, sk ${skipped}, dc in last ch. (${count} V-sts, 2 dc)`,
    ],
    rows: [["Row 1", places, places, count + 2]],
    twin: [`Ch ${chains}.`, `Ch ${chains - 1}.`],
    spoils: "Row 1",
  };
}

/** A chain that carries one stitch more or less than it has chains. */
function start(
  name: string,
  source: string,
  chains: number,
  first: string,
  places: number,
  stitches: number,
): Check {
  return {
    name,
    source,
    lines: [`Ch ${chains}.`, `Row 1: ${first} and in each ch across. (${stitches})`],
    rows: [["Row 1", places, places, stitches]],
    twin: [`Ch ${chains}.`, `Ch ${chains + 1}.`],
    spoils: "Row 1",
  };
}

describe("multiples of the starting chain", () => {
  const sc = "Sc in 2nd ch from hook";
  holds([
    multiple("59 = 10 x 5 + 9", "pattern sheet BRC0125-027114M", 59, 10, 5),
    multiple("112 = 10 x 11 + 2, 111 sc", "pattern sheet CAC0502-029057M", 112, 10, 11),
    multiple("92 = 3 x 30 + 2", "pattern sheet CAC0126-035092M", 92, 3, 30),
    multiple("222 = 11 x 20 + 2, 20 repeats", "pattern sheet CAC0125-007012M", 222, 11, 20),
    vStitches("pattern sheet BRC0502-030110M: 3 n + 6", 117, 2, 2, 37),
    vStitches("pattern sheet BRC0502-029618M: 4 n + 5", 173, 3, 2, 42),
    vStitches("pattern sheet BRC0502-028564M: 3 n + 4, derived", 103, 2, 1, 33),
    start("105 sc on 106 chains", "pattern sheet BRC0502-035419M", 106, sc, 105, 105),
    start("25 sc on 26 chains", "pattern sheet CAC0502-030680M", 26, sc, 25, 25),
    start("166 sc on 167 chains", "pattern sheet CAC0502-007251M", 167, sc, 166, 166),
    start(
      "18 sc on 19 chains",
      "a baby cable scarf, joann.com/how-to-make-a-baby-cable-scarf",
      19,
      sc,
      18,
      18,
    ),
    {
      name: "55 = 4 x 12 + 7: 12 groups of 3 dc, 3 edge dc and the skipped ch 3",
      source: "pattern sheet CAC0135-001742M, multiple derived",
      lines: [
        "Ch 55.",
        "Row 1: Dc in 4th ch from hook (skipped ch count as dc), *ch 1, sk next ch, dc in next 3 ch; rep from * 11 more times, ch 1, sk next ch, dc in last 2 ch. (40 dc, 13 ch-1 sps)",
      ],
      rows: [["Row 1", 52, 52, 40]],
      twin: ["11 more times", "10 more times"],
      spoils: "Row 1",
    },
  ]);
});

describe("the length of the starting chain", () => {
  const booklet = "forum.knittinghelp.com/t/teaching-myself-crochet-basics-again/72046";
  const derived =
    "derived from the published turning chains, dummies.com/how-to/content/how-to-crochet-a-turning-chain.html";
  const memory = "from memory";
  const counted = (stitch: string, nth: string) =>
    `${stitch} in ${nth} ch from hook (skipped ch count as a stitch)`;
  const uncounted = (stitch: string, nth: string) =>
    `${stitch} in ${nth} ch from hook (skipped ch do not count as a stitch)`;
  holds([
    start("11 hdc on 12 chains, counted", booklet, 12, counted("Hdc", "3rd"), 10, 11),
    start("11 hdc on 13 chains, not counted", booklet, 13, uncounted("Hdc", "3rd"), 11, 11),
    start("11 dc on 14 chains, not counted", booklet, 14, uncounted("Dc", "4th"), 11, 11),
    start("11 tr on 15 chains, not counted", booklet, 15, uncounted("Tr", "5th"), 11, 11),
    start("11 dtr on 16 chains, not counted", booklet, 16, uncounted("Dtr", "6th"), 11, 11),
    start("20 sc: N + 1", derived, 21, "Sc in 2nd ch from hook", 20, 20),
    start("20 hdc, counted: N + 1", derived, 21, counted("Hdc", "3rd"), 19, 20),
    start("20 dc, counted: N + 2", derived, 22, counted("Dc", "4th"), 19, 20),
    start("20 tr, counted: N + 3", derived, 23, counted("Tr", "5th"), 19, 20),
    start("20 dtr, counted: N + 4", derived, 24, counted("Dtr", "6th"), 19, 20),
    start("20 hdc, low start: N + 1", memory, 21, uncounted("Hdc", "2nd"), 20, 20),
    start("20 dc, low start: N + 2", memory, 22, uncounted("Dc", "3rd"), 20, 20),
    start(
      "a chain of 5 worked back from the 2nd has 4 places",
      commonPractice,
      5,
      "Sc in 2nd ch from hook",
      4,
      4,
    ),
  ]);
});

/** Two rows of a stitch, nothing said about the turning chain: the usual rule must be taken. */
function silentRule(
  stitch: string,
  source: string,
  nth: string,
  chains: number,
  turning: string,
  work: string,
): Check {
  const skipped = Number.parseInt(nth, 10) - 1;
  const places = chains - skipped;
  const makes = skipped > 2 ? places + 1 : places;
  return {
    name: `${stitch}: ch ${turning} to turn`,
    source,
    lines: [
      `Ch ${chains}.`,
      `Row 1: ${stitch} in ${nth} ch from hook and in each ch across. (${makes})`,
      `Row 2: Ch ${turning}, turn, ${work}. (${makes})`,
    ],
    rows: [
      ["Row 1", places, places, makes],
      ["Row 2", makes, makes, makes],
    ],
    twin: [`${work}. (${makes})`, `${work}. (${makes + 1})`],
    spoils: "Row 2",
  };
}

describe("turning chains of which nothing is said", () => {
  const handbook = "dummies.com/how-to/content/how-to-crochet-a-turning-chain.html";
  const guild = "guild lesson of 1997, careyscraftycorner.tripod.com/id15_m.htm";
  holds([
    silentRule("Sc", `${handbook}; ${guild}`, "2nd", 17, "1", "sc in next 16 sts"),
    silentRule(
      "Dc",
      `${handbook}; ${guild}`,
      "4th",
      18,
      "3",
      "sk first st, dc in next 14 sts, dc in top of turning ch",
    ),
    silentRule(
      "Tr",
      `${handbook}; ${guild}`,
      "5th",
      19,
      "4",
      "sk first st, tr in next 14 sts, tr in top of turning ch",
    ),
    silentRule("Dtr", handbook, "6th", 20, "5", "sk first st, dtr in next 14 sts, dtr in top of turning ch"),
  ]);
});

/** Granny rounds: the corners are worked into corners, the sides into the spaces between groups. */
function grannyRound(round: number): string {
  const sides = round - 2;
  const side =
    sides === 0 ? "ch 1" : `(ch 1, 3 dc in next ch-1 sp) ${sides === 1 ? "once" : `${sides} times`}, ch 1`;
  return `Rnd ${round}: Sl st to corner sp, (ch 3, 2 dc, ch 2, 3 dc) in same sp, *${side}, (3 dc, ch 2, 3 dc) in next corner sp; rep from * twice more, ${side}, join. (${12 * round} dc, 4 corner sps, ${4 * (round - 1)} ch-1 sps)`;
}

describe("granny square", () => {
  const source =
    "cornflowerbluestudio.blogspot.com/2008/03/classic-granny-square-pattern.html: 4, 8, 12 groups; 12 n dc, 4 corners and 4 (n - 1) side spaces derived";
  const ring = "Ch 4, join with sl st to form ring.";
  const first =
    "Rnd 1: Ch 3 (counts as dc throughout), 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join. (12 dc, 4 corner sps)";
  const lines = [ring, first, ...[2, 3, 4, 5].map(grannyRound)];
  const rows: Row[] = [
    ["Rnd 1", null, null, 12],
    ["Rnd 2", 4, 4, 24],
    ["Rnd 3", 8, 8, 36],
    ["Rnd 4", 12, 12, 48],
    ["Rnd 5", 16, 16, 60],
  ];
  holds([
    { name: "dc of five rounds", source, lines, rows, twin: ["(48 dc", "(51 dc"], spoils: "Rnd 4" },
    { name: "corners", source, lines, rows, twin: ["(36 dc, 4 corner", "(36 dc, 5 corner"], spoils: "Rnd 3" },
    { name: "side spaces", source, lines, rows, twin: ["16 ch-1 sps", "20 ch-1 sps"], spoils: "Rnd 5" },
    {
      name: "the first ring",
      source,
      lines,
      rows,
      twin: ["(ch 2, 3 dc in ring) 3", "(ch 2, 3 dc in ring) 4"],
      spoils: "Rnd 1",
    },
  ]);

  test(`the spaces are listed apart (${source})`, () => {
    const made = rowsOf(`${lines.join("\n")}\n`).map((row) => row.made);
    expect(made[0]).toMatchObject({ dc: [12] });
    for (const [index, kinds] of made.entries()) {
      const round = index + 1;
      const spaces = Object.entries(kinds)
        .filter(([kind]) => kind !== "dc")
        .flatMap(([, count]) => count);
      const total = spaces.reduce((sum: number, count) => sum + (count ?? 0), 0);
      expect([round, total]).toEqual([round, 4 + 4 * (round - 1)]);
    }
    expect(made).toHaveLength(5);
  });
});

describe("filet", () => {
  const table = "jahodnett.tripod.com/id178.html";
  holds([
    {
      name: "44 open squares of ch 1 stand on 89",
      source: `bellaonline.com/articles/art30448.asp; ${table}: 2 n + 1`,
      lines: [
        "Row 1: Fsc 89. (89)",
        "Row 2: Ch 4 (counts as dc and ch 1), turn, sk first 2 sts, dc in next st, *ch 1, sk 1, dc in next st; rep from * across. (45 dc, 44 ch-1 sps)",
      ],
      rows: [
        ["Row 1", null, null, 89],
        ["Row 2", 89, 89, 45],
      ],
      twin: ["Fsc 89. (89)", "Fsc 90. (90)"],
      spoils: "Row 2",
    },
    {
      name: "9 open squares of ch 2 stand on 28",
      source: `bitsandbobstheblog.blogspot.com/2008/05/filet-crochet-dishcloth.html; ${table}: 3 n + 1`,
      lines: [
        "Row 1: Fsc 28. (28)",
        "Row 2: Ch 5 (counts as dc and ch 2), turn, sk first 3 sts, dc in next st, *ch 2, sk 2, dc in next st; rep from * across. (10 dc, 9 ch-2 sps)",
      ],
      rows: [
        ["Row 1", null, null, 28],
        ["Row 2", 28, 28, 10],
      ],
      twin: ["9 ch-2 sps", "10 ch-2 sps"],
      spoils: "Row 2",
    },
    {
      name: "9 squares, the first one open: 28 + 5 chains",
      source: `${table}; lavorettocreativo.com/come-leggere-gli-schemi-alluncinetto`,
      lines: [
        "Ch 33.",
        "Row 1: Dc in 9th ch from hook (skipped ch count as dc and ch 2), *ch 2, sk 2 ch, dc in next ch; rep from * across. (10 dc, 9 ch-2 sps)",
      ],
      rows: [["Row 1", 25, 25, 10]],
      twin: ["Ch 33.", "Ch 32."],
      spoils: "Row 1",
    },
    {
      name: "9 squares, the first one solid: 28 + 3 chains",
      source: table,
      lines: [
        "Ch 31.",
        "Row 1: Dc in 5th ch from hook (skipped ch count as dc), dc in each ch across. (28 dc)",
      ],
      rows: [["Row 1", 27, 27, 28]],
      twin: ["Ch 31.", "Ch 30."],
      spoils: "Row 1",
    },
    {
      name: "44 squares of ch 1, the first one open: 89 + 4 chains",
      source: table,
      lines: [
        "Ch 93.",
        "Row 1: Dc in 7th ch from hook (skipped ch count as dc and ch 1), *ch 1, sk 1 ch, dc in next ch; rep from * across. (45 dc, 44 ch-1 sps)",
      ],
      rows: [["Row 1", 87, 87, 45]],
      twin: ["(45 dc", "(44 dc"],
      spoils: "Row 1",
    },
  ]);
  fails([
    {
      name: "29 squares are not 90 stitches",
      source: "irunforchoc.blogspot.com/2009/07/do-and-re-do.html, by 3 n + 1 it is 88",
      lines: [
        "Row 1: Fsc 90.",
        "Row 2: Ch 5 (counts as dc and ch 2), turn, sk first 3 sts, dc in next st, *ch 2, sk 2, dc in next st; rep from * across. (30 dc, 29 ch-2 sps)",
      ],
      rows: [
        ["Row 1", null, null, 90],
        ["Row 2", 88, 90, 30, "does-not-fit"],
      ],
      twin: ["Fsc 90.", "Fsc 88."],
      spoils: "Row 2",
    },
  ]);
});

describe("corner to corner", () => {
  const source = "pattern sheet CAC0502-029059M; knotions.com/stitch-c2c-corner-to-corner";
  holds([
    {
      name: "the first block: ch 6, 3 dc from the 4th chain, the ch 3 beside them",
      source,
      lines: ["Row 1: Ch 6, dc in 4th ch from hook (skipped ch count as dc), dc in next 2 ch. (4 dc)"],
      rows: [["Row 1", 3, 3, 4]],
      twin: ["dc in next 2 ch", "dc in next 3 ch"],
      spoils: "Row 1",
    },
  ]);

  test(`rows that grow by a block raise no false alarm (${source})`, () => {
    const rows = rowsOf(
      [
        "Row 1: Ch 6, dc in 4th ch from hook, dc in next 2 ch, turn. (1 block)",
        "Row 2: Ch 6, dc in 4th ch from hook, dc in next 2 ch, sl st in ch-3 sp of next block, ch 3, 3 dc in same sp, turn. (2 blocks)",
        "Row 3: Ch 6, dc in 4th ch from hook, dc in next 2 ch, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep from * once more, turn. (3 blocks)",
        "",
      ].join("\n"),
    );
    expect(rows.map((row) => row.head)).toEqual(["Row 1", "Row 2", "Row 3"]);
    for (const row of rows) expect(["does-not-fit", "wrong-count"]).not.toContain(row.result);
  });
});

describe("ripples keep their count", () => {
  holds([
    {
      name: "repeat of 11: 3 tr in 1, skip 2, tr2tog at each end, on 68 chains",
      source: "pattern sheet PAC0125-002711M, multiple 11 n + 13 derived",
      lines: [
        "Ch 68.",
        "Row 1: Tr in 3rd ch from hook (skipped ch do not count as a stitch) and in each ch across. (66 tr)",
        "Row 2: Ch 3 (does not count as a stitch), turn, tr2tog, tr in next 3 sts, 3 tr in next st, *tr in next 4 sts, sk next 2 sts, tr in next 4 sts, 3 tr in next st; rep from * 4 more times, tr in next 3 sts, tr2tog. (66)",
      ],
      rows: [
        ["Row 1", 66, 66, 66],
        ["Row 2", 66, 66, 66],
      ],
      twin: ["sk next 2 sts", "sk next 3 sts"],
      spoils: "Row 2",
    },
    {
      name: "repeat of 17: 2 dc in each of 6, skip 1 six times, on 105 chains with 102 dc",
      source: "pattern sheet BRC0202-003788M, multiple 17 n + 20 derived",
      lines: [
        "Ch 105.",
        "Row 1: Dc in 4th ch from hook (skipped ch do not count as a stitch) and in each ch across. (102 dc)",
        "Row 2: Ch 3 (does not count as a stitch), turn, *2 dc in each of next 3 sts, (sk next st, dc in next st) 5 times, sk next st, 2 dc in each of next 3 sts; rep from * across. (102 dc)",
      ],
      rows: [
        ["Row 1", 102, 102, 102],
        ["Row 2", 102, 102, 102],
      ],
      twin: ["(sk next st, dc in next st) 5 times", "(sk next st, dc in next st) 6 times"],
      spoils: "Row 2",
    },
    {
      name: "row of 19: 5 dc in 1 twice, dc5tog once, dc3tog at each end, on 21 chains",
      source: "pattern sheet BRC0125-003704M",
      lines: [
        "Ch 21.",
        "Row 1: Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (19 dc)",
        "Row 2: Ch 2 (does not count as a stitch), turn, dc3tog, dc in next st, 5 dc in next st, dc in next 2 sts, dc5tog, dc in next 2 sts, 5 dc in next st, dc in next st, dc3tog. (19)",
      ],
      rows: [
        ["Row 1", 18, 18, 19],
        ["Row 2", 19, 19, 19],
      ],
      twin: ["dc5tog", "dc4tog"],
      spoils: "Row 2",
    },
  ]);
});

/** Stitches of round i of n by the sine law, with 6 in the first round. */
function sphere(rounds: number): number[] {
  const angle = Math.PI / (rounds + 1);
  return Array.from({ length: rounds }, (_, index) =>
    Math.round((6 * Math.sin(angle * (index + 1))) / Math.sin(angle)),
  );
}

describe("balls", () => {
  const law = "mspremiseconclusion.wordpress.com/2010/03/14/the-ideal-crochet-sphere";
  const published = [6, 12, 18, 24, 24, 24, 24, 18, 12];
  const ball = [6, 12, 18, 24, 30, 36, 36, 36, 36, 36, 36, 30, 24, 18, 12, 6];
  holds([
    {
      name: "a published ball of 24",
      source: "elrincondemaryjoe.blogspot.com/2015/01/como-leer-un-patron-de-ganchillo-o.html",
      lines: spiral("sc", published),
      rows: roundsOf(published),
      twin: ["(sc in next 2 sts, sc2tog) 6 times", "(sc in next 2 sts, sc2tog) 5 times"],
      spoils: "Rnd 8",
    },
    {
      name: "6 more up to 36, even rounds, 6 fewer",
      source: `${law}; tacomagic.wordpress.com/tag/math`,
      lines: spiral("sc", ball),
      rows: roundsOf(ball),
      twin: ["(sc in next 4 sts, sc2tog)", "(sc in next 3 sts, sc2tog)"],
      spoils: "Rnd 12",
    },
    {
      name: "a sphere of nine rounds by the sine law",
      source: `${law}, indexing derived`,
      lines: unevenly("sc", sphere(9)),
      rows: roundsOf([6, 11, 16, 18, 19, 18, 16, 11, 6]),
      twin: ["(19)", "(20)"],
      spoils: "Rnd 5",
    },
  ]);
});

describe("hyperbolic surfaces", () => {
  holds([
    {
      name: "an increase in every stitch: 6, 12, 24, 48, 96",
      source: "timaryart.blogspot.com/2009/03",
      lines: [
        "Rnd 1: 6 sc in magic ring. (6)",
        "Rnd 2: 2 sc in each st around. (12)",
        "Rnd 3: 2 sc in each st around. (24)",
        "Rnd 4: 2 sc in each st around. (48)",
        "Rnd 5: 2 sc in each st around. (96)",
      ],
      rows: roundsOf([6, 12, 24, 48, 96]),
      twin: ["(96)", "(98)"],
      spoils: "Rnd 5",
    },
  ]);
  fails([
    {
      name: "an increase in every 2nd stitch: 6, 9 and then 13.5, which is no round",
      source: "math.techqa.club/constructing-a-differential-equation-for-hyperbolic-crochet-535656",
      lines: [
        "Rnd 1: 6 sc in magic ring. (6)",
        "Rnd 2: *Sc in next st, 2 sc in next st; rep from * around. (9)",
        "Rnd 3: *Sc in next st, 2 sc in next st; rep from * around.",
      ],
      rows: [
        ["Rnd 1", null, null, 6],
        ["Rnd 2", 6, 6, 9],
        ["Rnd 3", 8, 9, 12, "does-not-fit"],
      ],
      twin: ["Rnd 3: *Sc in next st", "Rnd 3: *Sc in next 2 sts"],
      spoils: "Rnd 3",
    },
  ]);
});

describe("common facts of the trade", () => {
  holds([
    {
      name: "a round worked round the posts keeps the count, and its ch 1 is neither counted nor worked into",
      source: commonPractice,
      lines: [
        "Rnd 1: Ch 3 (counts as dc), 15 dc in magic ring, join with sl st in top of ch-3. (16)",
        "Rnd 2: Ch 1, *fpdc around next st, bpdc around next st; rep from * around, join with sl st in first st. (16)",
        "Rnd 3: Ch 1, *fpdc around next 2 sts, bpdc around next 2 sts; rep from * around, join with sl st in first st. (16)",
        "Rnd 4: Ch 1, sc in each st around, join with sl st in first st. (16 sc)",
      ],
      rows: roundsOf([16, 16, 16, 16]),
      twin: ["(16 sc)", "(17 sc)"],
      spoils: "Rnd 4",
    },
    {
      name: "16 eyelets over 48: ch 1, skip 1, hdc 2",
      source: commonPractice,
      lines: ["Rnd 1: Fhdc 48, join. (48)", "Rnd 2: (ch 1, skip 1, hdc 2) 16 times. (32 hdc, 16 eyelets)"],
      rows: [
        ["Rnd 1", null, null, 48],
        ["Rnd 2", 48, 48, 32],
      ],
      twin: ["16 eyelets", "15 eyelets"],
      spoils: "Rnd 2",
    },
    {
      name: "the eyelets need a multiple of 3",
      source: commonPractice,
      lines: [
        "Rnd 1: Fhdc 48, join. (48)",
        "Rnd 2: *Ch 1, skip 1, hdc 2; rep from * around. (32 hdc, 16 eyelets)",
      ],
      rows: [
        ["Rnd 1", null, null, 48],
        ["Rnd 2", 48, 48, 32],
      ],
      twin: ["Fhdc 48, join. (48)", "Fhdc 49, join. (49)"],
      spoils: "Rnd 2",
    },
  ]);
});
