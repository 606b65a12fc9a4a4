import fc from "fast-check";
import { expect, test } from "vitest";
import { readPattern } from "../../server/src/fabric/pattern";
import { Versions } from "../../server/src/fabric/versions";
import { Fabric } from "../../server/src/fabric/worked";
import { resizePiece } from "../../server/src/reshape/resize/resize";
import { withEdits } from "../../server/src/text/span";
import { runs } from "./pattern-texts";

/*
 * A closed or open piece in the round, in any size from its first round to three times as wide, is right in every row,
 * has that width, and goes up at its own rate but for one round. The pieces are common practice, no source.
 */

interface Ball {
  readonly by: number;
  readonly rungs: number;
  readonly even: number;
  readonly isClosed: boolean;
  readonly way: keyof typeof ways;
}

const ways = {
  brackets: (plain: number, unit: string, by: number) => `(${plain} sc, ${unit}) x${by}`,
  asterisk: (plain: number, unit: string) =>
    `*sc in next ${plain} sts, ${unit} in next st; rep from * around`,
  staggered: (plain: number, unit: string, by: number) =>
    plain > 1 && plain % 2 === 0
      ? `${plain / 2} sc, ${unit}, (${plain} sc, ${unit}) x${by - 1}, ${plain / 2} sc`
      : `(${plain} sc, ${unit}) x${by}`,
} as const;

function textOf({ by, rungs, even, isClosed, way }: Ball): string {
  const round = (plain: number, isRise: boolean): string => {
    const unit = way === "asterisk" ? (isRise ? "2 sc" : "dec") : isRise ? "inc" : "dec";
    const row = ways[way](plain, unit, by);
    return isRise || way !== "asterisk" ? row : `*sc in next ${plain} sts, dec; rep from * around`;
  };
  const rows = [
    `${by} sc in magic ring (${by})`,
    `${way === "asterisk" ? "2 sc in each st around" : `inc x${by}`} (${2 * by})`,
  ];
  for (let n = 3; n <= rungs; n++) rows.push(`${round(n - 2, true)} (${n * by})`);
  const lines = rows.map((row, i) => `Rnd ${i + 1}: ${row}`);
  const [from, to] = [rungs + 1, rungs + even];
  if (even > 0)
    lines.push(`${even > 1 ? `Rnds ${from}-${to}` : `Rnd ${from}`}: sc in each st around (${rungs * by})`);
  for (let n = rungs; isClosed && n > 2; n--)
    lines.push(`Rnd ${rungs + even + 1 + rungs - n}: ${round(n - 2, false)} (${(n - 1) * by})`);
  return lines.join("\n");
}

test("every width can be had, at the rate of the piece", () => {
  const balls = fc.record({
    by: fc.integer({ min: 4, max: 9 }),
    rungs: fc.integer({ min: 3, max: 9 }),
    even: fc.integer({ min: 1, max: 8 }),
    isClosed: fc.boolean(),
    way: fc.constantFrom(...(Object.keys(ways) as (keyof typeof ways)[])),
  });
  fc.assert(
    fc.property(balls, fc.double({ min: 0, max: 1, noNaN: true }), (ball, share) => {
      const [fewest, most] = [2 * ball.by + 1, 3 * ball.by * ball.rungs];
      const count = Math.round(fewest + share * (most - fewest));
      const text = textOf(ball);
      const pattern = new Versions().work(text);
      const [piece] = pattern.pieces;
      if (!piece) throw new Error(text);
      expect(
        piece.rows.map(({ result }) => result).filter((one) => one !== "ok"),
        text,
      ).toEqual([]);
      const now = ball.by * ball.rungs;
      const found = resizePiece(pattern, piece, { of: "widest", count, rowsBy: count / now });
      if ("why" in found) throw new Error(`${text}\n${count}: ${found.why}`);
      const done = withEdits(
        text,
        found.rows.flatMap(({ edits }) => edits),
      );
      const rows = new Fabric().work(readPattern(done))[0]?.rows ?? [];
      expect(
        rows.filter(({ result, assumptions }) => result !== "ok" || assumptions.length > 0),
        done,
      ).toEqual([]);
      expect(Math.max(...rows.map(({ outcome }) => outcome?.makes[0] ?? 0)), done).toBe(count);
      const steps = rows.slice(1).map(({ outcome }) => (outcome?.makes[0] ?? 0) - (outcome?.has[0] ?? 0));
      for (const sign of [1, -1]) {
        const odd = steps.filter((step) => step * sign > 0 && step * sign !== ball.by);
        expect(odd.length, done).toBeLessThanOrEqual(1);
      }
      expect(done.match(/^Rnds? (\d+)/gm)?.length).toBe(rows.length);
    }),
    { numRuns: runs * 4 },
  );
});
