import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { foldsOf } from "../../server/src/features/outline/folding";
import { selectionsAt } from "../../server/src/features/outline/selection";
import { type OutlineEntry, outlineEntries } from "../../server/src/features/outline/symbols";
import { yarnColours } from "../../server/src/features/yarn-colours";
import { Checker } from "../../server/src/workspace/checker";
import { marked, outdented } from "./marked-pattern";

const POUCH = outdented(`
  Pouch

  Materials
  Cotton: 20 g navy (A), 10 g light blue (B)

  Special stitches
  Shell: 5 dc in one st.

  Body
  With A:
  Rnd 1: 6 sc in ring (6)
  Rnd 2: inc x6 (12)

  Handle (make 2)
  Row 1: ch 13, sc in 2nd ch from hook and in next 11 ch (12)
`);

function worked(text: string) {
  return new Checker().work(text).worked;
}

/** `piece Body > row Rnd 1 (6 sts)`. */
function shown(entries: readonly OutlineEntry[], depth = ""): string[] {
  return entries.flatMap(({ kind, name, detail, inside }) => [
    `${depth}${kind} ${name}${detail ? ` (${detail})` : ""}`,
    ...shown(inside, `${depth}> `),
  ]);
}

test("the outline has the parts, the pieces with their rows, and the special stitches", () => {
  expect(shown(outlineEntries(worked(POUCH)))).toEqual(
    expect.arrayContaining([
      "> special stitch Shell (5 dc in one st.)",
      "piece Body",
      "> row Rnd 1 (6 sts)",
      "> row Rnd 2 (12 sts)",
      "piece Handle (make 2)",
      "> row Row 1 (12 sts)",
    ]),
  );
});

test.each(["buoy-toy", "net-bag", "stall-hat", "tide-ripple-blanket", "first-draft"])(
  "in the outline of %s each entry lies in the one around it, and names itself inside",
  (sample) => {
    const text = readFileSync(new URL(`../../samples/${sample}.crochet`, import.meta.url), "utf8");
    const check = ({ span, nameSpan, inside, name }: OutlineEntry): void => {
      expect(name).not.toBe("");
      expect(nameSpan.start).toBeGreaterThanOrEqual(span.start);
      expect(nameSpan.end).toBeLessThanOrEqual(span.end);
      for (const one of inside) {
        expect(one.span.start).toBeGreaterThanOrEqual(span.start);
        expect(one.span.end).toBeLessThanOrEqual(span.end);
        check(one);
      }
    };
    const entries = outlineEntries(worked(text));
    expect(entries.length).toBeGreaterThan(1);
    entries.forEach(check);
  },
);

test("a part is folded under its heading, without the blank lines behind", () => {
  const folded = foldsOf(worked(POUCH)).map(({ start, end }) => POUCH.slice(start, end));
  expect(folded).toContain("Body\nWith A:\nRnd 1: 6 sc in ring (6)\nRnd 2: inc x6 (12)");
  expect(folded.some((fold) => fold.startsWith("Handle (make 2)\nRow 1"))).toBe(true);
});

describe("a selection grows", () => {
  test("from the word to its stitch, the repeat, the instructions, the row, the piece, the pattern", () => {
    const {
      text,
      offset,
      worked: pattern,
    } = marked(
      "Body\nRnd 1: 6 sc in ring (6)\nRnd 2: *sc in ne$0xt st, inc; rep from * around. (9)\nFasten off.",
    );
    const grown = selectionsAt(pattern, offset).map(({ start, end }) => text.slice(start, end));
    expect(grown[0]).toBe("next");
    expect(grown).toContain("sc in next st");
    expect(grown).toContain("*sc in next st, inc; rep from * around. (9)");
    expect(grown).toContain("Rnd 2: *sc in next st, inc; rep from * around. (9)");
    expect(grown.at(-1)).toBe(text);
  });

  test("by stretches of which each holds the one before", () => {
    const pattern = worked(POUCH);
    for (let at = 0; at <= POUCH.length; at += 3) {
      const spans = selectionsAt(pattern, at);
      for (const [i, span] of spans.slice(1).entries()) {
        const inner = spans[i] as (typeof spans)[number];
        expect(span.start <= inner.start && inner.end <= span.end).toBe(true);
      }
      expect(spans.at(-1)).toEqual({ start: 0, end: POUCH.length });
    }
  });
});

/* Source of the values: CSS Color Module Level 4, "Named Colors" (www.w3.org/TR/css-color-4/#named-colors). */
test("yarns have the colours of their names, and letters those of their yarns", () => {
  const found = yarnColours(worked(POUCH)).map(({ span, value }) => [
    POUCH.slice(span.start, span.end),
    ...value,
  ]);
  expect(found).toEqual([
    ["navy", 0, 0, 128],
    ["light blue", 173, 216, 230],
    ["A", 0, 0, 128],
  ]);
});
