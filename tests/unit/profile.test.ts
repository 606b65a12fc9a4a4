import { describe, expect, test } from "vitest";
import { inTradeForm, multipleOf } from "../../server/src/fabric/multiple";
import type { Outcome } from "../../server/src/fabric/outcome";
import { readPattern } from "../../server/src/fabric/pattern";
import { hasProfile, type Profile, profileOf } from "../../server/src/fabric/profile";
import { Fabric, type WorkedRow } from "../../server/src/fabric/worked";
import { startingChainFor, turningChainFor } from "../../server/src/trade/turning-chains";

/*
 * What rows do to counts as lines in their repeats, and the stitch multiples that follow. Published
 * numbers have their source beside them; the wording of the rows is ours.
 */

function lastRow(text: string): WorkedRow {
  const rows = new Fabric().work(readPattern(text)).flatMap((piece) => piece.rows);
  return rows.at(-1) as WorkedRow;
}

function outcomeOf(text: string): Outcome {
  const { outcome, result } = lastRow(text);
  expect(result, text).toBe("ok");
  return outcome as Outcome;
}

function profile(text: string, size = 0): Profile {
  const found = profileOf(outcomeOf(text), size);
  if (!hasProfile(found)) throw new Error(`${text}: ${found.why}`);
  return found;
}

/** `needs 0 + 5k, makes 0 + 6k, k = 6 written`. */
function told(text: string, size = 0): string {
  const { needs, makes, k, repeat } = profile(text, size);
  const made = makes ? `${makes.base} + ${makes.each}k` : "?";
  const how = repeat ? (repeat.isFree ? "free" : "written") : "no repeat";
  return `needs ${needs.base} + ${needs.each}k, makes ${made}, k = ${k} ${how}`;
}

/** The words that the main repeat stands in. */
function repeated(text: string): string {
  const { repeat } = profile(text);
  const row = lastRow(text).line.text;
  return repeat ? row.slice(repeat.span.start, repeat.span.end) : "";
}

const round = (n: number, row: string): string => `Rnd 1: Fsc ${n}, join. (${n})\nRnd 2: ${row}`;
const flat = (n: number, row: string): string =>
  `Ch ${n + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across. (${n})\nRow 2: Ch 1, turn, ${row}`;

