import type { Instruction, RowPlan } from "../fabric/instructions";
import type { RowLine } from "../fabric/pattern";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import type { Found, RowRule } from "./rule";
import { rowName, says } from "./wording";

/** The same chain stands twice, one behind the other, and nothing in the row wants the second one. */
export const chainTwice: RowRule = {
  id: "chain-twice",
  severity: "warning",
  documentation: `## What it finds
The same chain twice, one behind the other: "Ch 1, ch 1". At the start of a row the second one may be a space; where the count or another chain of the row is like it, nothing is said.

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
    // Of two chains before a first round, one may be its ring.
    return twice && !(twice.maybeRing && row.below === null) ? [found(twice, rowName(row), line)] : [];
  },
};

/** From the first chain to the second, in the text of the row. */
interface Twice extends Span {
  readonly chains: number;
  readonly second: number;
  readonly begins: boolean;
  readonly maybeRing: boolean;
}

const twiceIn = keptBy(({ text, instructions, carried, stated }: RowPlan): Twice | null => {
  const before = beforeStart(instructions, text);
  if (before) return before;
  const pairs = neighbours([...instructions, ...carried]);
  // A remark between the two, `Ch 3 (counts as dc), ch 3`, says what each is for.
  const alike = pairs.filter(
    ([one, other]) =>
      lengthOf(one) === lengthOf(other) && /^[\s,;.]*$/.test(text.slice(one.span.end, other.span.start)),
  );
  const meant = ([one]: Pair): boolean => {
    const chains = lengthOf(one) ?? 0;
    const isCounted = stated?.some(({ sort, chains: n = chains }) => sort === "space" && n === chains);
    return one.op === "start" && chains > 1 && (isCounted || chainsOf(instructions, chains) > 1);
  };
  const [one, other] = alike.find((pair) => lengthOf(pair[0]) !== null && !meant(pair)) ?? [];
  if (!one || !other) return null;
  return {
    start: one.span.start,
    end: other.span.end,
    chains: lengthOf(one) ?? 0,
    second: one.span.end,
    begins: one.op === "start",
    maybeRing: false,
  };
});

/** Before the chain that a first round begins with, another one may be its ring; one or two chains are none. */
const unread = /^\s*(?:ch(?:ain)?\s?(\d)|(\d)\s?ch)\b[\s,;.]*$/i;

function beforeStart([start]: readonly Instruction[], text: string): Twice | null {
  const chains = start?.op === "start" ? lengthOf(start) : null;
  if (!start || chains === null || start.span.start === 0) return null;
  const [said, one, other] = unread.exec(text.slice(0, start.span.start)) ?? [];
  if (said === undefined || Number(one ?? other) !== chains) return null;
  const at = text.search(/\S/);
  return {
    start: at,
    end: start.span.end,
    chains,
    second: at + said.trim().replace(/[\s,;.]+$/, "").length,
    begins: true,
    maybeRing: chains > 2 && !/\bmagic|\bmr\b/i.test(text),
  };
}

type Chain = Extract<Instruction, { op: "start" | "chain" }>;
type Pair = readonly [Chain, Chain];

/** Chains with another one right behind them. */
function neighbours(list: readonly Instruction[]): Pair[] {
  return list.flatMap((one, i): Pair[] => {
    if (one.op === "either") return neighbours(one.options[0] ?? []);
    if ("body" in one) return neighbours(one.body);
    const next = firstOf(list[i + 1]);
    return isChain(one) && isChain(next) ? [[one, next]] : [];
  });
}

function isChain(one: Instruction | undefined): one is Chain {
  return one?.op === "start" || one?.op === "chain";
}

/** What comes first, whichever way the rest is meant. */
function firstOf(one: Instruction | undefined): Instruction | undefined {
  return one?.op === "either" ? firstOf(one.options[0]?.[0]) : one;
}

/** The same for all sizes; null where it is not. */
function lengthOf({ n }: Chain): number | null {
  return n.length === 1 ? (n[0] ?? null) : null;
}

/** How many chains of a length there are, but for the one that begins the row. */
function chainsOf(list: readonly Instruction[], chains: number): number {
  return list.reduce((sum, one) => {
    if (one.op === "either") return sum + chainsOf(one.options[0] ?? [], chains);
    if ("body" in one) return sum + chainsOf(one.body, chains);
    return one.op === "chain" && one.n.includes(chains) ? sum + 1 : sum;
  }, 0);
}

function found(
  { chains, second, begins, maybeRing: _, ...at }: Twice,
  name: string,
  { start }: RowLine,
): Found {
  const span = shift(at, start);
  const edits = () => [{ span: { start: start + second, end: span.end }, newText: "" }];
  return {
    span,
    message: begins
      ? say`${says(name, "begins")} with ch ${chains} twice. Did you mean it once?`
      : say`${says(name, "has")} ch ${chains} twice, one behind the other. Did you mean it once, or ch ${2 * chains}?`,
    fixes: [{ title: say`Write it once`, edits }],
    related: [],
  };
}
