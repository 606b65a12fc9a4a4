import { type Instruction, type RowPlan, takesIn } from "../fabric/instructions";
import type { WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import type { Found, RowRule } from "./rule";
import { rowName, says } from "./wording";

/** A row has a count, and no word of what is worked. */
export const nothingWorked: RowRule = {
  id: "nothing-worked",
  severity: "error",
  documentation: `## What it finds
A row that has a chain, a join or a turn and a count, and says nothing of what is worked: "Ch 3, join. (24)", "Ch 1, join. 24 sc.", as if its middle were cut out; or repeats chains alone: "(ch 5) 6 times".

## Why it matters
The instruction was left out; the maker has only the count to guess it from.

## Example
\`\`\`crochet
Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)
Rnd 2: Ch 3 (counts as dc), join. (24 dc)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)
Rnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each st around, join. (24 dc)
\`\`\`
`,
  check(row) {
    const { plan } = row.line;
    const isEmpty = row.fault?.sort === "nothing-worked" || (plan !== null && isCountOnly(row, plan));
    if (isEmpty) return [found(row)];
    const chains = plan && row.result !== "ok" ? chainsAlone(plan) : null;
    return chains ? [foundChains(row, shift(chains, row.line.start))] : [];
  },
};

/** `(ch 5) 6 times`: nothing holds the loops. */
const chainsAlone = keptBy(
  ({ instructions }: RowPlan): Span | null =>
    instructions.find(
      (one) => one.op === "repeat" && one.body.length > 0 && one.body.every(({ op }) => op === "chain"),
    )?.span ?? null,
);

function foundChains(row: WorkedRow, span: Span): Found {
  return {
    span,
    message: say`${says(rowName(row), "has")} a repeat of chains alone, and no stitch between them. Write what was left out.`,
    fixes: [],
    related: [],
  };
}

/** `Ch 1, join. 24 sc.`: what stands behind the join is the count, which reads as work where there is no other. */
function isCountOnly({ result, below, line }: WorkedRow, plan: RowPlan): boolean {
  return (
    result === "ok" &&
    below !== null &&
    below.kind !== "foundation" &&
    line.head !== null &&
    closesAtOnce(plan)
  );
}

const closesAtOnce = keptBy(({ text, instructions, stated }: RowPlan): boolean => {
  const [start, work, ...others] = instructions;
  if (stated !== null || others.length > 0 || !isChain(start) || work?.op !== "work") return false;
  const [take] = takesIn([work]);
  const isNumber = take?.how === "next" && (take.n[0] ?? 1) > 1;
  return isNumber && joinThen.test(text.slice(start.span.end, work.span.end));
});

/** Not of another yarn, and not into a ring. */
const joinThen =
  /^[\s,;]*(?:join|(?:join with (?:a )?)?(?:sl st|ss)(?: (?:in|to|into) (?:the )?(?:first|top|beg)\b[^.;\d]*)?)\s*[.;]\s*\d/i;

function isChain(one: Instruction | undefined): one is Extract<Instruction, { op: "start" | "chain" }> {
  return one?.op === "start" || one?.op === "chain";
}

function found(row: WorkedRow): Found {
  return {
    span: row.line.span,
    message: say`${says(rowName(row), "has")} a count, and no word of what is worked. Write what was left out.`,
    fixes: [],
    related: row.below
      ? [{ span: row.below.span, message: say`${row.below.headText} is the row below.` }]
      : [],
  };
}
