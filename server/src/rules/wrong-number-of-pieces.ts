import type { Many, Mention, Sentence } from "../notation/assembly";
import type { PatternLine } from "../notation/lines";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { headingFix, saysMore, saysOne, tellsOfOthers } from "./make-number";
import { notionsCounted } from "./notions-counted";
import { wrongLayout } from "./piece-layout";
import { wrongForEach } from "./pieces-for-each";
import { type MadePiece, type Making, makingOf, type PlacedSentence, placedSentences } from "./pieces-made";
import { sharedOut } from "./pieces-shared-out";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";
import { listed } from "./wording";

/** The assembly speaks of another number of a piece than is made. */
export const wrongNumberOfPieces: PatternRule = {
  id: "wrong-number-of-pieces",
  severity: "warning",
  documentation: `## What it finds
An assembly that sews on more of a piece than the pattern says to make, or that speaks of all of them with another number: "both legs" where one is made, "the feet" where one is made, "one wing to each side", "the four wheels" where three are, "9 rows of 8" for 63 squares.

## Why it matters
The maker finds out at the very end that a piece is missing, or that one too many was made.

## Example
\`\`\`crochet
Body
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Leg
Rnd 1: 5 sc in mr (5)
Fasten off.

Assembly
Sew both legs to the body.
\`\`\`

## Mended
\`\`\`crochet
Body
Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Fasten off.

Leg (make 2)
Rnd 1: 5 sc in mr (5)
Fasten off.

Assembly
Sew both legs to the body.
\`\`\`
`,
  check(pattern) {
    const making = makingOf(pattern);
    const told = making.joining.map(toldApart).flatMap((said) => {
      const forEach = wrongForEach(said, making);
      const isTold = (mention: SaidOf): boolean => forEach.some(({ of }) => of === mention);
      const wrong = said.mentions.filter((one) => !isTold(one) && isWrong(one, said, making, pattern));
      const layout = wrong.length + forEach.length === 0 ? wrongLayout(said, making) : null;
      return layout ? [layout] : [...forEach, ...wrong.map((mention) => found(mention, said, pattern))];
    });
    return [...told, ...sharedOut(making), ...notionsCounted(pattern)];
  },
};

type SaidOf = Mention<MadePiece>;

/** `14 hexagons and 4 half hexagons`: those told by names of their own are none of the others. */
function toldApart(said: PlacedSentence): PlacedSentence {
  if (said.mentions.length === 0) return said;
  const named = said.mentions.filter(({ isWhole }) => isWhole).flatMap(({ pieces }) => pieces);
  const isKin = (one: MadePiece, pieces: readonly MadePiece[]): boolean =>
    pieces.includes(one) || (!named.includes(one) && pieces.some((piece) => goesByNameOf(one, piece)));
  const mentions = said.mentions.map((mention) =>
    mention.kin.length === mention.pieces.length
      ? mention
      : { ...mention, kin: mention.kin.filter((one) => isKin(one, mention.pieces)) },
  );
  return { ...said, mentions };
}

/** A half hexagon is a hexagon; a hexagon is no half hexagon. */
function goesByNameOf({ words }: MadePiece, other: MadePiece): boolean {
  return words.some((name) =>
    other.words.some((shorter) =>
      shorter.every((word, i) => name[name.length - shorter.length + i] === word),
    ),
  );
}

function madeIn({ pieces }: Pick<SaidOf, "pieces">): number {
  return pieces.reduce((sum, { make }) => sum + make, 0);
}

/** `hexagons`: those that go by just this name, or all that the word may mean. */
function isMade(n: number, { pieces, kin }: SaidOf): boolean {
  return n === madeIn({ pieces }) || n === madeIn({ pieces: kin });
}

/** Only some of them are meant: `two of the leaves to each side`. */
const someOnly =
  /\b(?:each|every|either|other|others|remaining|rest|left over|another|more|again|together|pairs?)\b/i;

/** `2 ears together`, `3 pairs`: several counted as one, or one as several. */
const otherCounting = /\b(?:pairs?|again|more|another|sets?\s+of)\b/i;

function isWrong(mention: SaidOf, said: PlacedSentence, making: Making, pattern: WorkedPattern): boolean {
  const { many, pieces } = mention;
  const made = madeIn(mention);
  if (made === 1 && speaksOfSeveral(mention, said.sentence)) return !isToldElsewhere(pieces, making, pattern);
  return many !== null && !isMade(many.n, mention) && isOtherNumber(mention, many, said, making);
}

function isOtherNumber(mention: SaidOf, many: Many, said: PlacedSentence, { joining }: Making): boolean {
  const { isWhole, isPlural, pieces, kin } = mention;
  const { sentence } = said;
  // `both body and head` is no number of bodies.
  if (!isWhole || !isPlural || many.n < 2) return false;
  if (many.n > madeIn({ pieces: kin })) return !otherCounting.test(sentence.text) && !pieces.some(saysMore);
  if (someOnly.test(withoutEach(said))) return false;
  const mentioned = joining.flatMap((one) =>
    mentionsButEach(one).filter((other) => other.pieces[0] === pieces[0]),
  );
  return many.isAll && mentioned.length === 1;
}

