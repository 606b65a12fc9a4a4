import type { PatternContext } from "./context";
import type { Instruction, RowPlan, StartOption } from "./instructions";

type Start = Extract<Instruction, { op: "start" }>;

const kept = new WeakMap<RowPlan, OtherWay | null>();

/** A row with its opening chain read against what the pattern says of such chains. */
export interface OtherWay {
  readonly plan: RowPlan;
  readonly chains: number;
  /** The first stitch is passed over, as it is under a chain that counts. */
  readonly skipsFirst: boolean;
}

/** Null where the pattern says nothing of the row's opening chain, or the row says it itself. */
export function otherWay(plan: RowPlan, text: string, context: PatternContext): OtherWay | null {
  let found = kept.get(plan);
  if (found === undefined) {
    found = readOtherWay(plan, text, context);
    kept.set(plan, found);
  }
  return found;
}

function readOtherWay(plan: RowPlan, text: string, { conventions }: PatternContext): OtherWay | null {
  const start = plan.instructions.find((one): one is Start => one.op === "start");
  const chains = start?.n[0] ?? null;
  if (!start || chains === null || /\bcount|\bfrom (?:the )?hook/i.test(text)) return null;
  const [only, ...others] = start.options;
  if (!only || others.length > 0 || conventions.startCounts.get(chains) !== only.counted) return null;
  const passes = !only.counted && skipsFirst(plan.instructions);
  if (!only.counted && chains === 1 && !passes) return null;
  const turned: Start = { ...start, options: [opposite(only)] };
  const instructions = plan.instructions.map((one) => (one === start ? turned : one));
  return { plan: { ...plan, instructions }, chains, skipsFirst: passes };
}

/** A ch 1 is taken for a stitch only where the first stitch is passed over for it. */
function skipsFirst(list: readonly Instruction[]): boolean {
  const first = list.find(({ op }) => op !== "turn" && op !== "start");
  return first?.op === "either" ? skipsFirst(first.options[0] ?? []) : first?.op === "skip";
}

function opposite({ counted, kind, space }: StartOption): StartOption {
  return { counted: !counted, takesPlace: !counted, kind, space: counted ? 0 : space };
}
