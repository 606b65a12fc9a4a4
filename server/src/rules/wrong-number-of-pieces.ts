import type { Many, Mention, Sentence } from "../notation/assembly";
import { readHeading } from "../notation/document";
import type { PatternLine } from "../notation/lines";
import type { Span } from "../text/span";
import { wrongLayout } from "./piece-layout";
import { type MadePiece, type Making, makingOf, type PlacedSentence, placedSentences } from "./pieces-made";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";

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
    return making.assembly.flatMap((said) => {
      const wrong = said.mentions.filter((mention) => isWrong(mention, said, making, pattern));
      const layout = wrong.length === 0 ? wrongLayout(said) : null;
      return layout ? [layout] : wrong.map((mention) => found(mention, said, pattern));
    });
  },
};

type SaidOf = Mention<MadePiece>;

function madeIn({ pieces }: SaidOf): number {
  return pieces.reduce((sum, { make }) => sum + make, 0);
}

/** Only some of them are meant: `two of the leaves to each side`. */
const someOnly =
  /\b(?:each|every|either|other|others|remaining|rest|left over|another|more|again|together|pairs?)\b/i;

/** `2 ears together`, `3 pairs`: several counted as one, or one as several. */
const otherCounting = /\b(?:pairs?|again|more|another|set)\b/i;

function isWrong(mention: SaidOf, said: PlacedSentence, making: Making, pattern: WorkedPattern): boolean {
  const { many, pieces } = mention;
  const made = madeIn(mention);
  if (made === 1 && speaksOfSeveral(mention, said.sentence)) return !isToldElsewhere(pieces, making, pattern);
  return many !== null && made !== many.n && isOtherNumber(mention, many, said, making);
}

function isOtherNumber(mention: SaidOf, many: Many, said: PlacedSentence, { assembly }: Making): boolean {
  const { isWhole, isPlural, pieces } = mention;
  const { sentence } = said;
  // `both body and head` is no number of bodies.
  if (!isWhole || !isPlural || many.n < 2) return false;
  if (many.n > madeIn(mention)) return !otherCounting.test(sentence.text) && !pieces.some(saysMore);
  if (someOnly.test(withoutEach(said))) return false;
  const mentioned = assembly.flatMap((one) =>
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
  if (!piece || !isWhole || others.length > 0 || tellsOfOthers(piece) || saysMore(piece)) return false;
  const before = sentence.text.slice(0, start - sentence.start);
  const behind = sentence.text.slice(end - sentence.start);
  if (isPlural) return many === null && !partOfPiece.test(piece.words.at(-1)?.at(-1) ?? "");
  return /\b(?:an?|one)\s+$/i.test(before) && toEach.test(behind);
}

const toEach = /^\s+(?:\p{L}+\s+){0,3}?(?:to|on|onto|at|over|for)\s+(?:each|either|both)\s+\p{L}/iu;
/** What a piece may be called, and what every piece has several of. */
const partOfPiece = /^(?:side|edge|end|seam|corner|row|round|stitch|loop|hole|layer|half|strip|stripe)$/;

/** A heading such as `Feet`, `Leg 1` or `Left leg` says of more than one by itself. */
function tellsOfOthers({ part, words }: MadePiece): boolean {
  const typed = part.heading?.text.toLowerCase().replace(/\b(?:make|work|x)\s*(?:1|one)\b/g, "") ?? "";
  const said: readonly string[] = typed.match(/\p{L}+|\d+/gu) ?? [];
  const isPlural = !words.every((name) => said.includes(name.at(-1) ?? ""));
  return isPlural || said.some((word) => oneOfSeveral.test(word));
}

const oneOfSeveral = /^(?:both|each|pair|first|second|third|left|right|front|back|upper|lower|\d|[a-d])$/;

/** Any line that is neither a row nor of the assembly may say how many: `You need two feet.` */
function isToldElsewhere(
  pieces: readonly MadePiece[],
  { assembly, names }: Making,
  pattern: WorkedPattern,
): boolean {
  const own = new Set(assembly.map(({ line }) => line));
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

/** `Make the second one in white`: words of the piece that tell of more than its heading does. */
const moreOfIt =
  /\b(?:make|work|crochet)\s+(?:\w+\s+)?(?:another|more|two|three|four|both|as\s+many|several|enough|\d+\b(?!\s*-?\s*(?:ch|sc|hdc|dc|htr|tr|dtr|sl|ss|sts?|stitch\w*|more|rows?|rnds?|rounds?)\b))\b|\b(?:second|another|pair|twice|repeat|likewise)\b|\b(?:both|other)\b(?!\s+(?:layers|thicknesses|walls|sides?|edges?|ends?|loops?|lps)\b)|\bx\s*\d|\b\d\s*x\b/i;

function saysMore({ part }: MadePiece): boolean {
  return part.lines.some(({ text, kind }) => kind !== "row" && moreOfIt.test(text));
}

function found(mention: SaidOf, { line }: PlacedSentence, pattern: WorkedPattern): Found {
  const [piece] = mention.pieces as [MadePiece];
  const many = mention.many ?? { n: 2, start: mention.start, end: mention.start };
  const span = { start: line.start + many.start, end: line.start + mention.end };
  const made = madeIn(mention);
  const told = made === 1 ? "one is made" : `${made} are made`;
  const heading = piece.part.heading as Span;
  // One of them to each side is two.
  const n = Math.max(many.n, 2);
  return {
    span,
    message: `The assembly speaks of "${pattern.text.slice(span.start, span.end)}", and ${told} under "${piece.name}". Make the numbers agree.`,
    fixes:
      mention.pieces.length === 1
        ? fixesFor(piece, n, made, { ...many, ...shifted(many, line.start) }, pattern)
        : [],
    related: [{ span: heading, message: `Here ${told}.` }],
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
  return [...inHeading, { title: `Write ${made} in the assembly`, edits }];
}

/** The number of the heading, or one put behind its name. */
function headingFix({ part, make }: MadePiece, n: number): Fix[] {
  const { heading } = part;
  if (!heading) return [];
  const text = heading.text.trimEnd();
  const digits = [...text.matchAll(/\d+/g)].filter(([typed]) => Number(typed) === make);
  const title = `Make ${n} under the heading`;
  const [only, ...others] = digits;
  if (only && others.length === 0) {
    const start = heading.start + only.index;
    return [{ title, edits: () => [{ span: { start, end: start + only[0].length }, newText: `${n}` }] }];
  }
  if (make > 1 || digits.length > 0) return [];
  const at = heading.start + text.replace(/\s*[:–—-]+$/, "").length;
  const newText = ` (make ${n})`;
  const isRead = readHeading(`${text.slice(0, at - heading.start)}${newText}`).make === n;
  return isRead ? [{ title, edits: () => [{ span: { start: at, end: at }, newText }] }] : [];
}
