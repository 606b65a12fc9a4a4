import { say } from "../text/say";
import type { Below } from "./below";
import { rowEnds } from "./bind-places";
import { type Instruction, type RowPlan, takesIn, targetsOf } from "./instructions";
import type { Outcome, State } from "./outcome";
import { chainSide } from "./sources";
import { nothing } from "./starting";
import type { Steps } from "./steps";
import { countPlaces, plainStrip, runAt } from "./strip";

/** The places below with those that were left at the end of the round before them. */
export function withRest(below: Below, last: Steps | undefined): Below {
  if (!last || !("kind" in last) || last.kind !== "skip") return below;
  return { ...below, strip: [...plainStrip(kindOf(below), last.n), ...below.strip] };
}

export function asTold(state: State | null, stated: RowPlan["stated"]): State | null {
  const told = stated?.some(({ sort }) => sort === "space") ? "spaces" : "stitches";
  return state?.map((below) => below && { ...below, told }) ?? null;
}

export function changed(below: Below, by: number): Below {
  const kind = kindOf(below);
  const stitches = countPlaces(below.strip, (run) => run.sort !== "space");
  return { ...below, strip: plainStrip(kind, Math.max(stitches + by, 0)), told: "stitches" };
}

export function kindOf(below: Below | null): string {
  return (below && runAt(below.strip, 0)?.kind) ?? "sc";
}

export function onlySizes(state: State, sizes: readonly number[] | null): State {
  return sizes === null ? state : state.map((below, size) => (sizes.includes(size) ? below : null));
}

/** Sizes that do not work a row keep what they had. */
export function keepOthers(after: State, before: State, sizes: readonly number[] | null): State {
  if (sizes === null && !after.includes(null)) return after;
  return after.map(
    (below, size) => (sizes === null || sizes.includes(size) ? below : null) ?? before[size] ?? null,
  );
}

export function placesOf(state: State | null): readonly (number | null)[] | null {
  if (state === null || state.some((below) => below?.ring || below?.elsewhere)) return null;
  return state.map(
    (below) => below && (below.chain ?? countPlaces(below.strip, (run) => run.sort !== "space")),
  );
}

export function takesPlaces(plan: RowPlan): boolean {
  return plan.instructions.some((one) => "takes" in one && one.takes.some((take) => take.how !== "nowhere"));
}

export function isOnChain(state: State | null): boolean {
  return state?.some((below) => below?.chain != null) ?? false;
}

/** After the first row on a starting chain: as many chains on its other side. */
export function freeSideOf(found: State | null, outcome: Outcome | null): State | null {
  if (!outcome || !isOnChain(found)) return null;
  return outcome.has.map((n) => (n === null ? null : { ...nothing, strip: plainStrip("ch", n, "chain") }));
}

/** Why a row that does not come out right on other places may be right all the same. */
export function unsureElsewhere(plan: RowPlan, state: State | null): string | null {
  const { onPiece, instructions, text } = plan;
  if (state?.some((below) => below?.elsewhere?.has(chainSide)))
    return say`it is worked along a chain that other rows stand on`;
  // `sc evenly around` and a count: as many as the maker sees fit.
  const unsaid = takesIn(instructions).find((take) => take.how === "unknown");
  if (unsaid?.how === "unknown") return unsaid.why;
  if (onPiece.includes(rowEnds)) return say`nothing tells for certain how many row ends there are`;
  if (onPiece.length > 0 && /\b(?:unworked|unused|skipped|missed|free)\b/i.test(text))
    return say`it is worked on what other parts have left, and nothing tells how much that is`;
  const [piece, second] = onPiece;
  if (piece === undefined || second !== undefined || !worksOnlyOn(piece, instructions)) return null;
  return say`it is worked on a part of "${piece}", and nothing tells on how much of it`;
}

function worksOnlyOn(piece: string, list: readonly Instruction[]): boolean {
  return takesIn(list).every((take) => targetsOf(take).every((target) => target.piece === piece));
}