describe("a row's counts as lines in its repeat (common practice, no source)", () => {
  test.each([
    [
      "a flat circle's round grows by one a repeat",
      round(30, "(4 sc, inc) x6 (36)"),
      "needs 0 + 5k, makes 0 + 6k, k = 6 written",
    ],
    [
      "the same to the end of the round",
      round(30, "*sc in next 4 sts, inc; rep from * around. (36)"),
      "needs 0 + 5k, makes 0 + 6k, k = 6 free",
    ],
    [
      "its mirror image shrinks by one a repeat",
      round(36, "(4 sc, dec) x6 (30)"),
      "needs 0 + 6k, makes 0 + 5k, k = 6 written",
    ],
    [
      "a stitch in each stitch",
      round(30, "sc in each st around. (30)"),
      "needs 0 + 1k, makes 0 + 1k, k = 30 free",
    ],
    [
      "two in each stitch",
      round(30, "2 sc in each st around. (60)"),
      "needs 0 + 1k, makes 0 + 2k, k = 30 free",
    ],
    [
      "eyelets: 3 stitches make 2 and a hole",
      round(42, "*sc in next 2 sts, ch 1, sk next st; rep from * around. (28 sc, 14 ch-1 sps)"),
      "needs 0 + 3k, makes 0 + 2k, k = 14 free",
    ],
    [
      "an increase at each end",
      flat(20, "2 sc in first st, sc in each st to last st, 2 sc in last st. (22)"),
      "needs 2 + 1k, makes 4 + 1k, k = 18 free",
    ],
    [
      "a decrease at each end",
      flat(20, "sc2tog, sc in each st to last 2 sts, sc2tog. (18)"),
      "needs 4 + 1k, makes 2 + 1k, k = 16 free",
    ],
    [
      "shells",
      flat(
        19,
        "sc in first st, *sk next 2 sts, 5 dc in next st, sk next 2 sts, sc in next st; rep from * across.",
      ),
      "needs 1 + 6k, makes 1 + 6k, k = 3 free",
    ],
    [
      "nothing repeated",
      flat(9, "sc in first 4 sts, 2 sc in next st, sc in last 4 sts. (10)"),
      "needs 9 + 0k, makes 10 + 0k, k = 0 no repeat",
    ],
    [
      "times after the first",
      flat(20, "*sc in next 4 sts, 2 sc in next st; rep from * 3 more times. (24)"),
      "needs 0 + 5k, makes 0 + 6k, k = 4 written",
    ],
    [
      "a ring has no places",
      "Rnd 1: (3 dc, ch 2) 4 times in ring. (12 dc, 4 ch-2 sps)",
      "needs 0 + 0k, makes 0 + 3k, k = 4 written",
    ],
    [
      "a count with the chains in it",
      round(42, "*sc in next 2 sts, ch 1, sk next st; rep from * around. (42)"),
      "needs 0 + 3k, makes 0 + 3k, k = 14 free",
    ],
    [
      "a billion repeats",
      round(5e9, "(4 sc, inc) x1000000000 (6000000000)"),
      "needs 0 + 5k, makes 0 + 6k, k = 1000000000 written",
    ],
    [
      "the chain that counts as a stitch",
      `Ch 22.\nRow 1: Dc in 4th ch from hook and in each ch across. (20)`,
      "needs 1 + 1k, makes 2 + 1k, k = 18 free",
    ],
    [
      "both sides of a chain, which change together",
      "Rnd 1: Ch 7, sc in 2nd ch from hook and in each ch to last ch, 3 sc in last ch, working along other side, sc in each ch to last ch, 2 sc in last ch. (14)",
      "needs 3 + 2k, makes 6 + 2k, k = 4 free",
    ],
  ])("%s", (_, text, expected) => {
    expect(told(text)).toBe(expected);
  });

  test("a round moved along by slip stitches", () => {
    const below = round(20, "*sc in next st, ch 2, sk next st; rep from * around. (10 sc, 10 ch-2 sps)");
    const text = `${below}\nRnd 3: Sl st in next ch-2 sp, ch 1, 3 hdc in each ch-2 sp around, join. (30 hdc)`;
    expect(told(text)).toBe("needs 0 + 1k, makes 0 + 3k, k = 10 free");
  });

  test("each size has its own k on the same lines", () => {
    const text =
      "Sizes: S (M, L)\nRnd 1: Fsc 30 (36, 42), join. (30, 36, 42)\nRnd 2: *sc in next 2 sts, inc; rep from * around. (40, 48, 56)";
    expect([0, 1, 2].map((size) => told(text, size))).toEqual(
      [10, 12, 14].map((k) => `needs 0 + 3k, makes 0 + 4k, k = ${k} free`),
    );
  });
});

describe("of several repeats", () => {
  test("the free one is told before a written one", () => {
    const text = flat(20, "(2 sc in next st) 3 times, sc in each st across. (23)");
    expect(told(text)).toBe("needs 3 + 1k, makes 6 + 1k, k = 17 free");
    expect(repeated(text)).toBe("sc in each st across");
    expect(profile(text).others).toHaveLength(1);
  });

  test("the outer one is told before an inner one", () => {
    const text = round(24, "[(2 sc in next st) 3 times, sc in next 9 sts] twice. (30)");
    expect(told(text)).toBe("needs 0 + 12k, makes 0 + 15k, k = 2 written");
    expect(repeated(text)).toBe("[(2 sc in next st) 3 times, sc in next 9 sts] twice");
  });

  test("a run within a written repeat goes up on every side at once", () => {
    const text =
      "Rnd 1: (5 sc, ch 2) 4 times in ring. (20 sc, 4 ch-2 sps)\nRnd 2: [Sc in each sc to ch-2 sp, (sc, ch 2, sc) in ch-2 sp] 4 times. (28 sc, 4 ch-2 sps)";
    expect(told(text)).toBe("needs 4 + 4k, makes 8 + 4k, k = 5 free");
  });
});

