import { isStepLoop, type Step, type Steps } from "../fabric/steps";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { longestFlatChain } from "./row-shape";

/** Words on things that are not the size that their stitches lie in. */
const formed =
  /\b(?:stuff|fibre ?fill|fiber ?fill|cinch|gather|drawstring|elastic|pleat|ruffle|stretch|block|felt|starch|full|rib)/i;

/** Whether the stitches of a piece lie as wide as they are many: nothing is stuffed, ribbed, gathered, rippled or open. */
export function liesPlainly({ rows }: WorkedPiece, text: string): boolean {
  return !formed.test(text) && rows.every((row) => row.line.kind === "foundation" || isPlain(row));
}

/** Why a piece is not as wide as its stitches are many; null where nothing tells. */
export function drawnIn({ rows }: WorkedPiece): "waves" | "open work" | null {
  const steps = rows.flatMap(({ outcome }) => outcome?.worked.flatMap((one) => one.steps) ?? []);
  if (steps.some(isRippled)) return "waves";
  return steps.some((row) => arches(row) > slitsAtMost) ? "open work" : null;
}

/** So few long chains in a row are slits for handles or arms. */
const slitsAtMost = 4;

function arches(steps: readonly Steps[]): number {
  return steps.reduce((sum, step) => {
    if (isStepLoop(step)) return sum + step.times * arches(step.steps);
    return sum + (isArch(step) ? step.n : 0);
  }, 0);
}

function isArch({ sort, chains }: Step): boolean {
  return sort === "space" && (chains ?? 1) > longestFlatChain;
}

function isPlain({ line, outcome, result }: WorkedRow): boolean {
  if (!outcome || result !== "ok") return false;
  if (/\b(?:[fb]p|post|blo|back loop|cable|cross)/i.test(line.text)) return false;
  return outcome.worked.every(({ steps }) => steps.every((one) => !isOpen(one) && !isRippled(one)));
}

/** Arches of chains pull together; a few chains over as many stitches do not. */
function isOpen(steps: readonly Steps[]): boolean {
  return steps.some((step) => (isStepLoop(step) ? isOpen(step.steps) : isArch(step)));
}

/** Increases and decreases in one row make waves. */
function isRippled(steps: readonly Steps[]): boolean {
  const [more, fewer] = [has(steps, "more"), has(steps, "fewer")];
  return more && fewer;
}

function has(steps: readonly Steps[], what: "more" | "fewer"): boolean {
  return steps.some((step) => {
    if (isStepLoop(step)) return has(step.steps, what);
    if (step.sort !== "stitch") return false;
    return what === "more" ? step.perPlace > 1 : step.uses > 1;
  });
}
