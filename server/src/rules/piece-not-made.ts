import type { SaidWord, Sentence } from "../notation/assembly";
import { sentencesOf } from "../notation/assembly";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import type { PatternLine } from "../notation/lines";
import type { Span } from "../text/span";
import { leftOverParts } from "./left-over-parts";
import { calledInText, type MadePiece, type Making, makingOf, type PlacedSentence } from "./pieces-made";
import { isUsed } from "./pieces-used";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";

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
    const sewn = sewnOn(pattern);
    const others = leftOverParts(pattern);
    return [...sewn, ...others.filter(({ span }) => !sewn.some((one) => one.span.start === span.start))];
  },
};

function sewnOn(pattern: WorkedPattern): Found[] {
  const making = makingOf(pattern);
  const isNamed = making.assembly.some(({ mentions }) => mentions.length > 0);
  if (making.pieces.length < 2 || !isNamed) return [];
  return making.assembly.flatMap((said) =>
    objectsOf(said.sentence)
      .filter(
        (thing) => isUnheardOf(thing, said, pattern) && (!bought.test(thing.noun) || hasNotions(pattern)),
      )
      .map((thing) => found(thing, said, making, pattern)),
  );
}

/** Parts of pieces, and what is not crocheted. */
const noPiece =
  /^(?:piece|part|limb|extremity|feature|appendage|side|edge|seam|opening|hole|gap|end|tail|yarn tail|yarn|thread|top|bottom|back|front|middle|centre|center|half|layer|row|round|rnd|stitch|st|loop|chain|corner|place|position|space|way|line|them|it|this|these|one|other|rest|all|everything|both|eye|nose|mouth|face|smile|cheek|eyebrow|shoulder|armhole|neckline|underarm|crotch|waist|knot|needle|pin|marker|colou?r|\d+|cm|inch|in)$/;

/** What a list of materials has, if it has more than yarn. */
const bought =
  /^(?:button|bead|zip|zipper|ribbon|lining|felt|label|pompom|tassel|fringe|snap|ring|magnet|bell|wire|fabric|pad|insert|whisker)$/;

function hasNotions({ lines }: WorkedPattern): boolean {
  return frontMatterOf(lines).notions.length > 0;
}

const article =
  /^(?:the|a|an|each|both|all|one|remaining|other|of|your|two|three|four|five|six|small|large|little|big|\d+)$/;

/** `Sew the ears, arms and legs to …`: what stands between the verb and the next small word. */
function objectsOf({ words, deeds, text, start }: Sentence): SaidWord[] {
  return deeds
    .filter(
      ({ does, start: at }) =>
        does === "sew" && /(?:^|[,;]|\band|\bthen|\bnow)\s*$/i.test(text.slice(0, at - start)),
    )
    .flatMap((deed) => {
      const all = words.filter((word) => word.start >= deed.end);
      // `Sew in the sleeves`, `Sew on the flower`.
      const isParted = /^(?:in|on|up|down)$/.test(all[0]?.word ?? "") && article.test(all[1]?.word ?? "");
      const behind = isParted ? all.slice(1) : all;
      const small = behind.findIndex(({ word }) => smallWord.test(word));
      const end = small < 0 && behind.length <= wordsAtEnd ? behind.length : small;
      const phrase = text.slice(
        deed.end - start,
        (behind[end]?.start ?? behind.at(-1)?.end ?? deed.end) - start,
      );
      const isExplained = /^(?:cut|made)$/.test(behind[end]?.word ?? "");
      if (end < 1 || isExplained || /[.;:()]/.test(phrase)) return [];
      return nounsIn(behind.slice(0, end), text, start);
    });
}

/** `and sew the second sleeve.` */
const wordsAtEnd = 4;

const smallWord =
  /^(?:to|onto|on|in|into|at|over|around|between|along|under|behind|above|below|inside|with|through|across|from|down|up|together|securely|firmly|closed|shut|so|using|as|next|where|near|about|just|centrally|evenly|opposite|against|beside|below|cut|made|left|worked|crocheted)$/;

/** The last word of each phrase between commas and "and". */
function nounsIn(words: readonly SaidWord[], text: string, start: number): SaidWord[] {
  return words.filter((word, i) => {
    const next = words[i + 1];
    const isLast = !next || next.word === "and" || /,/.test(text.slice(word.end - start, next.start - start));
    return isLast && word.word !== "and" && !article.test(word.word) && !noPiece.test(word.noun);
  });
}

/** Neither a piece nor spoken of anywhere else. */
function isUnheardOf({ noun, start, end }: SaidWord, said: PlacedSentence, pattern: WorkedPattern): boolean {
  if (said.mentions.some((mention) => mention.start < end && start < mention.end)) return false;
  const isOther = (line: PatternLine, word: SaidWord): boolean =>
    word.noun === noun && (line !== said.line || word.start !== start);
  return !pattern.lines.some(
    (line) =>
      line.kind !== "blank" &&
      sentencesOf(line.content).some(({ words }) => words.some((word) => isOther(line, word))),
  );
}

function found(thing: SaidWord, { line }: PlacedSentence, making: Making, pattern: WorkedPattern): Found {
  const span = { start: line.start + thing.start, end: line.start + thing.end };
  const typed = pattern.text.slice(span.start, span.end);
  const meant = pieceMeant(thing, making, pattern);
  const ask = meant ? ` Did you mean the ${calledInText(meant, 1)}?` : " Write it, or use the name it has.";
  return {
    span,
    message: `The assembly sews on "${typed}", and no piece or material of this pattern is called that.${ask}`,
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
  const name = noun.charAt(0).toUpperCase() + noun.slice(1);
  const span = { start: heading.start, end: heading.start };
  return [{ title: `Begin a part "${name}"`, edits: () => [{ span, newText: `${name}\n\n` }] }];
}

function renaming(piece: MadePiece, span: Span, { word, noun }: SaidWord): Fix {
  const newText = calledInText(piece, word === noun ? 1 : 2);
  return { title: `Write "${newText}"`, edits: () => [{ span, newText }] };
}