describe("there is no profile, with the reason", () => {
  const why = (text: string): string | null => {
    const found = profileOf(lastRow(text).outcome as Outcome, 0);
    return hasProfile(found) ? null : found.why;
  };

  test("where a place's kind says what it gets", () => {
    const square = "Rnd 1: (5 sc, ch 2) 4 times in ring. (20 sc, 4 ch-2 sps)";
    expect(why(`${square}\nRnd 2: Sc in each sc and 2 sc in each ch-2 sp around. (28)`)).toBe(
      "what is worked into a place depends on what the place is",
    );
  });

  test("where the repeats go over unlike stretches", () => {
    const oblong = "Rnd 1: (5 sc, ch 2, 7 sc, ch 2) twice in ring. (24 sc, 4 ch-2 sps)";
    expect(
      why(`${oblong}\nRnd 2: *Sc in each sc to ch-2 sp, (sc, ch 2, sc) in ch-2 sp; rep from * around.`),
    ).toBe("its repeat does not do the same each time");
    expect(why(`${oblong}\nRnd 2: [Sc in each sc to ch-2 sp, (sc, ch 2, sc) in ch-2 sp] 4 times.`)).toBe(
      "its repeat is not worked the same number of times each time",
    );
  });

  test("of a size that does not work the row, and of a row told only by its count", () => {
    const sized = lastRow("Sizes: S (M)\nRnd 1: Fsc 20 (24), join.\nRnd 2: (4 sc, inc) x4 (-)").outcome;
    expect(profileOf(sized as Outcome, 1)).toEqual({ why: "this size does not work it" });
    const counted = lastRow(`${flat(20, "sc in each st. (20)")}\nDec 1 st each end of next 4 rows. (12)`);
    expect(profileOf(counted.outcome as Outcome, 0)).toEqual({
      why: "only what it does to the count is told",
    });
  });
});

/** Chains of a row on a starting chain as published: so many repeats of `of` and `plus` more make `ch`. */
interface Published {
  readonly source: string;
  readonly of: number;
  readonly plus: number;
  readonly ch: number;
  readonly row: string;
  /** What it makes, where that is published. */
  readonly count: string;
}

const vStitch = "Special Stitches\nV-stitch (V-st): (dc, ch 1, dc) in one place.\n";

const published: readonly Published[] = [
  {
    source: "pattern sheet BRC0125-027114M",
    of: 10,
    plus: 9,
    ch: 59,
    row: "Sc in 2nd ch from hook and in next 3 ch, *ch 2, sk next 2 ch, sc in next 8 ch; rep from * to last 4 ch, sc in last 4 ch.",
    count: "",
  },
  {
    source: "pattern sheet BRC0502-030110M",
    of: 3,
    plus: 6,
    ch: 117,
    row: "V-st in 6th ch from hook, *sk next 2 ch, V-st in next ch; rep from * to last 3 ch, sk next 2 ch, dc in last ch.",
    count: "(37 V-sts)",
  },
  {
    source: "pattern sheet BRC0502-029618M",
    of: 4,
    plus: 5,
    ch: 173,
    row: "V-st in 7th ch from hook, *sk next 3 ch, V-st in next ch; rep from * to last 2 ch, sk next ch, dc in last ch.",
    count: "(42 V-sts)",
  },
  {
    source: "pattern sheet CAC0502-029057M",
    of: 10,
    plus: 2,
    ch: 112,
    row: "Sc in 2nd ch from hook, *sc in next 10 ch; rep from * across.",
    count: "(111 sc)",
  },
  {
    source: "pattern sheet CAC0126-035092M",
    of: 3,
    plus: 2,
    ch: 92,
    row: "Sc in 2nd ch from hook, *ch 2, sk next 2 ch, sc in next ch; rep from * across.",
    count: "",
  },
  {
    source: "pattern sheet BRC0502-028564M, which prints the chain and no multiple",
    of: 3,
    plus: 4,
    ch: 103,
    row: "V-st in 5th ch from hook, *sk next 2 ch, V-st in next ch; rep from * to last 2 ch, sk next ch, dc in last ch.",
    count: "(33 V-sts)",
  },
  {
    source: "pattern sheet CAC0125-007012M, which prints chain and 20 repeats and no multiple",
    of: 11,
    plus: 2,
    ch: 222,
    row: "Sc in 2nd ch from hook, *sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next 6 ch; rep from * across.",
    count: "",
  },
  {
    source: "pattern sheet PAC0125-002711M, which prints chain and 5 repeats and no multiple",
    of: 11,
    plus: 13,
    ch: 68,
    row: "Sc in 2nd ch from hook and in next 5 ch, *sk next ch, sc in next 4 ch, 3 sc in next ch, sc in next 4 ch, sk next ch; rep from * to last 6 ch, sc in last 6 ch.",
    count: "",
  },
  {
    source:
      "pattern sheet CAC0135-001742M, which prints 12 groups of 3 dc, 3 edge dc and the skipped ch-3, and no multiple",
    of: 4,
    plus: 7,
    ch: 55,
    row: "Dc in 4th ch from hook, *ch 1, sk next ch, dc in next 3 ch; rep from * to last 3 ch, ch 1, sk next ch, dc in last 2 ch.",
    count: "(40 dc, 13 ch-1 sps)",
  },
];

