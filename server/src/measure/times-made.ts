import { partsOf, perPart } from "../fabric/parts";
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

const madeAs = perPart(({ piece, heading, lines }): AsAnother | null => {
  if (piece !== null || heading === null) return null;
  const first = lines.find(({ kind }) => kind === "prose");
  const [, name] = first && !inPart.test(first.text) ? (asFor.exec(first.text) ?? []) : [];
  return name === undefined
    ? null
    : { name: name.toLowerCase(), make: readHeading(heading.text.trim()).make };
});

/** How often each piece is made in all: as its heading says, and by other parts that are worked as it is. */
export const timesMadeIn = keptBy((pattern: WorkedPattern): ReadonlyMap<WorkedPiece, number> => {
  const { pieces } = pattern;
  const times = new Map(pieces.map((piece) => [piece, piece.piece.make]));
  for (const part of partsOf(pattern)) {
    const as = madeAs(part);
    const meant = as && pieces.find(({ piece }) => piece.name.toLowerCase() === as.name);
    if (meant) times.set(meant, (times.get(meant) ?? 0) + as.make);
  }
  return times;
});

export function timesMade(piece: WorkedPiece, pattern: WorkedPattern): number {
  return timesMadeIn(pattern).get(piece) ?? piece.piece.make;
}
