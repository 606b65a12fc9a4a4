import type { Below } from "../fabric/below";
import type { State } from "../fabric/outcome";
import { hasProfile, profileOf } from "../fabric/profile";
import { type Span, type TextEdit, withEdits } from "../text/span";
import { numberWords } from "../trade/number-words";
import { editsFor, type Slot, slotsOf, spelledOut } from "./number-slots";
import { type Rewritten, rewritten } from "./rewritten";
import { proved, type RowTrial } from "./row-trial";

/** A row along a chain: the chain is made longer or shorter, and what is counted off along it. */
export function byChain(trial: RowTrial, makes: number): Rewritten | null {
  const chain = trial.row.line.plan?.foundation ? ownChain(trial) : chainBelow(trial);
  if (!chain) return null;
  const free = chainFor(trial, makes, chain.n);
  if (free !== null) return chain.changed(free, trial.text);
  const by = makes - (trial.outcome.makes[0] ?? 0);
  const runs = slotsOf(trial).filter(({ isChain, n }) => !isChain && n + by >= 1);
  for (const slot of runs) {
    // Along both sides of a chain, each chain more is two stitches more.
    const each = by / slot.spans.length;
    if (!Number.isInteger(each)) continue;
    const found = chain.changed(chain.n + each, withEdits(trial.text, editsFor(slot, slot.n + each)), slot);
    if (found?.makes === makes) return found;
  }
  return null;
}

/** The chain that a row is worked along. */
interface Chain {
  readonly n: number;
  /** The row with another chain, and with `text` for its own, in which `slot` was changed. */
  changed(n: number, text: string, slot?: Slot): Rewritten | null;
}

/** The row itself begins with its chain. */
function ownChain(trial: RowTrial): Chain | null {
  const n = trial.row.line.plan?.foundation?.[0] ?? null;
  const own = slotsOf(trial).find((slot) => slot.isChain && slot.n === n);
  if (n === null || !own) return null;
  const changed = (to: number, _: string, slot?: Slot): Rewritten | null => {
    const run = slot ? editsFor(slot, slot.n + to - n) : [];
    const found = proved(trial, withEdits(trial.text, [...editsFor(own, to), ...run]));
    return found && rewritten(trial, found, "numbers");
  };
  return { n, changed };
}

/** The chain is on a line of its own. */
function chainBelow(trial: RowTrial): Chain | null {
  const { below, found } = trial.row;
  const n = chainIn(found?.state[0] ?? null);
  const typed = below?.kind === "foundation" && n ? chainTyped(below.text, n) : null;
  if (!typed || !found || !n) return null;
  const changed = (to: number, text: string): Rewritten | null => {
    const right = proved(trial, text, withChain(found.state, to));
    return right && { ...rewritten(trial, right, "numbers"), chainEdits: [typed(to)] };
  };
  return { n, changed };
}

/** A chain to be worked along, or one that was joined into a ring. */
function chainIn(below: Below | null): number | null {
  const [run, ...others] = below?.strip ?? [];
  if (below?.chain != null || !run || others.length > 0 || !("sort" in run)) return below?.chain ?? null;
  return run.sort === "chain" ? run.n : null;
}

function withChain(state: State, chain: number): State {
  return state.map(
    (below) =>
      below &&
      (below.chain === null
        ? { ...below, strip: below.strip.map((run) => ({ ...run, n: chain })) }
        : { ...below, chain }),
  );
}

/** Where a line tells how long its chain is: `Ch 12`, `Chain twelve`, `a chain of 10 plus 1 to turn`; null where that is not plain. */
function chainTyped(text: string, n: number): ((to: number) => TextEdit) | null {
  const numbers = [...text.matchAll(/\d+/g)].map((match) => ({ n: Number(match[0]), span: spanOf(match) }));
  const [only, ...others] = numbers.filter((one) => one.n === n);
  if (only) return others.length > 0 ? null : (to) => ({ span: only.span, newText: `${to}` });
  const [first, turning] = numbers;
  if (numbers.length === 2 && first && turning && first.n + turning.n === n && /\bplus\b|\+/i.test(text))
    return (to) => ({ span: first.span, newText: `${to - turning.n}` });
  const [word, ...more] = [...text.matchAll(/\p{L}+/gu)].filter(
    ([typed]) => numberWords.get(typed.toLowerCase()) === n,
  );
  return word && more.length === 0 ? (to) => ({ span: spanOf(word), newText: spelledOut(to) }) : null;
}

function spanOf({ 0: typed, index }: RegExpExecArray): Span {
  return { start: index, end: index + typed.length };
}

function chainFor({ outcome }: RowTrial, makes: number, chain: number): number | null {
  const profile = profileOf(outcome, 0);
  if (!hasProfile(profile) || !profile.repeat?.isFree) return null;
  // What a row counts in things of no name, `2 fans`, goes with its repeats.
  const made = profile.makes ?? { base: 0, each: (outcome.makes[0] ?? 0) / profile.k };
  if (!made.each) return null;
  const passes = (makes - made.base) / made.each - profile.k;
  const to = chain + passes * profile.needs.each;
  return Number.isInteger(passes) && to >= 1 ? to : null;
}
