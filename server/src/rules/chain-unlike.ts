import type { Instruction, RowPlan, StartOption, Target } from "../fabric/instructions";
import { inPieces, perPiece } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import { stitchOf } from "../trade/stitches";
import { startOf } from "./broken-notes";
import type { Found, PatternRule, WorkedPattern } from "./rule";
import { headOf, listed, rowName, says } from "./wording";

/** The chain that opens a row is not what it is in all other rows of the pattern. */
export const chainUnlike: PatternRule = {
  id: "chain-unlike",
  severity: "warning",
  documentation: `## What it finds
A row that is right only if its ch 3 does not count as a stitch, in a pattern where it does in all other rows; or the other way round. Also a row without such a chain among rows that all have one, a last loop that is of another length than those before it or is closed with too low a stitch, a chain that is said to count "throughout" and begins no other row, and one that is said to count as two stitches, as none or as an increase, and is one stitch by the count.

## Why it matters
Makers get used to a chain after three rows, and come out with a stitch too many or too few; often a number in the row is a slip of the hand.

## Example
\`\`\`crochet
Rnd 1: Ch 3 (counts as dc), 11 dc in magic ring, join. (12 dc)
Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24 dc)
Rnd 3: Ch 3, dc in each of next 24 dc, join. (24 dc)
Rnd 4: Ch 3, dc in each of next 23 dc, join. (24 dc)
\`\`\`

## Mended
\`\`\`crochet
Rnd 1: Ch 3 (counts as dc), 11 dc in magic ring, join. (12 dc)
Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24 dc)
Rnd 3: Ch 3, dc in each of next 23 dc, join. (24 dc)
Rnd 4: Ch 3, dc in each of next 23 dc, join. (24 dc)
\`\`\`
`,
  check(pattern) {
    const remarks = remarksIn(pattern).map(({ found, piece }) =>
      foundRemark({ ...found, piece }, found.said),
    );
    return [
      ...oddOnes(pattern),
      ...saidOfNone(pattern),
      ...remarks,
      ...foundMissing(pattern),
      ...foundLast(pattern),
    ];
  },
};

/** Rows that are right only if their chain is what it is in no other row; hardly ever there is one. */
function oddOnes(pattern: WorkedPattern): Found[] {
  if (unusualIn(pattern).length === 0) return [];
  const all = pattern.pieces.flatMap((piece) => openingsIn(piece).map((one) => ({ ...one, piece })));
  const unusual = all.filter(({ isUnusual }) => isUnusual);
  // Where there are many of them, they are how the pattern is written.
  return unusual.length > 8 ? [] : unusual.flatMap((one) => foundCounted(one, all) ?? []);
}

/** `Ch 4 (counts as dc throughout)`, and all other rows that begin with a dc have another chain. */
function saidOfNone(pattern: WorkedPattern): Found[] {
  return saidOfAllIn(pattern).flatMap(({ found: one, piece }) => {
    // `Ch 4 (counts as dc and ch 1)` is another beginning.
    const all = pattern.pieces
      .flatMap(openingsIn)
      .filter(({ option }) => option.kind === one.option.kind && option.space === 0);
    const lengths = new Set(all.filter((other) => other !== one).map(({ chains }) => chains));
    if (lengths.size !== 1 || lengths.has(one.chains) || all.length < 3) return [];
    const row = rowOf({ ...one, piece });
    const message = say`${says(rowName(row), "says")} of its ch ${one.chains} that it counts throughout, and no other row begins with ch ${one.chains}.`;
    return [{ span: shift(one.span, row.line.start), message, fixes: [], related: [] }];
  });
}

const saidOfAllIn = inPieces((piece): readonly Opening[] =>
  openingsIn(piece).filter(({ at, span }) =>
    ofAll.test((piece.rows[at] as WorkedRow).line.text.slice(span.end)),
  ),
);