/** `each strap` says nothing of how many there are. */
function mentionsButEach(said: PlacedSentence): readonly SaidOf[] {
  return said.mentions.filter((mention) => !/\beach$/i.test(textBefore(mention, said)));
}

function textBefore({ start }: SaidOf, { sentence }: PlacedSentence): string {
  return sentence.text.slice(0, start - sentence.start).trimEnd();
}

/** Without `, one on each face` and `of each strap`: all of the straps are meant all the same. */
function withoutEach(said: PlacedSentence): string {
  const { text, start } = said.sentence;
  const plain = said.mentions
    .filter((mention) => !mentionsButEach(said).includes(mention))
    .reduce((rest, mention) => {
      const from = textBefore(mention, said).length - "each".length;
      return rest.slice(0, from) + " ".repeat(mention.end - start - from) + rest.slice(mention.end - start);
    }, text);
  return plain.replace(/,?\s*\bone\s+(?:on|to|at|over|for)\s+(?:each|either)\s+\p{L}+/giu, "");
}

/** `Sew the feet on`, `one wing to each side`. */
function speaksOfSeveral(
  { many, isWhole, isPlural, pieces, start, end }: SaidOf,
  sentence: Sentence,
): boolean {
  const [piece, ...others] = pieces;
  if (!piece || !isWhole || others.length > 0 || saysMore(piece)) return false;
  if (tellsOfOthers(piece) && !saysOne(piece)) return false;
  const before = sentence.text.slice(0, start - sentence.start);
  const behind = sentence.text.slice(end - sentence.start);
  if (isPlural) return many === null && !partOfPiece.test(piece.words.at(-1)?.at(-1) ?? "");
  return /\b(?:an?|one)\s+$/i.test(before) && toEach.test(behind);
}

const toEach = /^\s+(?:\p{L}+\s+){0,3}?(?:to|on|onto|at|over|for)\s+(?:each|either|both)\s+\p{L}/iu;
/** What a piece may be called, and what every piece has several of. */
const partOfPiece = /^(?:side|edge|end|seam|corner|row|round|stitch|loop|hole|layer|half|strip|stripe)$/;

/** Any line that is neither a row nor of the assembly may say how many: `You need two feet.` */
function isToldElsewhere(
  pieces: readonly MadePiece[],
  { joining, names }: Making,
  pattern: WorkedPattern,
): boolean {
  const own = new Set(joining.map(({ line }) => line));
  const numbered = (line: PatternLine): boolean =>
    placedSentences(line, names).some(({ mentions, sentence }) =>
      mentions.some(
        (one) => pieces.includes(one.pieces[0] as MadePiece) && (one.many || someOnly.test(sentence.text)),
      ),
    );
  return pattern.lines.some(
    (line) => line.kind !== "row" && line.kind !== "heading" && !own.has(line) && numbered(line),
  );
}

function found(mention: SaidOf, { line }: PlacedSentence, pattern: WorkedPattern): Found {
  const { kin } = mention;
  const [piece] = kin as [MadePiece];
  const many = mention.many ?? { n: 2, start: mention.start, end: mention.start };
  const span = { start: line.start + many.start, end: line.start + mention.end };
  const made = madeIn({ pieces: kin });
  const told = made === 1 ? say`one is made` : say`${made} are made`;
  const names = listed(
    kin.map(({ name }) => say`"${name}"`),
    "and",
  );
  // One of them to each side is two.
  const n = Math.max(many.n, 2);
  return {
    span,
    message: say`The assembly speaks of "${pattern.text.slice(span.start, span.end)}", and ${told} under ${names}. Make the numbers agree.`,
    fixes:
      kin.length === 1 ? fixesFor(piece, n, made, { ...many, ...shifted(many, line.start) }, pattern) : [],
    related: kin.map(({ heading, make }) => ({
      span: heading,
      message: make === 1 ? say`Here one is made.` : say`Here ${make} are made.`,
    })),
  };
}

function shifted({ start, end }: Span, by: number): Span {
  return { start: start + by, end: end + by };
}

function fixesFor(piece: MadePiece, n: number, made: number, many: Span, { text }: WorkedPattern): Fix[] {
  const typed = text.slice(many.start, many.end);
  const inHeading = headingFix(piece, n);
  if (made === 1 || !/^\d+$/.test(typed)) return inHeading;
  const edits = () => [{ span: { start: many.start, end: many.end }, newText: `${made}` }];
  return [...inHeading, { title: say`Write ${made} in the assembly`, edits }];
}
