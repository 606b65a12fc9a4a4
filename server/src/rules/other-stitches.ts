import { isStepLoop, type Step, type Steps } from "../fabric/steps";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { shift } from "../text/span";
import { stitchOf, type Terms } from "../trade/stitches";
import type { Found, RowRule } from "./rule";
import { listed, rowName, says } from "./wording";

/** The count of a right row names one stitch, and a few of those it counts are another. */
export const otherStitches: RowRule = {
  id: "other-stitches",
  severity: "warning",
  documentation: `## What it finds
A row whose count names one stitch and comes out right only if some others are counted with it, or in its place: "36 dc" of a row that makes 34 dc and 2 sc, or 36 hdc. Decreases, post stitches and the like count as the stitch they are made of.

## Why it matters
Either a stitch was slipped in by mistake, or the count is not what a maker finds who checks it stitch by stitch.

## Example
\`\`\`crochet
Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)
Rnd 2: Ch 3 (counts as dc), sc in same st, 2 dc in each of next 11 dc, join. (24 dc)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)
Rnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each of next 11 dc, join. (24 dc)
\`\`\`
`,
  check(row, piece) {
    const size = row.result === "ok" ? (row.outcome?.counted.findIndex((one) => one?.mixed) ?? -1) : -1;
    return size < 0 ? [] : foundIn(row, piece, size);
  },
};

function foundIn(row: WorkedRow, { context: { terms } }: WorkedPiece, size: number): Found[] {
  const { plan, start } = row.line;
  const named = plan?.stated?.find(({ sort }) => sort === "stitch")?.noun;
  if (!plan || plan.copies || named === undefined) return [];
  const all = single(row.outcome?.steps[size] ?? [], 1);
  const others = all.filter(
    ({ step }) => step.sort === "stitch" && !step.kind.endsWith(named) && step.kind !== "sl st",
  );
  const [first] = others;
  if (!first || !others.every(({ step }) => isOther(step, terms))) return [];
  const kinds = new Map<string, number>();
  for (const { step, times } of others) kinds.set(step.kind, (kinds.get(step.kind) ?? 0) + step.n * times);
  const made = listed(
    [...kinds].map(([kind, n]) => `${n} ${kind}`),
    "and",
  );
  const name = rowName(row);
  const isNone = all.every(({ step }) => step.sort !== "stitch" || others.some((one) => one.step === step));
  if (isNone && (named === "sl st" || stitchOf(named, terms)?.family !== "plain")) return [];
  return [
    {
      span: shift(first.step.span, start),
      message: isNone
        ? say`${says(name, "counts")} ${named}, and there is none: it is ${made}. Did you mean ${named} here?`
        : say`${says(name, "counts")} ${named} only, and ${made} among them. Did you mean ${named} here?`,
      fixes: [],
      related: [],
    },
  ];
}

/** Steps with how often each is done, loops taken apart. */
function single(steps: readonly Steps[], times: number): { readonly step: Step; readonly times: number }[] {
  return steps.flatMap((step) =>
    isStepLoop(step) ? single(step.steps, times * step.times) : [{ step, times }],
  );
}

/** A plain stitch in a place of its own: what draws several places together is made of another stitch. */
function isOther({ kind, uses }: Step, terms: Terms): boolean {
  return uses <= 1 && stitchOf(kind, terms)?.family === "plain";
}
