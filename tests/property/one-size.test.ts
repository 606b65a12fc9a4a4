import { expect, test } from "vitest";
import { sizeScenes } from "../../server/src/features/sizes/size-scenes";
import { Checker } from "../../server/src/workspace/checker";
import { rightPatterns } from "../mutants/corpus";

/*
 * A pattern of several sizes, told for one of them, has the same rows with the numbers of that size: all samples,
 * cases and held-out patterns that have sizes, in every row that is right.
 */

const texts = rightPatterns().filter(({ text }) => /\d\s*[([]\d+/.test(text));

/** Sizes told in a way that only one of the lists has, and lists such as `57(61-65)`: nothing is offered for one size. */
const untold = ["tests/held-out/garments/02.crochet", "tests/held-out/first-contact/22-vest.crochet"];

test("a size told alone comes to what it comes to among the others", { timeout: 120_000 }, () => {
  const compared: string[] = [];
  const alone: string[] = [];
  const among: string[] = [];
  for (const { name, text } of texts) {
    const { worked } = new Checker().work(text);
    const isWhole = worked.pieces.every(({ rows }) =>
      rows.every(({ fault }) => fault?.sort !== "uneven-list"),
    );
    if (worked.context.sizes.length < 2 || !isWhole || untold.includes(name)) continue;
    const scenes = sizeScenes(worked);
    expect(scenes, name).not.toBeNull();
    compared.push(name);
    for (const { line, result, outcome } of worked.pieces.flatMap(({ rows }) => rows))
      for (const [size, { one, scene }] of (scenes ?? []).entries()) {
        if (result !== "ok" || line.kind === "foundation") continue;
        const at = one.inSize(line.span.start);
        const own = scene.worked.pieces.flatMap(({ rows }) => rows).find((row) => row.line.span.start === at);
        const isWorked = one.works(line.start);
        const told = `${name}: ${one.name}: ${line.headText}`;
        alone.push(
          `${told} ${[isWorked ? (own?.outcome?.has[0] ?? null) : null, own?.outcome?.makes[0] ?? null]}`,
        );
        among.push(
          `${told} ${[outcome?.has[size] ?? null, isWorked ? (outcome?.makes[size] ?? null) : null]}`,
        );
      }
  }
  expect(compared.length).toBeGreaterThan(25);
  expect(alone).toEqual(among);
});
