import fc from "fast-check";
import { expect, test } from "vitest";
import { work } from "../../server/src/fabric/cursor";
import { readPattern } from "../../server/src/fabric/pattern";
import { isLoop, keyOf, type Run, type Strip, type StripNode } from "../../server/src/fabric/strip";
import { tidy } from "../../server/src/fabric/tidy";
import { Fabric } from "../../server/src/fabric/worked";
import { runs } from "./pattern-texts";

/** Every place by itself. */
function listed(strip: Strip): string[] {
  return strip.flatMap((node) =>
    isLoop(node)
      ? Array(node.times).fill(listed(node.body)).flat()
      : Array(node.n).fill(`${node.sort} ${node.kind} ${node.chains ?? ""} ${node.unit ?? ""}`),
  );
}

const run: fc.Arbitrary<Run> = fc.oneof(
  fc.record({ sort: fc.constant("stitch"), kind: fc.constantFrom("sc", "dc"), n: fc.nat(3) }),
  fc.record({
    sort: fc.constant("space"),
    kind: fc.constant("ch"),
    n: fc.nat(2),
    chains: fc.integer({ min: 1, max: 2 }),
  }),
);

const { strip } = fc.letrec<{ strip: Strip; node: StripNode }>((tie) => ({
  node: fc.oneof({ maxDepth: 3 }, run, fc.record({ body: tie("strip"), times: fc.nat(4) })),
  strip: fc.array(tie("node"), { maxLength: 6 }),
}));

test("a tidy strip has the same places in the same order", () => {
  const check = (one: Strip) => {
    expect(listed(tidy(one))).toEqual(listed(one));
  };
  fc.assert(fc.property(strip, check), { numRuns: 20 * runs });
});

test("a pass listed over and over is the loop of it, wherever a loop of more passes is cut", () => {
  const check = (body: Strip, before: number, times: number, after: number) => {
    const whole = tidy([{ body, times: before + times + after }]);
    const flat = (n: number): Strip => Array(n).fill(body).flat();
    expect(keyOf(tidy([...flat(before), { body, times }, ...flat(after)]))).toBe(keyOf(whole));
  };
  const unlike = [
    { sort: "stitch", kind: "dc", n: 2 },
    { sort: "space", kind: "ch", n: 1, chains: 1 },
    { sort: "stitch", kind: "sc", n: 1 },
  ] as const;
  const body = fc.integer({ min: 1, max: 3 }).map((n) => unlike.slice(0, n));
  const few = fc.nat(5);
  fc.assert(fc.property(body, few, few, few, check), { numRuns: runs });
});

test("rows of mesh worked one on another come back to the same places, so that no row but the first is worked", () => {
  const mesh = (rows: number): string =>
    [
      "Ch 405.",
      "Row 1: dc in 4th ch from hook and in each ch across. (403)",
      "Row 2: ch 4 (counts as dc and ch 1), turn, sk first 2 sts, dc in next st, *ch 1, sk next st, dc in next st; rep from * across. (202 dc)",
      ...Array.from(
        { length: rows },
        (_, i) =>
          `Row ${i + 3}: ch 4 (counts as dc and ch 1), turn, dc in next dc, *ch 1, dc in next dc; rep from * across. (202 dc)`,
      ),
    ].join("\n");
  const visited = (rows: number): number => {
    const before = work.placesVisited;
    const [piece] = new Fabric().work(readPattern(mesh(rows)));
    expect(piece?.rows.slice(1).map((row) => row.result)).toEqual(Array(rows + 2).fill("ok"));
    return work.placesVisited - before;
  };
  expect(visited(100)).toBe(visited(3));
});
