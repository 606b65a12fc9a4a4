import { type Instruction, type RowPlan, type Take, type Target, targetsOf } from "../fabric/instructions";
import type { RowLine } from "../fabric/pattern";
import { type Run, runsOf } from "../fabric/strip";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { type Span, shift } from "../text/span";
import { stitchOf, type Terms } from "../trade/stitches";
import type { Found, RowRule } from "./rule";
import { listed, rowName, says } from "./wording";

/** A row fits, and names a stitch, a space or a chain that the row below does not have. */
export const noSuchPlace: RowRule = {
  id: "no-such-place",
  severity: "warning",
  documentation: `## What it finds
A row that fits and counts, but names what is not there: "ch-3 sp" over spaces of two chains, "in each dc" over a row of single crochet, "top of ch-4" where the row below begins with ch 3, "5th ch of ch-4".

## Why it matters
The maker looks for a place that does not exist, and doubts the rows before. Often an earlier row was changed and this one was not.

## Example
\`\`\`crochet
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: Ch 1, turn, *sc in next st, ch 2, sk next st; rep from * across. (5 sc, 5 ch-2 sps)
Row 3: Ch 1, turn, *2 sc in next ch-3 sp, sc in next sc; rep from * across. (15 sc)
\`\`\`

## Mended
\`\`\`crochet
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: Ch 1, turn, *sc in next st, ch 2, sk next st; rep from * across. (5 sc, 5 ch-2 sps)
Row 3: Ch 1, turn, *2 sc in next ch-2 sp, sc in next sc; rep from * across. (15 sc)
\`\`\`
`,
  check(row, piece) {
    const below = rowBelow(row, piece);
    if (!below) return [];
    const runs = runsBelow(below);
    const places = placesNamed(row.line.plan as RowPlan)
      .filter((place) => isOfRowBelow(place, row.line))
      .flatMap((place) => missingIn(place, row.line, runs, piece));
    const isLoop = (n: number): boolean => runs.some((run) => run.sort === "space" && run.chains === n);
    const chains = chainsNamed(row.line)
      .filter(({ isBare, chains }) => !isBare || (!isLoop(chains) && beginsWithChain.test(below.line.text)))
      .flatMap((chain) => otherChain(chain, row, below));
    const [first] = [...places, ...chains, ...joinsNamed(row.line)];
    return first ? [found(first, row, below)] : [];
  },
};

/** What is there in place of something that is not. */
interface Missing {
  /** As the row names it: `ch-3 sp`. */
  readonly named: string;
  readonly there: readonly string[];
  /** The word or number to change, in the text of the row. */
  readonly at: Span;
  readonly newText: string | null;
  /** The row's own beginning is meant, not the row below. */
  readonly isOwn: boolean;
}

/** The row that a right row is worked on; null where it is not known for sure. */
function rowBelow(row: WorkedRow, { rows }: WorkedPiece): WorkedRow | null {
  const { plan } = row.line;
  if (!plan || row.times === null || row.result !== "ok" || row.fault) return null;
  if (plan.foundation !== null || plan.onRow !== null || plan.onPiece.length > 0) return null;
  const below = rows[rows.indexOf(row) - 1];
  const isSure = below?.result === "ok" && below.assumptions.length === 0 && below.line.kind === "row";
  return below && isSure && row.below === below.line ? below : null;
}

function runsBelow({ outcome }: WorkedRow): readonly Run[] {
  return (outcome?.leaves.state ?? []).flatMap((state) => (state ? runsOf(state.strip) : []));
}

// Stitches and spaces

/** A place as the instructions name it. */
interface NamedPlace {
  readonly target: Target;
  readonly span: Span;
  /** The row makes such a chain itself, and that may be meant. */
  readonly maybeOwn: boolean;
}

/** Spaces of so many chains, and plain stitches. */
const placesNamed = keptBy(({ instructions }: RowPlan): readonly NamedPlace[] => {
  const own = new Set(chainsMade(instructions));
  return namedIn(instructions).map(({ target, span }) => {
    const maybeOwn = target.sort === "space" && own.has(target.chains ?? 0);
    return { target, span, maybeOwn };
  });
});

function namedIn(list: readonly Instruction[]): Omit<NamedPlace, "maybeOwn">[] {
  return list.flatMap((one, i): Omit<NamedPlace, "maybeOwn">[] => {
    if (one.op === "either") return namedIn(one.options[0] ?? []);
    if (one.op === "repeat") return namedIn(one.body);
    if (one.op !== "work" && one.op !== "group" && one.op !== "skip") return [];
    const isSpike = one.takes.some((take) => take.how === "next" && take.spike !== undefined);
    // `ch 2, dc in first sc` closes the round in its own first stitch.
    const closes = list[i - 1]?.op === "chain" && one.takes.some((take) => take.how === "next" && take.first);
    const targets = isSpike || closes ? [] : one.takes.flatMap(targetsNamed);
    return targets.filter(isPlain).map((target) => ({ target, span: one.span }));
  });
}

