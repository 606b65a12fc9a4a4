import { readHeading } from "../notation/headings";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { numberWords } from "../trade/number-words";
import { headingFix } from "./make-number";
import type { MadePiece, Making, PlacedSentence } from "./pieces-made";
import type { Found } from "./rule";

/** Pieces that are shared out in numbers which do not come to as many as are made. */
export function sharedOut(making: Making): Found[] {
  return [...making.pieces.flatMap(inHeading), ...inSentences(making)];
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
  const behind = inAll.exec(heading.text)?.[1];
  if (behind === undefined || readHeading(heading.text.trim()).make !== make) return [];
  const shares = [...behind.matchAll(share)].map(([, typed = ""]) => countOf(typed));
  const sum = shares.reduce((before, n) => before + n, 0);
  return shares.length < 2 || sum === make ? [] : [foundOn(heading, shares, piece)];
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
  return numberWords.get(typed.toLowerCase()) ?? Number(typed);
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
