import { forSize } from "../../fabric/instructions";
import type { State } from "../../fabric/outcome";
import { say } from "../../text/say";
import type { Mend } from "./mend";
import type { Trial } from "./trial";

/** Chains; a slip in the starting chain is one or two, a turning chain forgotten or counted twice. */
const slipAtMost = 2;

/** A starting chain on its own line that is a chain or two too long or too short. */
export function startingChain(trial: Trial): Mend[] {
  const { below, found } = trial.row;
  if (below?.kind !== "foundation" || !found) return [];
  const longer = missing(trial);
  if (longer.some((n) => Math.abs(n) > slipAtMost) || longer.every((n) => n === 0)) return [];
  const state = withChains(found.state, longer);
  if (!state || !trial.isRightOn(state)) return [];
  const digits = chainNumbers(below.text, found.state);
  const changes = [
    ...new Map(
      digits.map((match, size) => [match.index, { match, to: Number(match[0]) + (longer[size] ?? 0) }]),
    ).values(),
  ];
  if (changes.length === 0 || changes.length < new Set(longer).size) return [];
  const edits = changes.map(({ match, to }) => ({
    line: "below" as const,
    span: { start: match.index, end: match.index + match[0].length },
    newText: `${to}`,
  }));
  const chains = changes.map(({ to }) => to).join("/");
  return [
    {
      kind: "starting-chain",
      title: say`Change the starting chain to ch ${chains}`,
      question: say`With ch ${chains} it fits.`,
      exchange: say`ch ${chains} to begin with`,
      edits,
    },
  ];
}

/** Chains too few, by size: places that lack, or, in a row to the end of the chain, stitches. */
function missing({ asWritten, row }: Trial): number[] {
  const { needs, has, makes, fits } = asWritten;
  if (!fits) return needs.map((n, size) => (n ?? 0) - (has[size] ?? 0));
  const [only, ...others] = row.line.plan?.stated ?? [];
  return only && others.length === 0 ? makes.map((n, size) => (forSize(only.n, size) ?? 0) - (n ?? 0)) : [];
}

function withChains(state: State, longer: readonly number[]): State | null {
  if (!state.every((below) => below === null || below.chain !== null)) return null;
  return state.map((below, size) => below && { ...below, chain: (below.chain ?? 0) + (longer[size] ?? 0) });
}

/** Where the line says how many chains there are, a number a size or one for all; none where it is not plain. */
function chainNumbers(text: string, state: State): RegExpExecArray[] {
  const all = [...text.matchAll(/\d+/g)];
  const of = (size: number): RegExpExecArray | undefined => (all.length === 1 ? all[0] : all[size]);
  const own = state.map((_, size) => of(size));
  const agree = own.every(
    (match, size) => match && (!state[size] || Number(match[0]) === state[size]?.chain),
  );
  return agree && (all.length === 1 || all.length === state.length) ? (own as RegExpExecArray[]) : [];
}
