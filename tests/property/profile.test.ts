import fc from "fast-check";
import { expect, test } from "vitest";
import { work } from "../../server/src/fabric/cursor";
import type { Outcome } from "../../server/src/fabric/outcome";
import { readPattern } from "../../server/src/fabric/pattern";
import { hasProfile, type Line, type Profile, profileOf } from "../../server/src/fabric/profile";
import { Fabric, type WorkedRow } from "../../server/src/fabric/worked";
import { countPattern } from "../spec/naive-counter";
import { corpus, runs } from "./pattern-texts";

/*
 * A profile told from a row worked once holds for any other number of repeats: of the row's own texts in
 * all cases and samples, and of rows written anew for another number and counted by the second reader.
 */

function rowsOf(text: string): readonly WorkedRow[] {
  return new Fabric().work(readPattern(text)).flatMap((piece) => piece.rows);
}

function at({ base, each }: Line, k: number): number {
  return base + each * k;
}

test("the lines go through what the row needs and makes, in every row of the cases and samples", () => {
  let told = 0;
  for (const { outcome, line, result } of corpus.flatMap(rowsOf)) {
    if (!outcome || result !== "ok") continue;
    for (const size of outcome.leaves.state.keys()) {
      const profile = profileOf(outcome, size);
      if (!hasProfile(profile)) continue;
      told++;
      const first = isOne(line) ? outcome.needs[size] : null;
      if (first !== null) expect(at(profile.needs, profile.k), line.text).toBe(first ?? 0);
      if (profile.makes) expect(at(profile.makes, profile.k), line.text).toBe(outcome.makes[size] ?? 0);
    }
  }
  expect(told).toBeGreaterThan(800);
});

/** Of several rows the needs are those of the first, and the profile is that of the last. */
function isOne({ kind, head }: WorkedRow["line"]): boolean {
  return kind !== "copy" && !head?.to && !head?.many;
}

interface Shape {
  /** A text in which the last row has `k` repeats, and fits. */
  readonly text: (k: number) => string;
}

const flat = (n: number): string =>
  `Ch ${n + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across. (${n})\n`;

/** Rows with places for any number of repeats; common practice, no source. */
const shape: fc.Arbitrary<Shape> = fc.oneof(
  fc
    .record({ plain: fc.integer({ min: 1, max: 6 }), row: fc.constantFrom("inc", "dec") })
    .map(({ plain, row }) => {
      const places = plain + (row === "inc" ? 1 : 2);
      return {
        text: (k: number) =>
          `Rnd 1: fsc ${places * k}, join (${places * k})\nRnd 2: (${plain} sc, ${row}) x${k}`,
      };
    }),
  fc
    .record({ lead: fc.integer({ min: 1, max: 4 }), gap: fc.integer({ min: 1, max: 3 }) })
    .map(({ lead, gap }) => ({
      text: (k: number) =>
        `${flat(lead + (gap + 1) * k)}Row 2: Ch 1, turn, sc in first ${lead} sts, *ch ${gap}, sk next ${gap} sts, sc in next st; rep from * across.`,
    })),
  fc
    .record({ each: fc.integer({ min: 1, max: 3 }), end: fc.integer({ min: 1, max: 4 }) })
    .map(({ each, end }) => ({
      text: (k: number) =>
        `${flat(k + 1 + end)}Row 2: Ch 1, turn, 2 sc in first st, ${each} sc in each st to last ${end} sts, sc in last ${end} sts.`,
    })),
  fc.record({ dc: fc.integer({ min: 2, max: 7 }), sk: fc.integer({ min: 1, max: 3 }) }).map(({ dc, sk }) => ({
    text: (k: number) =>
      `${flat(1 + (2 * sk + 2) * k)}Row 2: Ch 1, turn, sc in first st, *sk next ${sk} sts, ${dc} dc in next st, sk next ${sk} sts, sc in next st; rep from * across.`,
  })),
);

const many = fc.integer({ min: 2, max: 40 });

function told(text: string): { readonly outcome: Outcome; readonly profile: Profile } {
  const { outcome, result } = rowsOf(text).at(-1) as WorkedRow;
  expect(result, text).toBe("ok");
  const profile = profileOf(outcome as Outcome, 0);
  if (!hasProfile(profile)) throw new Error(`${text}: ${profile.why}`);
  return { outcome: outcome as Outcome, profile };
}

test("the lines told from k repeats say what a row written for another k needs and makes", () => {
  const check = ({ text }: Shape, k: number, other: number) => {
    const [one, another] = [told(text(k)), told(text(other))];
    expect(one.profile.k, text(k)).toBe(k);
    expect(one.profile.needs).toEqual(another.profile.needs);
    expect(one.profile.makes).toEqual(another.profile.makes);
    expect(at(one.profile.needs, other)).toBe(another.outcome.needs[0]);
    expect(at(one.profile.makes as Line, other)).toBe(another.outcome.makes[0]);
  };
  fc.assert(fc.property(shape, many, many, check), { numRuns: runs });
});

test("and what the second reader counts for that k", () => {
  const check = ({ text }: Shape, k: number, other: number) => {
    const { profile } = told(text(k));
    const counted = countPattern(text(other)).at(-1);
    expect(counted?.needs, text(other)).toEqual([at(profile.needs, other)]);
    expect(counted?.makes, text(other)).toEqual([at(profile.makes as Line, other)]);
  };
  fc.assert(fc.property(shape, many, many, check), { numRuns: runs });
});

test("is told once, and for a billion repeats at the cost of ten", () => {
  const visited = (n: number): number => {
    const text = `Rnd 1: fsc ${5 * n}, join (${5 * n})\nRnd 2: *sc in next 4 sts, inc; rep from * around (${6 * n})`;
    const { outcome } = rowsOf(text).at(-1) as WorkedRow;
    const before = work.placesVisited;
    expect(hasProfile(profileOf(outcome as Outcome, 0))).toBe(true);
    const first = work.placesVisited - before;
    profileOf(outcome as Outcome, 0);
    expect(work.placesVisited - before).toBe(first);
    return first;
  };
  expect(visited(1e9)).toBe(visited(10));
});
