import type { SaidWord } from "../notation/assembly";
import { say } from "../text/say";
import { sentenceStart } from "../text/sentence";
import type { Span } from "../text/span";
import { leftOverParts } from "./left-over-parts";
import { calledInText, type MadePiece, type Making, makingOf, type PlacedSentence } from "./pieces-made";
import { isUsed } from "./pieces-used";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { sewnUnheardOf } from "./sewn-things";

/** The assembly sews on something that nothing else in the pattern speaks of. */
export const pieceNotMade: PatternRule = {
  id: "piece-not-made",
  severity: "information",
  documentation: `## What it finds
An assembly that sews on something which nothing else in the pattern is called: no piece, no material. Seams, ends, edges and the like are not meant. Also a leg, a square or a sleeve that is sewn or stuffed in a pattern that speaks of none.

## Why it matters
A piece was forgotten, or it goes by another name where it is made. The maker searches the pattern for it.

## Example
\`\`\`crochet
Body
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Flipper (make 2)
Rnd 1: 5 sc in mr (5)
Fasten off.

Assembly
Sew the flippers and the beak to the body.
\`\`\`

## Mended
\`\`\`crochet
Body
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Flipper (make 2)
Rnd 1: 5 sc in mr (5)
Fasten off.

Beak
Rnd 1: 4 sc in mr (4)
Fasten off.

Assembly
Sew the flippers and the beak to the body.
\`\`\`
`,
  check(pattern) {
    const sewn = sewnUnheardOf(pattern).map(({ thing, said }) =>
      found(thing, said, makingOf(pattern), pattern),
    );
    const others = leftOverParts(pattern);
    return [...sewn, ...others.filter(({ span }) => !sewn.some((one) => one.span.start === span.start))];
  },
};

function found(thing: SaidWord, { line }: PlacedSentence, making: Making, pattern: WorkedPattern): Found {
  const span = { start: line.start + thing.start, end: line.start + thing.end };
  const typed = pattern.text.slice(span.start, span.end);
  const meant = pieceMeant(thing, making, pattern);
  const ask = meant
    ? say` Did you mean the ${calledInText(meant, 1)}?`
    : say` Write it, or use the name it has.`;
  return {
    span,
    message: say`The assembly sews on "${typed}", and no piece or material of this pattern is called that.${ask}`,
    fixes: meant ? [renaming(meant, span, thing)] : newPart(thing, making),
    related: [],
  };
}

/** The only piece that nothing puts to use, if as many are made; the first one is what others are sewn to. */
function pieceMeant({ word, noun }: SaidWord, making: Making, pattern: WorkedPattern): MadePiece | null {
  const idle = making.pieces.slice(1).filter((piece) => !isUsed(piece, making, pattern));
  const [only, ...others] = idle;
  return only && others.length === 0 && only.make > 1 === (word !== noun) ? only : null;
}

/** A heading of its own before the assembly, to be written out. */
function newPart({ noun }: SaidWord, { assembly }: Making): Fix[] {
  const heading = assembly[0]?.part.heading;
  if (!heading) return [];
  const name = sentenceStart(noun);
  const span = { start: heading.start, end: heading.start };
  return [{ title: say`Begin a part "${name}"`, edits: () => [{ span, newText: `${name}\n\n` }] }];
}

function renaming(piece: MadePiece, span: Span, { word, noun }: SaidWord): Fix {
  const newText = calledInText(piece, word === noun ? 1 : 2);
  return { title: say`Write "${newText}"`, edits: () => [{ span, newText }] };
}
