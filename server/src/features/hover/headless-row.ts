import type { HoverPart } from "./place";
import { rowBlocks } from "./row-blocks";

/** A line without a head, a starting chain or `Rep last rnd 3 times`: all that is known of the row. */
export const headlessRow: HoverPart = {
  at(place) {
    const { placed } = place;
    if (!placed || placed.row.line.head !== null) return null;
    return { span: placed.row.line.span, blocks: rowBlocks(placed, place) };
  },
};
