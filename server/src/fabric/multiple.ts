import { say } from "../text/say";
import type { Outcome } from "./outcome";
import { hasProfile, profileOf } from "./profile";

/** The numbers of stitches a row can be worked on, as the trade tells them: a multiple of 4 + 2. */
export interface Multiple {
  readonly of: number;
  /** Less than `of`. */
  readonly plus: number;
  /** Of a row on a starting chain: chains besides one for each stitch. */
  readonly startingChain: number | null;
}

/** The multiple of a worked row for one size; null where nothing in it is repeated as often as one likes. */
export function multipleOf(outcome: Outcome, size: number): Multiple | null {
  const profile = profileOf(outcome, size);
  if (!hasProfile(profile) || !profile.repeat?.isFree || profile.needs.each < 1) return null;
  const { base, each } = profile.needs;
  // With a run within or beside it, the row can be worked on other numbers too.
  if (each > 1 && profile.others.some(({ isFree }) => isFree)) return null;
  const start = startOf(outcome, size);
  // Both sides of the chain are worked: that is no row on so many stitches.
  if (start && start.besides < 0) return null;
  const plus = base + (start?.stitches ?? 0);
  return { of: each, plus: ((plus % each) + each) % each, startingChain: start?.besides ?? null };
}

/** The chains skipped at the start: those that stand for stitches, and those that are besides. */
function startOf({ how, has }: Outcome, size: number): { stitches: number; besides: number } | null {
  const chain = how?.state[size]?.chain ?? null;
  if (!how || chain === null) return null;
  const start = how.plan.instructions.find((one) => one.op === "start");
  const option = start?.op === "start" ? start.options[how.option.reading[start.choice] ?? 0] : undefined;
  const stitches = option?.counted ? 1 + option.space : 0;
  return { stitches, besides: chain - (has[size] ?? 0) - stitches };
}

/** `multiple of 4 + 2, plus 1 for the starting chain`; where every number will do, `any number`. */
export function inTradeForm({ of, plus, startingChain }: Multiple): string {
  const sts = of === 1 ? say`any number` : say`multiple of ${of}${plus > 0 ? ` + ${plus}` : ""}`;
  return startingChain ? say`${sts}, plus ${startingChain} for the starting chain` : sts;
}
