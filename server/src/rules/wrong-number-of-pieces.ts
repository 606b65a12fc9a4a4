import type { Mention } from "../notation/assembly";
import { readHeading } from "../notation/document";
import type { Span } from "../text/span";
import { type MadePiece, type Making, makingOf, type PlacedSentence } from "./pieces-made";
import type { Fix, Found, PatternRule, WorkedPattern } from "./rule";

/** The assembly speaks of another number of a piece than is made. */
export const wrongNumberOfPieces: PatternRule = {
  id: "wrong-number-of-pieces",
  severity: "warning",
  documentation: `## What it finds
An assembly that sews on more of a piece than the pattern says to make, or that speaks of all of them with another number: "both legs" where one is made, "the four wheels" where three are.

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
    return making.assembly.flatMap((said) =>
      said.mentions.flatMap((mention) =>
        isWrong(mention, said, making) ? [found(mention, said, pattern)] : [],
      ),
    );
  },
};

type SaidOf = Mention<MadePiece>;

function madeIn({ pieces }: SaidOf): number {
  return pieces.reduce((sum, { make }) => sum + make, 0);
}

/** Only some of them are meant: `two of the leaves to each side`. */
const someOnly =
  /\b(?:each|every|either|other|others|remaining|rest|left over|another|more|again|together|pairs?)\b/i;

function isWrong(mention: SaidOf, { sentence }: PlacedSentence, { assembly }: Making): boolean {
  const { many, isWhole, isPlural, pieces } = mention;
  const made = madeIn(mention);
  // `both body and head` is no number of bodies.
  if (!many || !isWhole || !isPlural || many.n < 2 || many.n === made || someOnly.test(sentence.text))
    return false;
  if (many.n > made) return !pieces.some(saysMore);
  const mentioned = assembly.flatMap(({ mentions }) => mentions).filter((one) => one.pieces[0] === pieces[0]);
  return many.isAll && mentioned.length === 1;
}

/** `Make the second one in white`: words of the piece that tell of more than its heading does. */
const moreOfIt =
  /\b(?:make|work|crochet)\s+(?:\w+\s+)?(?:another|more|two|three|four|both|\d+)\b|\b(?:second|another|other|both|pair|twice|repeat|likewise)\b|\bx\s*\d|\b\d\s*x\b/i;

function saysMore({ part }: MadePiece): boolean {
  return part.lines.some(({ text, kind }) => kind !== "row" && moreOfIt.test(text));
}

function found(mention: SaidOf, { line }: PlacedSentence, pattern: WorkedPattern): Found {
  const [piece] = mention.pieces as [MadePiece];
  const many = mention.many as NonNullable<SaidOf["many"]>;
  const span = { start: line.start + many.start, end: line.start + mention.end };
  const made = madeIn(mention);
  const told = made === 1 ? "one is made" : `${made} are made`;
  const heading = piece.part.heading as Span;
  return {
    span,
    message: `The assembly speaks of "${pattern.text.slice(span.start, span.end)}", and ${told} under "${piece.name}". Make the numbers agree.`,
    fixes:
      mention.pieces.length === 1
        ? fixesFor(piece, many.n, made, { ...many, ...shifted(many, line.start) }, pattern)
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
