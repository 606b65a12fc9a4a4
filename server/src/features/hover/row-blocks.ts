import type { WorkedPattern } from "../../rules/rule";
import type { PlacedRow } from "../placed-row";
import { proofBlocks } from "../proof/proof-blocks";
import { factsOf, notesOf, rowTitle } from "../row-facts";
import { type Block, list } from "../shown/blocks";
import { sizeTable } from "../shown/size-table";

/** A row with its numbers, what is to be said of them, and its proof. */
export function rowBlocks(placed: PlacedRow, pattern: WorkedPattern): Block[] {
  return [
    ...sizeTable(rowTitle(placed.row), pattern.context.sizes, factsOf(placed, pattern)),
    ...list(notesOf(placed, pattern)),
    ...proofBlocks(placed),
  ];
}
