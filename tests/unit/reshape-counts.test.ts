import { describe, expect, test } from "vitest";
import { readPattern } from "../../server/src/fabric/pattern";
import { Fabric, type WorkedRow } from "../../server/src/fabric/worked";
import { both, countsAround, type RowNeeds, suitingAll } from "../../server/src/reshape/which-counts";

describe("numbers that suit two at once", () => {
  test("are those of the oldest printed example: rest 2 by 3, 3 by 5, 2 by 7 (Sunzi Suanjing, chapter 3, problem 26)", () => {
    const three = both({ of: 3, plus: 2 }, { of: 5, plus: 3 });
    expect(three && both(three, { of: 7, plus: 2 })).toEqual({ of: 105, plus: 23 });
  });

  test("are all of them and no others, for all small multiples", () => {
    for (let a = 1; a <= 12; a++)
      for (let b = 1; b <= 12; b++)
        for (let plus = 0; plus < a; plus++)
          for (let more = 0; more < b; more++) {
            const suits = (n: number): boolean => n % a === plus && n % b === more;
            const found = both({ of: a, plus }, { of: b, plus: more });
            for (let n = 0; n < a * b; n++)
              expect(
                found !== null && n % found.of === found.plus,
                `${n}: ${plus} by ${a}, ${more} by ${b}`,
              ).toBe(suits(n));
          }
  });

  test("are none where two rows stand against each other, which are named", () => {
    const row = (name: string) => ({ line: { headText: name } }) as WorkedRow;
    const needs: RowNeeds[] = [
      { of: 3, plus: 0, row: row("Rnd 4") },
      { of: 4, plus: 0, row: row("Rnd 5") },
      { of: 6, plus: 1, row: row("Rnd 9") },
    ];
    const clash = suitingAll(needs);
    expect("rows" in clash && clash.rows.map(({ line }) => line.headText)).toEqual(["Rnd 4", "Rnd 9"]);
  });
});

test("a stretch of a pouch: eyelets every 3 and shells over 4 suit multiples of 12", () => {
  const [piece] = new Fabric().work(
    readPattern(`Rnd 1: 48 hdc in magic ring (48)
Rnd 2: hdc in each st around (48)
Rnd 3: *hdc in next 2 sts, ch 1, sk next st; rep from * around. (32 hdc, 16 ch-1 sps)
Rnd 4: *hdc in next 2 sts, hdc in next ch-1 sp; rep from * around. (48)
Rnd 5: *sk next st, 3 dc in next st, sk next st, sc in next st; rep from * around. (36 dc, 12 sc)`),
  );
  const row = piece?.rows[1];
  const found = piece && row && countsAround(row, piece);
  expect(found).toMatchObject({ of: 12, plus: 0, below: 36, above: 60 });
  expect([found?.first, found?.last].map((one) => one?.line.headText)).toEqual(["Rnd 2", "Rnd 5"]);
});
