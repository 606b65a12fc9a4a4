import { type MeasureOptions, usualOptions } from "../../measure/materials";
import type { WorkedPattern } from "../../rules/rule";
import { abbreviation } from "./abbreviation";
import { headlessRow } from "./headless-row";
import { partOfRow } from "./part-of-row";
import { pieceHeading } from "./piece-heading";
import { type Hover, type HoverPart, Place } from "./place";
import { rowHead } from "./row-head";
import { rowReference } from "./row-reference";
import { statedCount } from "./stated-count";
import { stitchWord } from "./stitch-word";
import { yarnLetter } from "./yarn-letter";

export type { Hover } from "./place";

/** The first that knows what lies at a place tells it. */
const parts: readonly HoverPart[] = [
  rowHead,
  statedCount,
  rowReference,
  yarnLetter,
  stitchWord,
  abbreviation,
  pieceHeading,
  partOfRow,
  headlessRow,
];

/** What is to be shown of what lies at an offset; null where there is nothing to tell. */
export function hoverAt(
  pattern: WorkedPattern,
  offset: number,
  options: MeasureOptions = usualOptions,
): Hover | null {
  const place = new Place(pattern, offset, options);
  for (const part of parts) {
    const hover = part.at(place);
    if (hover) return hover;
  }
  return null;
}
