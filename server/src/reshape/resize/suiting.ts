import { multipleOf } from "../../fabric/multiple";
import { type Clash, type Congruence, type RowNeeds, suitingAll } from "../which-counts";
import type { Silhouette } from "./silhouette";

/** The widths that suit all rows of the full width together, or two rows that stand against each other. */
export function widthsThatSuit({ rungs, widest }: Silhouette): Congruence | Clash {
  const needs = rungs.flatMap(({ row, turn }): RowNeeds[] => {
    const isWide = row.outcome?.has[0] === widest && row.below?.kind !== "foundation";
    const multiple = isWide && turn !== "rise" && turn !== "fall" ? multipleOf(row.outcome, 0) : null;
    return multiple && multiple.of > 1 ? [{ of: multiple.of, plus: multiple.plus, row }] : [];
  });
  return suitingAll(needs);
}
