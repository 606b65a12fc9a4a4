import type { WorkedPart } from "../fabric/parts";
import { say } from "../text/say";
import {
  calledInText,
  type MadePiece,
  type Making,
  makingOf,
  type PlacedSentence,
  partNamesOf,
} from "./pieces-made";
import { isUsed } from "./pieces-used";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { isWholePattern } from "./work-not-ended";

/** A piece is made, and nothing says what becomes of it. */
export const pieceNotUsed: PatternRule = {
  id: "piece-not-used",
  severity: "information",
  documentation: `## What it finds
A piece that no sentence speaks of once it is made, in a pattern whose assembly says of the other pieces where they go.

## Why it matters
The maker is left with a piece in the hand. Either a sentence is missing, or the piece belongs to an earlier version.

## Example
\`\`\`crochet
Body
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Ear (make 2)
Rnd 1: 5 sc in mr (5)
Fasten off.

Wing (make 2)
Rnd 1: 4 sc in mr (4)
Fasten off.

Assembly
Sew the ears to the body.
\`\`\`

## Mended
\`\`\`crochet
Body
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Ear (make 2)
Rnd 1: 5 sc in mr (5)
Fasten off.

Wing (make 2)
Rnd 1: 4 sc in mr (4)
Fasten off.

Assembly
Sew the ears to the body. Sew on the 2 wings.
\`\`\`
`,
  check(pattern) {
    const making = makingOf(pattern);
    const told = new Set(making.assembly.flatMap((said) => partsIn(said, pattern)));
    // The first piece is what the others are sewn to, whether it is named or not.
    const [, ...others] = making.pieces;
    if (!isSpecific(making)) return [];
    const isTold = told.size >= (isWholePattern(pattern) ? 1 : Math.min(2, others.length));
    return others
      .filter(({ name }) => isTold || (told.size === 0 && making.assembly.length > 0 && putOn.test(name)))
      .filter(
        (piece) =>
          !isMain.test(piece.name) &&
          !told.has(piece.part) &&
          !isWorkedOn(piece) &&
          !isUsed(piece, making, pattern),
      )
      .map((piece) => found(piece, making));
  },
};

/** A band along an edge, a motif that is joined as it is made. */
function isWorkedOn({ worked: { rows } }: MadePiece): boolean {
  return rows.some(({ line }) => /\b(?:facing|evenly|joining)\b/i.test(`${line.headText} ${line.text}`));
}

/** What is nothing by itself, in a pattern that says how it is finished. */
const putOn =
  /\b(?:cords?|ties?|drawstrings?|straps?|handles?|belts?|pockets?|flowers?|appliqu\w+|motifs?|bobbles?|bows?|pom[\s-]?poms?|tassels?|leaf|leaves|buttons?|ears?|wings?|collars?)\b/i;

/** What the others are sewn to goes without saying. */
const isMain = /\b(?:body|head|base)\b/i;

/** Also what goes on from another piece: the body that arms are sewn to. */
function partsIn({ sentence }: PlacedSentence, pattern: WorkedPattern): WorkedPart[] {
  return partNamesOf(pattern)
    .mentionsIn(sentence)
    .flatMap(({ pieces }) => pieces);
}

/** `Sew all pieces together` leaves none out. */
function isSpecific({ assembly }: Making): boolean {
  return !assembly.some(({ sentence }) =>
    /\b(?:all|the|remaining|other)\s+(?:\w+\s+)?(?:pieces|parts)\b|\beverything\b|\blimbs\b|\bfeatures\b|\bthe rest\b/i.test(
      sentence.text,
    ),
  );
}

function found(piece: MadePiece, making: Making): Found {
  return {
    span: piece.heading,
    message: say`"${piece.name}" is made, and nothing says what becomes of it. Say in the assembly where it goes.`,
    fixes: sentenceFor(piece, making),
    related: [],
  };
}

function sentenceFor(piece: MadePiece, { assembly }: Making): Fix[] {
  const last = assembly.at(-1);
  if (!last) return [];
  const at = last.line.start + last.line.text.trimEnd().length;
  const { make } = piece;
  const sentence = `Sew on the ${make > 1 ? `${make} ` : ""}${calledInText(piece, make)}.`;
  return [
    {
      title: say`Add "${sentence}"`,
      edits: () => [{ span: { start: at, end: at }, newText: ` ${sentence}` }],
    },
  ];
}
