import { inParts, partsOf, perPiece, type WorkedPart } from "../fabric/parts";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { type Mention, nameWords, PieceNames, type Sentence, sentencesOf } from "../notation/assembly";
import type { LineContent } from "../notation/document";
import { readHeading } from "../notation/headings";
import type { PatternLine } from "../notation/lines";
import { plural } from "../notation/nouns";
import { keptBy } from "../text/kept-by";
import { colourNames } from "../trade/colours";
import type { WorkedPattern } from "./rule";

/** A piece that is made on its own, under a heading that names it. */
export interface MadePiece {
  readonly part: WorkedPart;
  readonly worked: WorkedPiece;
  /** What names it: over several stages, the heading that stands above them. */
  readonly heading: PatternLine;
  readonly name: string;
  /** The words it goes by, in the singular. */
  readonly words: readonly (readonly string[])[];
  readonly make: number;
}

/** What a sentence calls a piece, or several of it. */
export function calledInText({ name }: MadePiece, n: number): string {
  const plain = name.toLowerCase();
  return n > 1 ? plural(plain) : plain;
}

/** A sentence at its line, with the pieces it speaks of. */
export interface PlacedSentence {
  readonly line: PatternLine;
  readonly sentence: Sentence;
  readonly mentions: readonly Mention<MadePiece>[];
}

interface SaidInPart extends PlacedSentence {
  readonly part: WorkedPart;
}

/** What is made, and what is done with it. */
export interface Making {
  readonly pieces: readonly MadePiece[];
  readonly names: PieceNames<MadePiece>;
  /** The sentences of the parts that put pieces together. */
  readonly assembly: readonly SaidInPart[];
  /** A sentence says that all of it is made twice, as what is worn in pairs is. */
  readonly saysTwo: boolean;
  /** Those, and the sentences behind the rows of a piece. */
  readonly joining: readonly SaidInPart[];
}

export const makingOf = keptBy((pattern: WorkedPattern): Making => {
  const parts = partsOf(pattern);
  const pieces = parts.flatMap((part, i) => madePiece(part, parts[i - 1], stagesAre(parts, i)));
  const names = new PieceNames(pieces.map((piece) => ({ words: piece.words, piece })));
  const joining = joiningIn(pattern).map(({ part, found: { at, sentence } }) => {
    const line = part.lineAt(at) as PatternLine;
    return { line, sentence, mentions: names.mentionsIn(sentence), part };
  });
  return {
    pieces,
    names,
    joining,
    assembly: joining.filter(({ part }) => part.assembles),
    // Asked for seldom.
    get saysTwo() {
      return pattern.lines.some(({ kind, content }) => kind === "prose" && tellsTwo(content));
    },
  };
});

/** `Make two.` `Make the second slipper in the same way.` */
const tellsTwo = keptBy(({ text }: LineContent): boolean =>
  /(?:^|[.;]\s*)(?:make|work)\s+(?:two|2)\s*[.;]|\bmake\s+(?:the|a)\s+second\s+\p{L}+\s+(?:in|to|as|the\s+same)\b/iu.test(
    text,
  ),
);

/** The sentences of a part that may put pieces together, each with the index of its line. */
const joiningIn = inParts(({ assembles, piece, lines }) => {
  const last = piece?.rows.at(-1)?.line.span.end ?? Number.POSITIVE_INFINITY;
  // A border begins with how the pieces lie that it goes around.
  const isOnOthers = piece !== null && !isOwnPiece(piece) && !isToldOften(piece);
  return lines.flatMap(({ kind, start, content }, at) =>
    assembles || (kind === "prose" && (isOnOthers || start >= last))
      ? sentencesOf(content).map((sentence) => ({ at, sentence }))
      : [],
  );
});

/** The sentences of a line, with the pieces they speak of. */
export function placedSentences(line: PatternLine, names: PieceNames<MadePiece>): PlacedSentence[] {
  return sentencesOf(line.content).map((sentence) => placed(line, sentence, names));
}

export function placed(line: PatternLine, sentence: Sentence, names: PieceNames<MadePiece>): PlacedSentence {
  return { line, sentence, mentions: names.mentionsIn(sentence) };
}

/** Headings that name no piece. */
const noPiece =
  /^(?:notes?|pattern|instructions?|directions?|materials?|abbreviations?|gauge|tension|stitch|special|yarn|hook|rows?|rounds?|rnds?|(?:us|uk|american|british)\s+(?:crochet\s+)?(?:terms|terminology)|set-?up|shape|shaping|divide|start|begin|(?:first|second|next)(?=\s*$|\s+(?:rows?|rounds?|rnds?|parts?|sections?|half|side|set|step|stage|colou?r|repeat)\b)|increase|decrease|with|colou?r|border|edging|finish)/i;

