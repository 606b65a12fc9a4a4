import type { Sized } from "../notation/words";
import { say } from "../text/say";
import type { BindContext } from "./bind";
import { skippedChains } from "./bind-chain";
import {
  closingInTurning,
  closingLoop,
  reserveLast,
  shapedAlong,
  shapedAtEnds,
  withEnding,
  withRoundEnd,
  withToldLast,
} from "./bind-ends";
import { withLoneLine } from "./bind-lone-line";
import { sideBySide } from "./bind-side-by-side";
import { type Declared, fromHookNext, openRow } from "./bind-start";
import {
  type Choice,
  type Instruction,
  piecesIn,
  type RowPlan,
  type Take,
  takesIn,
  targetsOf,
} from "./instructions";
import { inOnePlace } from "./one-place";

type Rest = Pick<RowPlan, "instructions" | "choices" | "carried" | "carriedDeclared" | "foundation">;

/**
 * What only a whole row can tell: the chain that opens it, the chain at its end that opens the next
 * one, and a line without marks that is worked over and over.
 */
export function rowChoices(
  bound: readonly Instruction[],
  text: string,
  choices: Choice[],
  declared: Declared | null,
  context: BindContext,
): Rest {
  const whole = leavingRest(
    shapedAtEnds(shapedAlong(withoutRing(inOnePlace(allIntoRing(atJoin(bound)), choices)))),
    choices,
  );
  // What ends the last repeat ends before the chain that opens the next row.
  const { kept: ownPart, carried } = splitCarried(whole);
  const own = closingLoop(sideBySide(ownPart), choices, context.terms);
  const withStart = withRoundEnd(
    withToldLast(reserveLast(closingInTurning(withEnding(own, choices))), choices),
    choices,
  );
  const { kept, foundation } = splitFoundation(withStart, text);
  const late = declared !== null && carried.length > 0 && declared.from > (carried[0]?.span.start ?? 0);
  const onChain = skippedChains(kept, foundation, choices, late ? null : declared, context);
  const opened =
    onChain ?? (joinsPieces(kept) ? kept : openRow(kept, choices, late ? null : declared, context));
  return {
    instructions: piecesIn(opened).length > 0 ? opened : withLoneLine(opened, text, choices),
    choices,
    carried,
    foundation,
    carriedDeclared: late ? declared : null,
  };
}

/** `In magic ring, ch 3, 2 dc, ch 2, (3 dc, ch 2) 3 times`: where no other place is named, all of it goes there. */
function allIntoRing(all: readonly Instruction[]): readonly Instruction[] {
  const [first, ...others] = all;
  const inRing = first?.op === "group" && first.takes.every(({ how }) => how === "nowhere");
  const unplaced = takesIn(others).every((take) => take.how === "next" && take.unplaced);
  return first && inRing && others.length > 0 && unplaced ? [first, ...others.map(intoRing)] : all;
}

export function intoRing(one: Instruction): Instruction {
  if (one.op === "repeat") return { ...one, body: one.body.map(intoRing) };
  if (one.op !== "work") return one;
  const [take] = one.takes;
  return { ...one, per: take?.how === "next" ? take.n : one.per, takes: [{ how: "nowhere" }] };
}

/** At the start of a row, `the dc you just made` is the one that closed the loop of the round before. */
function atJoin(all: readonly Instruction[]): readonly Instruction[] {
  const first = all.findIndex((one) => "takes" in one);
  const one = all[first];
  if (one?.op !== "work" || one.takes[0]?.how !== "made") return all;
  return all.with(first, { ...one, takes: [{ how: "same", inSpace: true }] });
}

/** `Ch 4, join into a ring, ch 3, 11 dc into ring`: the ring is no part of the round. */
function withoutRing(all: readonly Instruction[]): readonly Instruction[] {
  const [first, second] = all;
  // `Ch 4, join; ch 4, 2 tr in ring`
  const unsaid = first?.op === "chain" && second?.op === "chain";
  const works = takesIn(all.slice(2));
  if (unsaid && works.length > 0 && works.every(({ how }) => how === "nowhere")) return all.slice(1);
  const at = all.findIndex(({ op }) => op === "ring");
  const isMade =
    at > 0 && at < all.length - 1 && all.slice(0, at).every(({ op }) => op === "chain" || op === "mark");
  return isMade ? all.slice(at + 1) : all.filter(({ op }) => op !== "ring");
}

