import type { Instruction, RowPlan } from "../fabric/instructions";
import type { RowLine } from "../fabric/pattern";
import { keptBy } from "../text/kept-by";
import { type Span, shift } from "../text/span";
import type { Found, RowRule } from "./rule";
import { rowName, says } from "./wording";

/** A row begins with the same chain twice, and nothing in it wants the second one. */
export const chainTwice: RowRule = {
  id: "chain-twice",
  severity: "warning",
  documentation: `## What it finds
A row that begins with the same chain twice, "Ch 1, ch 1", where the second one is no space of the row: neither its count nor any other of its chains is like it.

## Why it matters
A maker works both. The edge gets a hole, or the first stitch stands on too long a chain, and no count tells it.

## Example
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: Ch 1, ch 1, inc x6, join (12)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: 6 sc in mr (6)
Rnd 2: Ch 1, inc x6, join (12)
\`\`\`
`,
  check(row) {
    const { line } = row;
    const twice = line.plan && row.result === "ok" ? twiceIn(line.plan) : null;
    return twice ? [found(twice, rowName(row), line)] : [];
  },
};

/** From the first chain to the second, in the text of the row. */
interface Twice extends Span {
  readonly chains: number;
  readonly second: number;
}

const twiceIn = keptBy(({ text, instructions, stated }: RowPlan): Twice | null => {
  const [start, next, ...rest] = instructions;
  if (start?.op !== "start") return null;
  const again = firstOf(next);
  const chains = start.n[0] ?? 0;
  if (again?.op !== "chain" || start.n.length > 1 || again.n.length > 1 || again.n[0] !== chains) return null;
  // A remark between the two, `Ch 3 (counts as dc), ch 3`, says what each is for.
  if (!/^[\s,;.]*$/.test(text.slice(start.span.end, again.span.start))) return null;
  const isWanted = chains > 1 && (stated?.some(({ sort }) => sort === "space") || makesChain(rest, chains));
  return isWanted ? null : { start: start.span.start, end: again.span.end, chains, second: start.span.end };
});

/** What comes first, whichever way the rest is meant. */
function firstOf(one: Instruction | undefined): Instruction | undefined {
  if (one?.op === "either") return firstOf(one.options[0]?.[0]);
  return one;
}

function makesChain(list: readonly Instruction[], chains: number): boolean {
  return list.some((one) => {
    if (one.op === "either") return one.options.some((option) => makesChain(option, chains));
    if ("body" in one) return makesChain(one.body, chains);
    return one.op === "chain" && one.n.includes(chains);
  });
}

function found({ chains, second, ...at }: Twice, name: string, { start }: RowLine): Found {
  const span = shift(at, start);
  const edits = () => [{ span: { start: start + second, end: span.end }, newText: "" }];
  return {
    span,
    message: `${says(name, "begins")} with ch ${chains} twice. Did you mean it once?`,
    fixes: [{ title: "Write it once", edits }],
    related: [],
  };
}
