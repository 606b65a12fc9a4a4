import type { HoverPart } from "./place";
import { rowBlocks } from "./row-blocks";

/** `Rnd 7:`: all that is known of the row. */
export const rowHead: HoverPart = {
  at(place) {
    const { placed, isInHead, pattern } = place;
    if (!placed || !isInHead) return null;
    const { span, start } = placed.row.line;
    const head = pattern.text.slice(span.start, start).trimEnd();
    return { span: { start: span.start, end: span.start + head.length }, blocks: rowBlocks(placed, place) };
  },
};