/** Stitches before the end that a row may stop short of although it does not say that it leaves them. */
const leastLeft = 3;

/** `sc in each st to last 4 sts, turn`, `until 4 sts remain`: nothing follows, so they are left. */
function leavingRest(all: readonly Instruction[], choices: Choice[]): readonly Instruction[] {
  const at = all.findLastIndex((one) => takesIn([one]).length > 0);
  const run = all[at];
  const take = run?.op === "work" ? run.takes.at(-1) : undefined;
  if (!run || take?.how !== "each" || take.until === null || take.until === "marked" || !("n" in take.until))
    return all;
  const rest: Take = { how: "each", of: [{ sort: "stitch" }], until: null };
  const leave: Instruction = { op: "skip", takes: [rest], span: run.span };
  if (take.until.remain) return all.toSpliced(at + 1, 0, leave);
  const turns = all.slice(at).some(({ op }) => op === "turn");
  if (!turns || take.until.n.some((n) => (n ?? leastLeft) < leastLeft)) return all;
  const left = take.until.n.join("/");
  const choice =
    choices.push({
      options: [
        say`the row goes on over the last ${left} stitches`,
        say`the last ${left} stitches are left unworked`,
      ],
      costs: [0, 0.5],
    }) - 1;
  return all.toSpliced(at + 1, 0, { op: "either", choice, options: [[], [leave]], span: run.span });
}

/** `ch 2, join to first leg, … 2 sc on chain`: the chain that opens the row lies between two pieces. */
function joinsPieces(all: readonly Instruction[]): boolean {
  const onChain = takesIn(all).some((take) => targetsOf(take).some(({ sort }) => sort === "chain"));
  return onChain && piecesIn(all).length > 0;
}

/** `…, ch 1, turn.` at the end: the chain belongs to the next row. */
function splitCarried(all: readonly Instruction[]): {
  kept: readonly Instruction[];
  carried: readonly Instruction[];
} {
  const [turn, chain] = [all.at(-1), all.at(-2)];
  if (all.length > 2 && turn?.op === "turn" && chain?.op === "chain")
    return { kept: all.slice(0, -2), carried: [chain] };
  return { kept: all, carried: [] };
}

/** `Ch 64, join with sl st to form ring; ch 1, sc in each ch around`: joined, and worked all around. */
const joinedChain =
  /^\W*(?:ch(?:ain)?\s*\d+|\d+\s*ch)\b[^;:.,]*[;,.]\s*(?:(?:and|then)\s+)?(?:join|sl\s?st|ss)\b/i;

function beginsJoined([chain, next, ...others]: readonly Instruction[], text: string): boolean {
  if (chain?.op !== "chain" || (chain.n[0] ?? 0) <= longestRing || !joinedChain.test(text)) return false;
  const [work] = next?.op === "chain" ? others : [next];
  return work?.op === "work" && work.takes[0]?.how === "each";
}

/** Chains of a ring that stitches go into, not onto. */
const longestRing = 10;

/** `Ch 13, sc in 2nd ch from hook…`: the row makes its own starting chain. */
function splitFoundation(
  all: readonly Instruction[],
  text: string,
): {
  kept: readonly Instruction[];
  foundation: Sized | null;
} {
  const at = all.findIndex((instruction) => !["mark", "unknown", "begins", "turn"].includes(instruction.op));
  const first = all[at];
  const begins = first?.op === "chain" && all.length > at + 1;
  if (!begins || !(fromHookNext(all.slice(at + 1)) || beginsJoined(all.slice(at), text)))
    return { kept: all, foundation: null };
  return { kept: all.filter((_, i) => i !== at), foundation: first.n };
}
