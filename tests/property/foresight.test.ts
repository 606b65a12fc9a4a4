import { afterEach, describe, expect, test, vi } from "vitest";
import { plainKinds, tally } from "../../server/src/fabric/count";
import { work } from "../../server/src/fabric/cursor";
import { Foresight } from "../../server/src/fabric/foresight";
import type { Outcome } from "../../server/src/fabric/outcome";
import { readPattern } from "../../server/src/fabric/pattern";
import type { Steps } from "../../server/src/fabric/steps";
import { Fabric, type WorkedRow } from "../../server/src/fabric/worked";
import { sumOverRows } from "../../server/src/measure/rows-alike";
import { corpus } from "./pattern-texts";

/*
 * Long ranges are told by arithmetic. Everything told must be what comes of working row by row, and the
 * work must not grow with the length. The shapes are common practice of the trade, no published source.
 */

afterEach(() => vi.restoreAllMocks());

interface Seen {
  readonly rows: readonly WorkedRow[];
  readonly visited: number;
}

function seen(text: string): Seen {
  const before = work.placesVisited;
  const rows = new Fabric().work(readPattern(text)).flatMap((piece) => piece.rows);
  return { rows, visited: work.placesVisited - before };
}

function rowByRow(text: string): Seen {
  const spy = vi.spyOn(Foresight.prototype, "leap").mockReturnValue(null);
  const found = seen(text);
  spy.mockRestore();
  return found;
}

/** What the last line of a text came to. */
function lastOf({ rows }: Seen): unknown {
  const { result, reason, outcome, others, has, makes, assumptions } = rows.at(-1) as WorkedRow;
  const told = { outcome: outcome && inSums(outcome), others: others.map(inSums) };
  return { result, reason, has, makes, assumptions, ...told };
}

/** A pattern whose last line stands for `n` rows. */
type Shape = readonly [what: string, text: (n: number) => string];

const flat = (sts: number): string => `Ch ${sts + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across.`;
const range = (n: number): string => `Rows 2-${n + 1}`;

const growing: readonly Shape[] = [
  [
    "1 st more at each end",
    (n) =>
      `${flat(9)}\n${range(n)}: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st.`,
  ],
  [
    "1 st more at one end",
    (n) => `${flat(9)}\n${range(n)}: Ch 1, turn, sc in each st to last st, 2 sc in last st.`,
  ],
  [
    "1 st less at each end",
    (n) => `${flat(200)}\n${range(n)}: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog.`,
  ],
  ["1 st less at one end", (n) => `${flat(200)}\n${range(n)}: Ch 1, turn, sc2tog, sc in each st across.`],
  [
    "less and more, a slant",
    (n) => `${flat(20)}\n${range(n)}: Ch 1, turn, sc2tog, sc to last st, 2 sc in last st.`,
  ],
  [
    "a spiral with one increase",
    (n) => `Rnd 1: 6 sc in mr (6)\nRnds 2-${n + 1}: sc in each st to last st, inc`,
  ],
  [
    "the centre of a shawl",
    (n) =>
      `Row 1: ch 4, (2 dc, ch 2, 3 dc) in ring\n${range(n)}: ch 3, turn, dc in first st, dc in each st to ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in each st to last st, 2 dc in last st`,
  ],
  [
    "a square from its corners",
    (n) =>
      `Rnd 1: (3 sc, ch 2) 4 times in ring\nRnds 2-${n + 1}: *sc in each sc to ch-2 sp, (sc, ch 2, sc) in ch-2 sp; rep from * around, sc in each sc to end`,
  ],
  [
    "a granny square",
    (n) =>
      `Rnd 1: (3 dc, ch 2) 4 times in ring\nRnds 2-${n + 1}: *(3 dc, ch 2, 3 dc) in next ch-2 sp, 3 dc in each ch-1 sp; rep from * around`,
  ],
  [
    "a square by its corner stitches",
    (n) =>
      `Rnd 1: fsc 20, join (20)\nRnd 2: *sc in next 4 sts, 3 sc in next st; rep from * around (28)\nRnds 3-${n + 2}: Ch 1, sc in each sc around, working 3 sc in each corner st, join.`,
  ],
  [
    "two rows in turn",
    (n) =>
      `${flat(12)}\nRow 2: Ch 3, turn, dc in first st, dc in each st to last st, 2 dc in last st.\nRow 3: Ch 1, turn, sc in each st across.\nRep Rows 2 and 3 ${n} times.`,
  ],
  [
    "three rows in turn",
    (n) =>
      `${flat(90)}\nRow 2: Ch 1, turn, sc2tog, sc in each st across.\nRow 3: Ch 1, turn, sc in each st across.\nRow 4: Ch 1, turn, sc in each st to last 2 sts, sc2tog.\nRep Rows 2-4 ${n} times.`,
  ],
  [
    "sizes of unlike lengths",
    (n) =>
      `Sizes: S (M, L)\nCh 21 (31, 41).\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRows 2-${n + 1} (${n + 12}, ${2 * n + 9}): Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st.`,
  ],
  [
    "a pattern of 3 that fits every third row",
    (n) =>
      `${flat(12)}\n${range(n)}: Ch 1, turn, 2 sc in first st, *sc in next 2 sts, dc in next st; rep from * across.`,
  ],
  [
    "a mesh that widens",
    (n) =>
      `${flat(21)}\nRow 2: Ch 4, turn, sk first 2 sts, dc in next st, *ch 1, sk next st, dc in next st; rep from * across.\nRows 3-${n + 2}: Ch 4, turn, dc in first dc, *ch 1, dc in next dc; rep from * across.`,
  ],
  [
    "a count that stops it being right",
    (n) => `${flat(9)}\n${range(n)}: Ch 1, turn, 2 sc in first st, sc in next 8 sts.`,
  ],
  ["doubling", (n) => `Rnd 1: 6 sc in mr (6)\nRnds 2-${n + 1}: inc around`],
  [
    "a count of its last row",
    (n) =>
      `${flat(9)}\n${range(n)}: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. (${9 + 2 * n})`,
  ],
];

