import fc from "fast-check";
import { expect, test } from "vitest";
import { readPattern } from "../../server/src/fabric/pattern";
import { Fabric, type WorkedPiece, type WorkedRow } from "../../server/src/fabric/worked";
import { isEven } from "../../server/src/reshape/even";
import { rewriteToMake } from "../../server/src/reshape/rewrite-row";
import { shapedRow } from "../../server/src/reshape/shaped-row";
import { runs } from "./pattern-texts";

/*
 * A row made to come to another count reads clean, fits, makes that count and spreads its increases.
 * The rows to begin with are common practice, no source.
 */

interface Base {
  readonly name: string;
  readonly text: (places: number) => string;
}

const flat = (n: number): string =>
  `Ch ${n + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (${n})\n`;

const bases: readonly Base[] = [
  {
    name: "round, plain",
    text: (n) => `Rnd 1: ${n} sc in magic ring (${n})\nRnd 2: sc in each st around (${n})`,
  },
  {
    name: "round, half groups",
    text: (n) => `Rnd 1: ${n} sc in magic ring (${n})\nRnd 2: sc 1, inc, sc ${n - 2} (${n + 1})`,
  },
  { name: "flat, plain", text: (n) => `${flat(n)}Row 2: Ch 1, sc in each st across, turn. (${n})` },
  {
    name: "flat, shaped",
    text: (n) => `${flat(n)}Row 2: Ch 1, 2 sc in first st, ${n - 1} sc, turn. (${n + 1})`,
  },
];

function last(text: string): { piece: WorkedPiece; row: WorkedRow } {
  const [piece] = new Fabric().work(readPattern(text));
  const row = piece?.rows.at(-1);
  if (!piece || !row) throw new Error(`no row in ${text}`);
  return { piece, row };
}

/** Even groups, or units that are even among smaller ones. */
function isSpread({ line, outcome }: WorkedRow): boolean {
  const shaped = outcome && line.plan && shapedRow(line.plan, outcome, 0);
  return !shaped || isEven(shaped.groups);
}

function expectSpaced(base: Base, places: number, makes: number): void {
  const text = base.text(places);
  const { piece, row } = last(text);
  const found = rewriteToMake(row, piece, makes);
  const told = `${base.name}: ${places} to ${makes}`;
  if ("why" in found) throw new Error(`${told}: ${found.why}`);
  const changed = text.replace(row.line.text, found.text);
  const again = last(changed);
  expect([again.row.result, again.row.outcome?.makes[0]], `${told}: ${found.text}`).toEqual(["ok", makes]);
  expect(again.row.assumptions, told).toEqual([]);
  expect(isSpread(again.row), `${told}: ${found.text}`).toBe(true);
  expect(rewriteToMake(again.row, again.piece, makes), told).toMatchObject({ edits: [] });
}

test("every row can be made to come to any count from half to double", () => {
  const cases = fc.record({
    base: fc.constantFrom(...bases),
    places: fc.integer({ min: 3, max: 200 }),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
  });
  fc.assert(
    fc.property(cases, ({ base, places, share }) => {
      const fewest = Math.ceil(places / 2);
      expectSpaced(base, places, Math.round(fewest + share * (2 * places - fewest)));
    }),
    { numRuns: runs * 8 },
  );
});

/** All counts to 200 are 30,000 a row to begin with: too long for a test; here the small ones, more in a longer run. */
test("small counts, all of them", { timeout: 600_000 }, () => {
  const most = runs > 100 ? 48 : 16;
  for (const base of bases)
    for (let places = 3; places <= most; places++)
      for (let makes = Math.ceil(places / 2); makes <= 2 * places; makes++) expectSpaced(base, places, makes);
});
