import type { Basis } from "../measure/basis";
import { inUnitOf, listedAmount, type MetresListed, metresListed, valueFor } from "../measure/listed-amounts";
import type { ListedYarn } from "../measure/yarn-list";
import { type YarnUse, yarnUseOf } from "../measure/yarn-used";
import type { Amount } from "../notation/front-matter/yarns";
import type { TextEdit } from "../text/span";
import type { WorkedPattern } from "./rule";

/** A yarn of the list beside what the rows take of it, in metres, for one size. */
export interface YarnNeed {
  readonly yarn: ListedYarn;
  readonly amount: Amount;
  readonly size: number;
  readonly basis: Basis;
  /** Without anything to spare. */
  readonly needs: number;
  readonly has: MetresListed;
  /** Rows that nobody knows the stitches of are not in it. */
  readonly isWhole: boolean;
}

/** Every listed yarn with an amount and a use, size by size. */
export function yarnNeeds(pattern: WorkedPattern): YarnNeed[] {
  const use = yarnUseOf(pattern);
  const { basis, list } = use.ground;
  if (basis === null || !list.yarns.some(({ amounts }) => amounts.length > 0)) return [];
  const { isWhole } = use;
  return pattern.context.sizes.flatMap((_, size) =>
    list.yarns.flatMap((yarn, at) => {
      const has = metresListed(yarn, size, basis);
      const [amount] = yarn.amounts;
      if (!has || !amount) return [];
      return [
        { yarn, amount, size, basis, needs: needsOf(use, pattern, yarn, at, size) / 1000, has, isWhole },
      ];
    }),
  );
}

function needsOf(
  use: YarnUse,
  { pieces }: WorkedPattern,
  { perPiece }: ListedYarn,
  at: number,
  size: number,
): number {
  if (!perPiece) return use.inAll[size]?.get(at) ?? 0;
  return Math.max(0, ...pieces.map((piece) => use.ofPiece(piece)[size]?.get(at) ?? 0));
}

/** How much of a yarn the pattern should list, printed in the unit of its amount, with something to spare. */
export function amountToList({ amount, yarn, basis, needs }: YarnNeed, spare: number): number | null {
  const value = inUnitOf(amount, needs * spare, yarn, basis);
  return value === null ? null : listedAmount(value, amount.unit);
}

/** `40 g`, `2 balls`: an amount with the unit as the list spells it. */
export function inUnit({ amount }: YarnNeed, value: number): string {
  const unit = amount.text.replace(/^[\d.,\s()[\]:;–-]+/, "");
  return `${value} ${value === 1 ? unit.replace(/(ball|skein|hank|cone)s$/, "$1") : unit}`;
}

/** Changes the number of an amount for one size; the others stay. */
export function withAmount(need: YarnNeed, value: number): TextEdit[] {
  const { amount, size } = need;
  const { start: from, end } = amount;
  if (amount.values.length === 1) return [{ span: { start: from, end }, newText: inUnit(need, value) }];
  const figures = [...amount.text.matchAll(/\d+(?:[.,]\d+)?/g)];
  const figure = figures[size];
  if (!figure) return [];
  const start = amount.start + figure.index;
  return [{ span: { start, end: start + figure[0].length }, newText: String(value) }];
}

/** What the list says for the size, as it is written. */
export function listedInWords(need: YarnNeed): string {
  return inUnit(need, valueFor(need.amount, need.size) ?? 0);
}