/** Rows told together and rows told one by one come to the same, kind by kind. */
function inSums({ worked, ...outcome }: Outcome) {
  const sums = worked.length === 0 ? [] : outcome.steps.map((_, size) => kindsOf(worked, size));
  return { ...outcome, worked: sums };
}

function kindsOf(worked: Outcome["worked"], size: number): Record<string, number> {
  const made = (steps: readonly Steps[]) => plainKinds(tally(steps));
  const kinds = worked.flatMap(({ steps }) => [...made(steps[size] ?? []).keys()]);
  return Object.fromEntries(
    kinds.map((kind) => [kind, sumOverRows(worked, size, (steps) => made(steps).get(kind) ?? 0)]),
  );
}

describe.each(growing)("%s", (_, text) => {
  test("is told as it comes row by row, for every length up to 60", () => {
    for (let n = 2; n <= 60; n++)
      expect(lastOf(seen(text(n))), `${n} rows`).toEqual(lastOf(rowByRow(text(n))));
  });

  test("is told as it comes row by row, for some lengths up to 199", () => {
    for (const n of [97, 98, 199])
      expect(lastOf(seen(text(n))), `${n} rows`).toEqual(lastOf(rowByRow(text(n))));
  });

  test("costs no more for many rows than for some", () => {
    const [few, many] = [seen(text(1e3)), seen(text(1e9))];
    expect(many.visited).toBeLessThanOrEqual(few.visited);
    expect(many.rows.at(-1)?.reason).not.toBe("these are too many rows to follow one by one");
  });
});

/** Every row of the corpus as the first of many. */
const heads = /^((?:Row|Rnd|Round|R) ?)(\d+)(?=:)/;
const endless: readonly string[] = [
  ...new Set(
    corpus.flatMap((text) => {
      const lines = text.split("\n");
      return lines.flatMap((line, i) => (heads.test(line) ? [lines.slice(0, i + 1).join("\n")] : []));
    }),
  ),
];

function manyOf(text: string, n: number): string {
  const lines = text.split("\n");
  const last = (lines.pop() as string).replace(
    heads,
    (_, word, from) => `${word}${from}-${Number(from) + n - 1}`,
  );
  return [...lines, last].join("\n");
}

test.each([12, 45])(
  "every row of the cases and samples, worked %d times, is told as it comes row by row",
  (n) => {
    for (const text of endless)
      expect(lastOf(seen(manyOf(text, n))), text).toEqual(lastOf(rowByRow(manyOf(text, n))));
  },
);