/** `same ch-5 loop` names a space too. */
function targetsNamed(take: Take): readonly Target[] {
  return take.how === "same" && take.chains !== undefined
    ? [{ sort: "space", chains: take.chains }]
    : targetsOf(take);
}

/** The space of a group is known by its chains as well; which stitch of a group is meant, is not. */
function isPlain({ sort, piece, unit, part, corner, chains, kind }: Target): boolean {
  if (piece) return false;
  if (sort === "space") return chains !== undefined;
  return sort === "stitch" && kind !== undefined && unit === undefined && part === undefined && !corner;
}

/** `in next ch-3 sp`, in a row that is not turned on its way, is of the row below. */
function isOfRowBelow({ span, maybeOwn }: NamedPlace, { text, plan }: RowLine): boolean {
  const ops = (plan?.instructions ?? []).map(({ op }) => op);
  const goesBack = ops.some((op, i) => op === "turn" && i > 1 && i < ops.length - 1);
  return !maybeOwn || (!goesBack && /\b(?:next|each|every)\b/i.test(text.slice(span.start, span.end)));
}

function chainsMade(list: readonly Instruction[]): number[] {
  return list.flatMap((one): number[] => {
    if (one.op === "either") return one.options.flatMap(chainsMade);
    if ("body" in one) return chainsMade(one.body);
    return one.op === "chain" ? one.n.flatMap((n) => n ?? []) : [];
  });
}

function missingIn(
  { target, span }: NamedPlace,
  line: RowLine,
  runs: readonly Run[],
  { context }: WorkedPiece,
): Missing[] {
  const { chains = 0, kind = "" } = target;
  const missing =
    target.sort === "space" ? missingSpace(chains, runs) : missingStitch(kind, runs, context.terms);
  const form =
    target.sort === "space"
      ? `(?<=\\bch(?:ain)?s?[\\s-]*)${chains}\\b|\\b${chains}(?=[\\s-]*ch)`
      : `\\b${kind}\\b`;
  return missing.map((one) => ({ ...one, at: lastIn(line, span, form), isOwn: false }));
}

/** Where the text of an instruction says something last. */
function lastIn({ text }: RowLine, { start, end }: Span, form: string): Span {
  const last = [...text.slice(start, end).matchAll(new RegExp(form, "gi"))].at(-1);
  return last ? { start: start + last.index, end: start + last.index + last[0].length } : { start, end };
}

type MissingSort = Pick<Missing, "named" | "there" | "newText">;

function missingSpace(chains: number, runs: readonly Run[]): MissingSort[] {
  const spaces = runs.filter(({ sort }) => sort === "space");
  const lengths = [...new Set(spaces.map((run) => run.chains ?? 1))];
  const isHalf = spaces.some((run) => run.halves !== undefined && run.chains === chains * run.halves);
  if (lengths.length === 0 || lengths.includes(chains) || isHalf) return [];
  const newText = lengths.length === 1 ? `${lengths[0]}` : null;
  return [{ named: `ch-${chains} sp`, there: lengths.map((n) => `ch-${n} sp`), newText }];
}

/** Only among plain stitches is it certain what each is called. */
function missingStitch(kind: string, runs: readonly Run[], terms: Terms): MissingSort[] {
  const kinds = [...new Set(runs.filter(({ sort }) => sort === "stitch").map((run) => run.kind))];
  const isCertain = [...kinds, kind].every((word) => stitchOf(word, terms)?.family === "plain");
  if (!isCertain || kinds.length === 0 || kinds.includes(kind) || kinds.includes("sl st")) return [];
  const newText = kinds.length === 1 ? (kinds[0] ?? null) : null;
  return [{ named: kind, there: kinds, newText }];
}

// Chains at the start of a row

/** `top of ch-3`, `3rd ch of turning ch-4`. */
interface NamedChain {
  readonly chains: number;
  readonly at: Span;
  /** Which of the chains is meant; null for the top. */
  readonly nth: (Span & { readonly n: number }) | null;
  /** The row's own start, where it is joined; else that of the row below. */
  readonly isOwn: boolean;
  /** `3rd of 4 ch`: of a loop, where the row below has one so long. */
  readonly isBare: boolean;
}

