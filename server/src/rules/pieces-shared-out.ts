import type { LineContent } from "../notation/document";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { numberFrom, numberWords, ordinalWords } from "../trade/number-words";
import { headingFix } from "./make-number";
import type { MadePiece, Making, PlacedSentence } from "./pieces-made";
import type { Found } from "./rule";

/** Pieces that are shared out in numbers which do not come to as many as are made. */
export function sharedOut(making: Making): Found[] {
  return [...making.pieces.flatMap(inHeading), ...inSentences(making), ...making.joining.flatMap(inRows)];
}

const number = `\\d{1,3}|${[...numberWords.keys()].slice(0, 20).join("|")}`;
const inAll = new RegExp(String.raw`\b(?:make|work|need)\s+(?:${number})\b\s*[:,–—(-]\s*(.+)$`, "i");
const share = new RegExp(
  String.raw`(?:^|[,;&+]|\band\b)\s*(${number})\s+(?:in|with|using|of)\s+(?!each\b|all\b|every\b)`,
  "gi",
);

/** `SQUARE (make 8: 4 with B and 3 with C)`. */
function inHeading(piece: MadePiece): Found[] {
  const { heading, make } = piece;
  const behind = toldInAll(heading.content) ?? belowHeading(piece);
  if (behind === null) return [];
  const shares = [...behind.matchAll(share)].map(([, typed = ""]) => countOf(typed));
  const sum = shares.reduce((before, n) => before + n, 0);
  if (shares.length < 2 || sum === make) return [];
  const own = toldInAll(heading.content) === null ? (piece.part.lineAt(0) ?? heading) : heading;
  return [foundOn(own, shares, piece)];
}

/** `Make 23: 12 with a clay centre, 11 with a chalk one` on the line below. */
function belowHeading({ part }: MadePiece): string | null {
  const below = part.lineAt(0);
  return below?.kind === "prose" ? toldInAll(below.content) : null;
}

const toldInAll = keptBy(({ text }: LineContent): string | null => inAll.exec(text)?.[1] ?? null);

const ordinal = [...ordinalWords.keys()].slice(0, 12).join("|");
const ordinals = `(?:${ordinal}|\\d{1,2}(?:st|nd|rd|th))`;
const which = `${ordinals}(?:\\s*(?:,|and|&|,\\s*and)\\s*(?:the\\s+)?${ordinals})*`;
const lines = "(?:rows?|strips?|columns?|lines?)";
const perRow: readonly RegExp[] = [
  new RegExp(
    `\\b(${number})(?:\\s+\\p{L}+){0,2}?\\s+in\\s+(?:each\\s+of\\s+)?(?:the\\s+)?(${which})\\s+${lines}\\b`,
    "giu",
  ),
  new RegExp(
    `\\b${lines}\\s+(\\d{1,2}(?:\\s*(?:,|and|&|,\\s*and)\\s*\\d{1,2})*)\\s+(?:have|has|with|are\\s+of|of)\\s+(${number})\\b`,
    "giu",
  ),
];

/** `5 in the first and third rows and 4 in the second`: so many in so many rows. */
function inRows({ sentence, mentions, line }: PlacedSentence): Found[] {
  const [said] = mentions;
  const [piece, ...others] = said?.pieces ?? [];
  if (!said?.isWhole || !piece || others.length > 0 || piece.make < 4) return [];
  const shares = perRow.flatMap((form, i) =>
    [...sentence.text.matchAll(form)].map(({ 1: a = "", 2: b = "" }) => {
      const [n, rows] = i === 0 ? [a, b] : [b, a];
      return countOf(n) * (rows.match(i === 0 ? new RegExp(ordinals, "gi") : /\d+/g) ?? []).length;
    }),
  );
  const sum = shares.reduce((before, n) => before + n, 0);
  const kin = said.kin.reduce((before, { make }) => before + make, 0);
  if (shares.length < 2 || sum === piece.make || sum === kin) return [];
  const start = line.start + sentence.start + sentence.text.length - sentence.text.trimStart().length;
  return [foundOn({ start, end: line.start + sentence.end }, shares, piece)];
}

/** `Sew 4 squares together. Sew the other 4 in the same way.` */
function inSentences({ joining }: Making): Found[] {
  return joining.flatMap((said, i) => {
    const [only, ...others] = said.mentions.filter(
      ({ many, isWhole, pieces }) => many && isWhole && pieces.length === 1,
    );
    const [piece] = only?.pieces ?? [];
    if (!only?.many || !piece || others.length > 0 || only.many.isAll || piece.make < 3) return [];
    const rest = restIn(said, only.end) ?? restBehind(said, joining[i + 1], piece);
    if (!rest || only.many.n + rest.n === piece.make) return [];
    const { start, end } = rest.isHere
      ? { start: only.many.start, end: rest.end }
      : { start: only.many.start, end: only.end };
    return [
      foundOn({ start: said.line.start + start, end: said.line.start + end }, [only.many.n, rest.n], piece),
    ];
  });
}

interface Rest {
  readonly n: number;
  readonly isHere: boolean;
  /** In the line. */
  readonly end: number;
}

const theOther = new RegExp(
  String.raw`\b(?:other|remaining)\s+(${number})\b(?=\s*(?:[.,;]|$|(?:in|for|together|to|on|as|the\s+same|likewise|into|around|at)\b))`,
  "i",
);

function restIn({ sentence }: PlacedSentence, from: number): Rest | null {
  const match = theOther.exec(sentence.text.slice(from - sentence.start));
  return match && { n: countOf(match[1] as string), isHere: true, end: from + match.index + match[0].length };
}

function restBehind(said: PlacedSentence, next: PlacedSentence | undefined, piece: MadePiece): Rest | null {
  if (next === undefined || next.line.start - said.line.end > 2) return null;
  const isOther = next.mentions.some(({ pieces }) => !pieces.includes(piece));
  const match = isOther ? null : theOther.exec(next.sentence.text);
  return match && { n: countOf(match[1] as string), isHere: false, end: 0 };
}

function countOf(typed: string): number {
  return numberFrom(typed);
}

function foundOn({ start, end }: Span, shares: readonly number[], piece: MadePiece): Found {
  const sum = shares.reduce((before, n) => before + n, 0);
  return {
    span: { start, end },
    message: say`${shares.join(" + ")} is ${sum}, and ${piece.make} are made under "${piece.name}". Make the numbers agree.`,
    fixes: headingFix(piece, sum),
    related: [{ span: piece.heading, message: say`Here ${piece.make} are made.` }],
  };
}