const ofAll = /^\s*[([]\s*counts? as [^()[\]]*\b(?:throughout|now and)\b/i;

function rowOf({ at, piece }: OfPiece): WorkedRow {
  return piece.rows[at] as WorkedRow;
}

/** The chain that opens a row, as it was understood. */
interface Opening {
  /** The index of its row. */
  readonly at: number;
  readonly chains: number;
  readonly option: StartOption;
  /** Only the count makes it what it is. */
  readonly isUnusual: boolean;
  /** Of the chain, in the text of the row. */
  readonly span: Span;
}

/** Rows are made where they are asked for: only of those that something is found in. */
type OfPiece = Opening & { readonly piece: WorkedPiece };

const unusualIn = inPieces((piece) => openingsIn(piece).filter(({ isUnusual }) => isUnusual));

const openingsIn = perPiece(({ rows }) => rows.flatMap((row, at) => openingOf(row, at) ?? []));

function openingOf({ line, result, outcome, times }: WorkedRow, at: number): Opening | null {
  const start = result === "ok" && outcome && line.plan ? startOf(line.plan) : undefined;
  const [chains] = start?.n ?? [];
  if (!start || !outcome || chains == null || times === null) return null;
  if (!typed.test(line.text.slice(start.span.start, start.span.end))) return null;
  const taken = outcome.reading[start.choice] ?? 0;
  const option = start.options[taken];
  const cost = line.plan?.choices[start.choice]?.costs[taken] ?? 0;
  // A leg of a cluster, or one that stands on a slip stitch, is neither counted nor not.
  if (!option || option.counted !== option.takesPlace) return null;
  return { at, chains, option, isUnusual: cost > 0, span: start.span };
}

/** Not the chains that are left out at the start of a foundation. */
const typed = /^(?:ch(?:ain)?s?\W*\d+|\d+\W*ch\w*)$/i;

const remark =
  /^\s*[([]\s*count(?:s|ing)? as (?:the |an? |your )?(?:(?:first|1st) )?((?:0|[2-9]) ?[a-z]+|inc(?:rease)?|dec(?:rease)?)\b/i;

/** `Ch 3 (counts as 2 tr)`, in rows that are right only if it is one. */
const remarksIn = inPieces((piece): readonly (Opening & { readonly said: string })[] =>
  openingsIn(piece).flatMap((one) => {
    const { line } = piece.rows[one.at] as WorkedRow;
    const said = remark.exec(line.text.slice(one.span.end))?.[1];
    const isChains = said !== undefined && /ch$/i.test(said);
    return said === undefined || isChains || !one.option.counted || !line.plan?.stated
      ? []
      : [{ ...one, said }];
  }),
);

function foundRemark(one: OfPiece, said: string): Found {
  const { span, chains } = one;
  const row = rowOf(one);
  const behind = row.line.text.indexOf(said, span.end);
  return {
    span: shift({ start: span.start, end: behind + said.length }, row.line.start),
    message: say`${says(rowName(row), "says")} that its ch ${chains} counts as ${said}, and the row is right only if it counts as one stitch.`,
    fixes: [],
    related: [],
  };
}

/** Right only if its chain is what no other chain of that length is. */
function foundCounted(one: OfPiece, all: readonly OfPiece[]): Found[] | null {
  // Another piece may be worked in another stitch, and its chains in another way.
  const alike = all.filter(
    (other) => other !== one && other.chains === one.chains && other.piece === one.piece,
  );
  const isAlone = alike.every(({ option, isUnusual }) => !isUnusual && option.counted !== one.option.counted);
  if (!one.isUnusual || alike.length < 2 || !isAlone) return null;
  const row = rowName(rowOf(one));
  const names = listed(
    alike.slice(0, 3).map((other) => rowName(rowOf(other))),
    "and",
  );
  const message = one.option.counted
    ? say`${says(row, "is")} right only if its ch ${one.chains} counts as a stitch; in ${names} it does not.`
    : say`${says(row, "is")} right only if its ch ${one.chains} does not count as a stitch; in ${names} it does.`;
  return [foundOn(one, message, alike)];
}

/** The one row of a piece that is joined or turned and begins without a chain. */
function foundMissing(pattern: WorkedPattern): Found[] {
  return withoutChain(pattern).map(({ found, piece }) => {
    const row = piece.rows[found] as WorkedRow;
    return {
      span: headOf(row),
      message: say`${says(rowName(row), "begins")} without a chain, and all other rows here with one. Was it left out?`,
      fixes: [],
      related: [],
    };
  });
}

const withoutChain = inPieces(({ rows }): readonly number[] => {
  const closed = rows.flatMap((row, at) => (isClosed(row) ? [{ row, at }] : []));
  const bare = closed.filter(
    ({ row }) => row.line.plan && !startOf(row.line.plan) && beginsPlainly(row.line.plan.instructions),
  );
  const [one, ...others] = bare;
  if (!one || others.length > 0 || closed.length < 4 || one.at === 0) return [];
  const before = rows[one.at - 1]?.line.plan?.carried ?? [];
  return before.length === 0 && !opensOtherwise.test(one.row.line.text) ? [one.at] : [];
});

/** With a stitch in a stitch: slip stitches, chains and groups come up to the next row in their own way. */
function beginsPlainly(instructions: readonly Instruction[]): boolean {
  const first = instructions.find(({ op }) => op !== "turn" && op !== "mark");
  if (first?.op === "repeat") return beginsPlainly(first.body);
  if (first?.op === "either") return first.options.every(beginsPlainly);
  return first?.op === "work" && first.takes.every((take) => !("of" in take) || isStitch(take.of));
}

function isStitch(of: Target | readonly Target[]): boolean {
  return [of].flat().every(({ sort }) => sort === "stitch");
}

/** A row that has to come up to the next one: its end meets its beginning, or the work is turned. */
function isClosed({ line: { plan, kind }, result }: WorkedRow): boolean {
  const isPlain = kind === "row" && result === "ok" && plan !== null && plan.foundation === null;
  return isPlain && plan.copies === null && (plan.joins || plan.turns);
}

/** A stitch that needs no chain before it, a ring, another yarn. */
const opensOtherwise =
  /^\W*(?:(?:with|using) \w+,? )?(?:join|attach|rejoin|fdc|fhdc|fsc)\b|^.{0,50}\b(?:standing|chainless|stacked|csdc|ring|mr)\b/i;

/** `*ch 5, sk 2, sc in next sc; rep from * around, ending with ch 4, join`: the last loop is made like the others. */
function foundLast(pattern: WorkedPattern): Found[] {
  return lastLoopsIn(pattern).map(({ piece, found: { at, own, others, closing } }) => {
    const { line } = piece.rows[at] as WorkedRow;
    const message = closing
      ? say`The last loop of ${line.headText} is of ch ${own.n[0] ?? 0} and ${closing}, and the others are of ch ${others}. Did you mean a taller stitch?`
      : say`The last loop of ${line.headText} is of ch ${own.n[0] ?? 0}, and the others are of ch ${others}. Did you mean ch ${others}?`;
    return { span: shift(own.span, line.start), message, fixes: [], related: [] };
  });
}

const lastLoopsIn = inPieces(({ rows, context: { terms } }) =>
  rows.flatMap(({ line: { plan }, result }, at) => {
    const last = plan && result === "ok" ? lastLoop(plan) : null;
    const isTall = last?.closing && stitchOf(last.closing, terms)?.id !== "sc";
    return last && !isTall ? [{ at, ...last }] : [];
  }),
);

type Chain = Extract<Instruction, { op: "chain" }>;

interface LastLoop {
  readonly own: Chain;
  readonly others: number;
  /** The stitch that stands for the rest of its chains. */
  readonly closing: string | null;
}

const lastLoop = keptBy(({ instructions }: RowPlan): LastLoop | null => {
  for (const [at, one] of instructions.entries()) {
    if (one.op !== "repeat") continue;
    const [own, next, ...more] = one.ending?.with ?? instructions.slice(at + 1);
    if (own?.op !== "chain" || more.length > 0 || (!next && !one.ending)) continue;
    const chains = one.body.filter((part): part is Chain => part.op === "chain");
    const others = chains.length === 1 ? chains[0]?.n[0] : undefined;
    const closing = next ? inFirst(next) : null;
    const [n] = own.n;
    if (others == null || n == null || own.n.length > 1 || (next && closing === null)) continue;
    if (closing === null ? n !== others : n + lowest < others) return { own, others, closing };
  }
  return null;
});

/** A single crochet is as tall as one chain, and a loop may be one longer or shorter. */
const lowest = 2;

function inFirst(one: Instruction): string | null {
  const isFirst = one.op === "work" && one.takes.every((take) => take.how === "next" && take.first === true);
  return isFirst ? one.stitch.kind : null;
}

function foundOn(one: OfPiece, message: string, alike: readonly OfPiece[]): Found {
  return {
    span: shift(one.span, rowOf(one).line.start),
    message,
    fixes: [],
    related: alike.slice(0, 3).map((other) => ({
      span: shift(other.span, rowOf(other).line.start),
      message: say`Here it begins with ch ${other.chains}.`,
    })),
  };
}
