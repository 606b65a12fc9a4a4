import type { Tree } from "../notation/tree";
import type { Word } from "../notation/words";
import type { Instruction, StitchUse, Take, Target, Until } from "./instructions";
import { child, descendants } from "./tree-search";

const anyStitch: Target = { sort: "stitch" };

export function isWholePiece(part: Tree): boolean {
  const core = part.rule === "place" && child(part, "core");
  if (!core) return false;
  const qualities = descendants(core, "pieceName");
  const said = descendants(core, "det").length + qualities.length;
  // `the first leg` says no more than which piece it is.
  return child(core, "pieceCore") !== undefined || (qualities.length === 1 && core.to - core.from === said);
}

/** `sc2tog over next 2 sts` is one: the number is that of the places. */
export function workedOver({ uses }: StitchUse, [take, second]: readonly Take[]): Take | null {
  if (uses < 2 || second || (take?.how !== "next" && take?.how !== "last")) return null;
  const n = take.n.map((places) => (places === null ? null : places / uses));
  return n.every((times) => times === null || Number.isInteger(times)) ? { ...take, n } : null;
}

/** `18 sc in FLO` names the loops and no place. */
export function isLoopOnly(part: Tree): boolean {
  const core = part.rule === "place" && child(part, "core");
  return core !== undefined && core !== false && child(core, "core_loop") !== undefined;
}

export function isCountedOff(take: Take): boolean {
  return take.how === "next" && take.countedOff === true;
}

export function onto(take: Take, piece: string | undefined): Take {
  if (piece === undefined) return take;
  if (take.how === "each") return { ...take, of: take.of.map((of) => ({ ...of, piece })) };
  return take.how === "next" || take.how === "last" ? { ...take, of: { ...take.of, piece } } : take;
}

/** A cluster over several stitches uses them all. */
export function spread(stitch: StitchUse, takes: readonly Take[]): StitchUse {
  const first = takes.find((take) => take.how === "next");
  const n = first?.how === "next" ? (first.n[0] ?? 1) : 1;
  return { ...stitch, uses: n };
}

export function withUntil(takes: readonly Take[], until: Until | null): Take[] {
  const each = takes.some((take) => take.how === "each");
  if (!each) return [...takes, { how: "each", of: [anyStitch], until }];
  return takes.map((take) => (take.how === "each" ? { ...take, until } : take));
}

/** How many stitches a sequence goes over, one after another; null where it also goes elsewhere. */
export function placesOver(sequence: readonly Instruction[]): number | null {
  let sum = 0;
  for (const one of sequence) {
    if (one.op === "begins" || one.op === "chain") continue;
    if (one.op !== "work" && one.op !== "skip") return null;
    for (const take of one.takes) {
      if (take.how === "nowhere") continue;
      if (take.how !== "next" || take.of.sort !== "stitch") return null;
      sum += (take.n[0] ?? 1) * (one.op === "work" ? Math.max(one.stitch.uses, 1) : 1);
    }
  }
  return sum;
}

/** Whether the words are of an increase or a decrease. */
export function shapes(words: readonly Word[]): boolean {
  return words.some(({ cls, value }) => cls === "S" && /(?:inc|dec)$/.test(value));
}

/** `inc x6`: the sign may be meant for the whole line. */
export function markSigned(made: Instruction[]): void {
  const [only, second] = made;
  if (only?.op === "work" && !second) made[0] = { ...only, signed: true };
}