describe.each(published)(
  "published: multiple of $of + $plus, ch $ch ($source)",
  ({ of, plus, ch, row, count }) => {
    const text = (chains: number): string => `${vStitch}\nCh ${chains}.\nRow 1: ${row}`;

    test("is the multiple of the row, which makes what is published", () => {
      const multiple = multipleOf(outcomeOf(`${text(ch)} ${count}`), 0);
      expect(multiple?.of).toBe(of);
      expect(((multiple?.plus ?? 0) + (multiple?.startingChain ?? 0)) % of).toBe(plus % of);
      expect(ch % of).toBe(plus % of);
    });

    test("is told the same from any number of repeats, and no other chain fits", () => {
      expect(multipleOf(outcomeOf(text(ch + of)), 0)).toEqual(multipleOf(outcomeOf(text(ch)), 0));
      expect(lastRow(text(ch + 1)).result).not.toBe("ok");
      expect(lastRow(text(ch - 1)).result).not.toBe("ok");
    });
  },
);

describe("in the trade's form", () => {
  const form = (text: string): string | null => {
    const multiple = multipleOf(outcomeOf(text), 0);
    return multiple && inTradeForm(multiple);
  };

  test("multiple of 3 sts + 2 (add 1 for base chain): source zanotowane.pl/719/2970", () => {
    const row =
      "Sc in 2nd ch from hook, sc in next ch, *ch 1, sk next ch, sc in next 2 ch; rep from * across.";
    expect(form(`Ch 18.\nRow 1: ${row}`)).toBe("multiple of 3 + 2, plus 1 for the starting chain");
  });

  test("multiples of 5 + 2, add 2 for base chain, so chain 14: source ninasatmyhouse.blogspot.com/2015_10_25_archive.html", () => {
    const row =
      "Dc in 4th ch from hook, *ch 1, sk next ch, dc in next 4 ch; rep from * across. (10 dc, 2 ch-1 sps)";
    expect(form(`Ch 14.\nRow 1: ${row}`)).toBe("multiple of 5 + 2, plus 2 for the starting chain");
  });

  test("mesh and shells (common practice, no source)", () => {
    expect(
      form("Ch 23.\nRow 1: Dc in 8th ch from hook, *ch 2, sk next 2 ch, dc in next ch; rep from * across."),
    ).toBe("multiple of 3 + 1, plus 4 for the starting chain");
    expect(
      form(
        flat(
          19,
          "sc in first st, *sk next 2 sts, 5 dc in next st, sk next 2 sts, sc in next st; rep from * across.",
        ),
      ),
    ).toBe("multiple of 6 + 1");
    expect(form(round(24, "*sc in next 2 sts, ch 1, sk next st; rep from * around."))).toBe("multiple of 3");
    expect(form(round(24, "sc in each st around."))).toBe("any number");
  });

  test("is not told where the number of repeats is written, or a run within the repeat is free", () => {
    expect(form(round(30, "(4 sc, inc) x6 (36)"))).toBeNull();
    const square = "Rnd 1: (3 sc, ch 2) 4 times in ring. (12 sc, 4 ch-2 sps)";
    expect(
      form(
        `${square}\nRnd 2: *Sc in each sc to ch-2 sp, (sc, ch 2, sc) in ch-2 sp; rep from * around. (20 sc, 4 ch-2 sps)`,
      ),
    ).toBeNull();
  });

  test.each(["sc", "dc", "tr", "dtr", "trtr"])(
    "a plain row of %s begins on as many chains as the table says",
    (stitch) => {
      const rule = turningChainFor(stitch);
      const chain = startingChainFor(20, rule);
      const nth = ["", "", "2nd", "3rd"][rule.firstIn] ?? `${rule.firstIn}th`;
      const multiple = multipleOf(
        outcomeOf(`Ch ${chain}.\nRow 1: ${stitch} in ${nth} ch from hook and in each ch across. (20)`),
        0,
      );
      expect(multiple).toEqual({ of: 1, plus: 0, startingChain: chain - 20 });
    },
  );
});