/** `1 tr into 3rd of 4 ch, turn. (14 tr)`: where a row ends. */
const lastOf =
  /\b(\d)(?:st|nd|rd|th)\s+of\s+(?:the\s+)?()(\d+)[\s-]?ch(?=[\s,.;]*(?:turn\b[\s,.;]*)?(?:\([^()]*\)[\s.]*)?(?:turn\b[\s.]*)?$)/gi;

/** Not one that is left of a starting chain, where nobody says how long it is. */
const beginsWithChain = /^\W*(?:turn\W+)?(?:\d+\s*ch|ch\w*\s*\d+)\b/i;

const startChain =
  /\b(?:top|(\d)(?:st|nd|rd|th)\s+(?:ch|chain))\s+of\s+(?:the\s+)?(?:beg(?:inning)?\s+|turning\s+|starting\s+|initial\s+|first\s+)?(?:ch(?:ain)?[\s-]?(\d+)|(\d+)[\s-]?ch)\b/gi;

function chainsNamed({ text, plan }: RowLine): NamedChain[] {
  if (!/\bof\b/.test(text)) return [];
  return [...text.matchAll(startChain), ...text.matchAll(lastOf)].map((match) => {
    const { 0: all, 1: which, 2: behind, 3: before, index } = match;
    const typed = behind || (before as string);
    const start = index + all.lastIndexOf(typed);
    const phrase = text.slice(0, index).split(/[,;.]/).at(-1) ?? "";
    // `…, ch 1, hdc in top of beg ch-3`: the stitch closes the round.
    const closes = !plan?.turns && /\bbeg/i.test(all) && /\bch\s*\d+\s*,[^,;.]*$/i.test(text.slice(0, index));
    const isOwn = closes || /\b(?:join|sl\s?st|ss)\b/i.test(phrase);
    const nth = which === undefined ? null : { n: Number(which), start: index, end: index + which.length };
    return {
      chains: Number(typed),
      at: { start, end: start + typed.length },
      nth,
      isOwn,
      isBare: behind === "",
    };
  });
}

function otherChain({ chains, at, nth, isOwn }: NamedChain, row: WorkedRow, below: WorkedRow): Missing[] {
  const start = openingOf(isOwn ? row : below);
  if (start === null) return [];
  if (start === chains) return nth && nth.n > chains ? [tooHigh(nth, chains, isOwn)] : [];
  const there = start > 1 ? `ch-${start}` : say`no chain that counts as a stitch`;
  return [{ named: `ch-${chains}`, there: [there], at, newText: start > 1 ? `${start}` : null, isOwn }];
}

/** `5th ch of ch-4`. */
function tooHigh({ n, start, end }: Span & { readonly n: number }, chains: number, isOwn: boolean): Missing {
  const named = say`the ${n}th ch of ch-${chains}`;
  return { named, there: [`ch-${chains}`], at: { start, end }, newText: null, isOwn };
}

/** The chains that a row itself begins with; null where it does not say. */
function openingOf({ line }: WorkedRow): number | null {
  const first = line.plan?.instructions.find(({ op }) => op !== "turn" && op !== "slip" && op !== "mark");
  return first?.op === "start" || first?.op === "chain" ? (first.n[0] ?? null) : null;
}

/** `join to first inc`, in a round that has no increase. */
const joinsTo = /\b(?:join|sl\s?st|ss)\b[^,;.()]*\bfirst (inc|dec)\b/i;

function joinsNamed({ text }: RowLine): Missing[] {
  const match = /\bfirst (?:inc|dec)\b/i.test(text) ? joinsTo.exec(text) : null;
  const [all, kind = ""] = match ?? [];
  if (!match || all === undefined || new RegExp(`\\b${kind}`, "i").test(text.slice(0, match.index)))
    return [];
  const end = match.index + all.length;
  const there = [/inc/i.test(kind) ? say`no increase` : say`no decrease`];
  const at = { start: end - kind.length, end };
  return [{ named: say`the first ${kind}`, there, at, newText: null, isOwn: true }];
}

// Telling

function found({ named: what, there, at, newText, isOwn }: Missing, row: WorkedRow, below: WorkedRow): Found {
  const span = shift(at, row.line.start);
  const where = isOwn
    ? say`it begins with ${there[0]}`
    : `${says(rowName(below), "has")} ${listed(there, "and")}`;
  const fixes = newText === null ? [] : [{ title: say`Write ${there[0]}`, edits: () => [{ span, newText }] }];
  return {
    span,
    message: say`${says(rowName(row), "names")} ${what}, and ${where}.${fixes.length > 0 ? say` Did you mean ${there[0]}?` : ""}`,
    fixes,
    related: isOwn ? [] : [{ span: below.line.span, message: say`${rowName(below)} is the row below.` }],
  };
}
