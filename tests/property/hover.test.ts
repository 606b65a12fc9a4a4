import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { takesIn } from "../../server/src/fabric/instructions";
import { isStepLoop, type Steps } from "../../server/src/fabric/steps";
import { hoverAt } from "../../server/src/features/hover/hover";
import { pieceLenses } from "../../server/src/features/piece-lens";
import { type Item, isPass, passesOf } from "../../server/src/features/proof/passes";
import { proofLines } from "../../server/src/features/proof/proof-lines";
import { proofTextAt } from "../../server/src/features/proof/proof-text";
import { statusAt } from "../../server/src/features/row-status";
import { toMarkdown } from "../../server/src/features/shown/markdown";
import { Checker } from "../../server/src/workspace/checker";
import { anyText, corpus, runs } from "./pattern-texts";

function worked(text: string) {
  return new Checker().work(text).worked;
}

test("in any text, every place can be pointed at, and what is shown stands under it", () => {
  const check = (text: string, parts: readonly number[]) => {
    const pattern = worked(text);
    for (const offset of parts.map((part) => Math.round(part * text.length))) {
      const hover = hoverAt(pattern, offset);
      if (!hover) continue;
      expect(toMarkdown(hover.blocks)).not.toBe("");
      expect(hover.span.start).toBeLessThanOrEqual(offset);
      expect(hover.span.end).toBeGreaterThanOrEqual(offset);
      expect(hover.span.end).toBeLessThanOrEqual(text.length);
    }
  };
  const places = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 });
  fc.assert(fc.property(anyText, places, check), { numRuns: runs });
});

test("in any text, status, proof and lenses are told", () => {
  const check = (text: string, part: number) => {
    const pattern = worked(text);
    const offset = Math.round(part * text.length);
    const [status, proof] = [statusAt(pattern, offset), proofTextAt(pattern, offset)];
    expect(status === null).toBe(proof === null);
    if (proof) expect([proof.text, proof.reason]).toContain(null);
    expect(pieceLenses(pattern)).toHaveLength(pattern.pieces.length);
  };
  fc.assert(fc.property(anyText, fc.double({ min: 0, max: 1, noNaN: true }), check), { numRuns: runs });
});

/** What is done on one place: how many it newly uses, how many stitches it makes. */
type Once = readonly [uses: number, makes: number];

/** More than this is not listed one by one. */
const most = 20_000;

function fromSteps(steps: readonly Steps[], out: Once[] = []): Once[] {
  for (const step of steps) {
    if (out.length > most) return out;
    if (isStepLoop(step)) {
      for (let pass = 0; pass < step.times && out.length <= most; pass++) {
        if (step.group === undefined) fromSteps(step.steps, out);
        else out.push(together(fromSteps(step.steps)));
      }
    } else if (step.sort === "none") for (let i = 0; i < step.n; i++) out.push([step.uses, 0]);
    else
      for (let i = 0; i < step.n / step.perPlace; i++)
        out.push([step.uses, step.sort === "stitch" ? step.perPlace : 0]);
  }
  return out;
}

/** A group is one thing, done in one place. */
function together(all: readonly Once[]): Once {
  return [all.reduce((sum, [uses]) => sum + uses, 0), all.reduce((sum, [, makes]) => sum + makes, 0)];
}

function fromItems(items: readonly Item[], out: Once[] = []): Once[] {
  for (const item of items) {
    if (isPass(item))
      for (let pass = 0; pass < item.times && out.length <= most; pass++) fromItems(item.items, out);
    else for (let i = 0; i < item.places && out.length <= most; i++) out.push([item.uses, item.makes]);
  }
  return out;
}

const telling = { instructions: new Map(), noun: "stitch", onRing: false } as const;

/** Every row of the corpus that was worked out, in each size. */
const rows = corpus.flatMap((text) =>
  worked(text).pieces.flatMap(({ rows }) =>
    rows.flatMap(({ line, outcome, result, times }) =>
      (outcome?.steps ?? [])
        .map((steps, size) => ({
          name: line.text,
          steps,
          size,
          needs: outcome?.needs[size] ?? null,
          isOne: times?.[0] === 1,
          isOpen: takesIn(line.plan?.instructions ?? []).some(({ how }) => how === "nowhere"),
        }))
        .filter(({ steps }) => steps.length > 0 && result !== "unchecked"),
    ),
  ),
);

describe("the proof of every row of the samples and cases", () => {
  test("there are enough of them", () => {
    expect(rows.length).toBeGreaterThan(800);
  });

  test("draws together what is alike, and nothing is lost", () => {
    for (const { name, steps } of rows)
      expect(fromItems(passesOf(steps, telling)).slice(0, most), name).toEqual(
        fromSteps(steps).slice(0, most),
      );
  });

  test("numbers each place and each stitch once, from the first to the last", () => {
    for (const { name, steps, needs, isOne, isOpen } of rows) {
      const lines = proofLines(passesOf(steps, telling));
      const places = ends(lines.map((line) => line.places));
      const made = ends(lines.map((line) => line.makes));
      const [uses, makes] = together(fromSteps(steps));
      expect(places, name).toBe(uses);
      expect(made, name).toBe(makes);
      // Of several rows in one line the needs are the first one's, the steps the last one's.
      // "9 sc evenly down the side": nobody knows all its places, only those it names.
      if (isOne && !(needs === null && isOpen)) expect(uses, name).toBe(needs ?? 0);
      expect(Number(lines.at(-1)?.sum), name).toBe(makes);
    }
  });
});

/** The end of stretches `1–2`, `3`, `4–18` that follow one another; -1 where they do not. */
function ends(stretches: readonly string[]): number {
  let end = 0;
  for (const stretch of stretches.filter((one) => one !== "")) {
    const [from = 0, to = from] = stretch.split("–").map(Number);
    if (from !== end + 1) return -1;
    end = to;
  }
  return end;
}