/** What a heading says of a piece. */
interface Headed {
  readonly name: string;
  readonly words: readonly (readonly string[])[];
  readonly make: number;
  /** `First fin`: one of several that make up what stands above. */
  readonly isStage: boolean;
}

const headed = keptBy((heading: LineContent): Headed => {
  const { name, make } = readHeading(heading.text.trim());
  const isStage = /^(?:first|second|third|fourth|1st|2nd|3rd|4th)\b/i.test(name);
  return { name, make, isStage, words: noPiece.test(name) ? [] : nameWords(name) };
});

/** The names of all parts with rows, also of those that go on from another piece. */
export const partNamesOf = keptBy((pattern: WorkedPattern): PieceNames<WorkedPart> => {
  const withRows = partsOf(pattern).filter(({ piece, heading }) => piece && heading);
  return new PieceNames(
    withRows.map((part) => ({ words: headed((part.heading as PatternLine).content).words, piece: part })),
  );
});

/** The heading over several stages, `Tail` over `First fin` and `Second fin`: the last of them ends the piece. */
function stagesAre(parts: readonly WorkedPart[], at: number): PatternLine | null {
  const isStage = (part: WorkedPart | undefined): boolean =>
    part?.piece != null && part.heading !== null && headed(part.heading.content).isStage;
  if (!isStage(parts[at]) || isStage(parts[at + 1])) return null;
  const over = parts.findLastIndex((part, i) => i < at && !isStage(part));
  const above = parts[over];
  return over > 0 && at - over > 1 && above && standsAlone(above) ? above.heading : null;
}

/** A heading with nothing below it but the next heading. */
function standsAlone({ piece, lines }: WorkedPart): boolean {
  return piece === null && lines.every(({ kind }) => kind === "blank");
}

function madePiece(part: WorkedPart, above: WorkedPart | undefined, whole: PatternLine | null): MadePiece[] {
  const { piece: worked, heading } = part;
  if (!worked || !heading || !(isOwnPiece(worked) || isToldOften(worked))) return [];
  if (whole && headed(whole.content).words.length > 0)
    return [{ part, worked, heading: whole, ...headed(whole.content) }];
  const own = headed(heading.content);
  // `Arms (x2)` over a line with nothing but a colour, which reads as a heading too.
  const isOver = above?.heading && standsAlone(above) && isColour(own.name);
  const named = isOver ? (above.heading as PatternLine) : heading;
  const over = isOver ? headed(named.content) : own;
  const words = over === own ? own.words : [...over.words, ...own.words];
  const make = Math.max(over.make, own.make, worked.piece.make);
  return words.length > 0 ? [{ part, worked, heading: named, name: over.name, words, make }] : [];
}

const shaping = /^(?:shap|divid|increas|decreas|armhole|neck|shoulder|raglan|yoke)/i;

/** The rows that a piece ends with: those below the headings that shape it. */
export function lastRowsOf({ part }: MadePiece, pattern: WorkedPattern): readonly WorkedRow[] {
  const parts = partsOf(pattern);
  let at = parts.indexOf(part);
  while (shaping.test(parts[at + 1]?.name ?? "") && parts[at + 1]?.piece) at++;
  return parts[at]?.piece?.rows ?? [];
}

function isColour(name: string): boolean {
  const words = name.toLowerCase().split(/[\s-]+/);
  return words.some((word) => colourNames.has(word)) || /\b(?:colou?r|yarn)\b/i.test(name);
}

/** `Joined hexagon (make 47)`, worked as another piece is: made on its own. */
function isToldOften({ piece, rows }: WorkedPiece): boolean {
  const { head, text } = rows[0]?.line ?? {};
  return piece.make > 1 && (head?.from ?? 1) === 1 && asAnother.test(text ?? "");
}

const asAnother = /^\W*(?:(?:work|make)\s+)?as\s+(?:for\s+)?(?:the\s+)?\p{L}/iu;

/** Begun on a chain, a ring or nothing, not on another piece. */
export const isOwnPiece = perPiece(({ rows }) => {
  const [first] = rows;
  const from = rows.find(({ line }) => line.head?.from != null)?.line.head?.from ?? 1;
  if (!first || from !== 1) return false;
  const onNothing = first.outcome?.needs.every((n) => n === null) ?? false;
  return first.line.kind === "foundation" || first.line.plan?.foundation != null || onNothing;
});
