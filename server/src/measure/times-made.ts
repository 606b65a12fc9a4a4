import { inParts } from "../fabric/parts";
import type { WorkedPattern, WorkedPiece } from "../fabric/worked";
import { readHeading } from "../notation/headings";
import { keptBy } from "../text/kept-by";

/** A part that is made as another one: `Right Front`, `Work as for Left Front.` */
interface AsAnother {
  /** In lower case. */
  readonly name: string;
  readonly make: number;
}

const asFor =
  /^\W*(?:(?:make|work|crochet|same|second|another|exactly)\b[^.]{0,30}?\s)?(?:same\s+)?as\s+(?:(?:given|described|written|worked)\s+)?(?:for|on)?\s*(?:the\s+)?(\p{L}[\p{L}\d' -]*?)\s*(?:$|[.,;:(]|\b(?:but|except|revers))/iu;

/** Of a part of it only. */
const inPart =
  /\b(?:until|to row|to rnd|to round|from row|from rnd|through|up to|rows?\s+\d|rnds?\s+\d|rounds?\s+\d)\b/i;

const madeAs = inParts(({ piece, heading, lines }): readonly AsAnother[] => {
  if (piece !== null || heading === null) return [];
  const first = lines.find(({ kind }) => kind === "prose");
  const [, name] = first && !inPart.test(first.text) ? (asFor.exec(first.text) ?? []) : [];
  return name === undefined
    ? []
    : [{ name: name.toLowerCase(), make: readHeading(heading.text.trim()).make }];
});

/** How often pieces are made besides what their headings say: by other parts that are worked as they are. */
export const timesMadeBesides = keptBy((pattern: WorkedPattern): ReadonlyMap<WorkedPiece, number> => {
  const times = new Map<WorkedPiece, number>();
  for (const { found } of madeAs(pattern)) {
    const meant = pattern.pieces.find(({ piece }) => piece.name.toLowerCase() === found.name);
    if (meant) times.set(meant, (times.get(meant) ?? 0) + found.make);
  }
  return times;
});

/** How often a piece is made in all. */
export function timesMade(piece: WorkedPiece, pattern: WorkedPattern): number {
  return piece.piece.make + (timesMadeBesides(pattern).get(piece) ?? 0);
}
