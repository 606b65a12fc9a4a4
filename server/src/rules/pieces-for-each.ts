import type { Mention } from "../notation/assembly";
import { say } from "../text/say";
import { numberFrom } from "../trade/number-words";
import { sortsOfThings } from "../trade/things-made";
import { headingFix, saysMore, saysOne, tellsOfOthers } from "./make-number";
import type { MadePiece, Making, PlacedSentence } from "./pieces-made";
import type { Found } from "./rule";

type SaidOf = Mention<MadePiece>;

/** So many of a piece for each of something: `2 leaves under each rose`, `one arm to each side`. */
interface ForEach {
  readonly mention: SaidOf;
  readonly n: number;
  readonly times: number;
  /** End of the phrase in the line. */
  readonly end: number;
}

const lead = String.raw`^(?:\s+\p{L}+){0,3}?\s+(?:to|on|onto|at|over|for|under|underneath|beneath|below|above|behind|beside|in|into|inside|around)`;
const eachOf = new RegExp(
  String.raw`${lead}\s+(?:each|every|either)\s+(?:of\s+(?:the\s+)?)?(?:[\p{L}\d]+\s+){0,2}?$`,
  "iu",
);
const eachSide = new RegExp(
  String.raw`${lead}\s+(?:each|either|both)\s+(?:\p{L}+\s+)?(?:sides?|ends?|face|half|cheek|shoulder|hip)\b`,
  "iu",
);

/** `a flower to each of the four corners`. */
const eachOfMany = new RegExp(
  String.raw`${lead}\s+(?:each\s+of\s+the\s+(\d{1,2}|two|three|four|five|six|seven|eight|nine|ten)\s+\p{L}+|(?:all\s+)?the\s+four\s+corners|each\s+of\s+the\s+corners)\b`,
  "iu",
);

/** `one strap to the front and the other to the back` */
const andOther = /^[^.;]{0,60}?\b(?:and|,)\s+the\s+other\b(?!\s+(?:side|end|edge|piece)s?\b)/iu;

/** `to the inner side of each slipper`: of what is worn in pairs there are two. */
const pairs = [...sortsOfThings.hands.things, ...sortsOfThings.feet.things].join("|");
const eachOfPair = new RegExp(
  String.raw`${lead}\s+(?:\p{L}+\s+){0,4}?(?:each|every|either|both)\s+(?:of\s+(?:the\s+)?)?(?:\p{L}+\s+)?(?:${pairs})s?\b`,
  "iu",
);

/** Pieces that come to more or fewer than are made, told by what each of something gets. */
export function wrongForEach(said: PlacedSentence, making: Making): (Found & { readonly of: SaidOf })[] {
  return said.mentions
    .flatMap((mention) => forEach(mention, said, making) ?? [])
    .filter((one) => isWrong(one, making))
    .map((one) => ({ ...found(one, said), of: one.mention }));
}

function forEach(mention: SaidOf, said: PlacedSentence, making: Making): ForEach | null {
  const { text, start } = said.sentence;
  const n = numberOf(mention, text.slice(0, mention.start - start));
  if (n === null || meantBy(mention).length > 1) return null;
  const behind = text.slice(mention.end - start);
  const other = said.mentions.find(
    (one) => one.start > mention.end && eachOf.test(text.slice(mention.end - start, one.start - start)),
  );
  if (other && other.kin[0] !== meantBy(mention)[0])
    return { mention, n, times: madeOf(other.kin), end: other.end };
  const many = eachOfMany.exec(behind);
  if (many) {
    const typed = (many[1] ?? "four").toLowerCase();
    return { mention, n, times: numberFrom(typed), end: mention.end + many[0].length };
  }
  // Where nothing is made twice, all of it may be told for one.
  const two =
    (eachSide.exec(behind) ?? ofPair(behind, making))?.[0] ??
    (n === 1 ? andOther.exec(behind)?.[0] : undefined);
  if (two === undefined) return null;
  const rows = ofRows.exec(behind.slice(two.length))?.[0];
  const inRows = rows?.match(/,|\band\b|&/gi)?.length ?? 0;
  const times = 2 * Math.max(stripsIn(text.slice(0, mention.start - start)), inRows + 1);
  return { mention, n, times, end: mention.end + two.length };
}

/** `of each slipper`, where something is made twice. */
function ofPair(behind: string, making: Making): RegExpExecArray | null {
  const match = eachOfPair.exec(behind);
  return match && (making.pieces.some(({ make }) => make === 2) || making.saysTwo) ? match : null;
}

/** `at each end of the second and fourth rows`. */
const ofRows =
  /^\s+of\s+(?:the\s+)?(?:(?!and\b)[\p{L}\d]+(?:\s*,\s*|\s+and\s+|\s*&\s*))*[\p{L}\d]+\s+(?:rows|strips|columns)\b/iu;

/** `half hexagon` is no other hexagon; `hexagons` may be any. */
function meantBy({ isWhole, pieces, kin }: SaidOf): readonly MadePiece[] {
  return isWhole ? pieces : kin;
}

/** `two strips of 4 hexagons with a half hexagon at each end`: at each end of two. */
function stripsIn(before: string): number {
  const [, many = "1"] = stripsWith.exec(before) ?? [];
  const n = numberFrom(many);
  return Number.isInteger(n) && n > 0 ? n : 1;
}

const stripsWith =
  /.*\b(\d{1,3}|[a-z]{3,9})\s+(?:rows?|strips?|columns?|lines?)\s+of\s+[\p{L}\d\s]+\bwith\s+(?:an?|one|\d+|\p{L}+)\s+(?:\p{L}+\s+)?$/iu;

/** `the 2 leaves` may be all there are. */
function numberOf({ many }: SaidOf, before: string): number | null {
  if (many) return many.isAll ? null : many.n;
  return /\b(?:an?|one)\s+(?:\p{L}+\s+)?$/iu.test(before) ? 1 : null;
}

function madeOf(pieces: readonly MadePiece[]): number {
  return pieces.reduce((sum, { make }) => sum + make, 0);
}

/** Words that tell of some more of a piece, or of fewer. */
const others =
  /\b(?:others?|remaining|rest|left\s+over|another|more|again|repeat|last|then|extra|spare|pairs?)\b/i;

function isWrong({ mention, n, times }: ForEach, { joining }: Making): boolean {
  const [piece] = meantBy(mention) as [MadePiece];
  const all = n * times;
  if (all === piece.make || times === 1) return false;
  if (all > piece.make)
    return !saysMore(piece) && (!tellsOfOthers(piece) || piece.make > 1 || saysOne(piece));
  const mentioned = joining.filter(({ mentions }) => mentions.some((one) => meantBy(one).includes(piece)));
  const [only] = mentioned;
  // `two strips with a half hexagon at each end`
  if (/\b(?:strips|rows|columns|panels)\b/i.test(only?.sentence.text ?? "")) return false;
  return (
    mentioned.length === 1 &&
    !joining.some(({ part, sentence }) => part === only?.part && others.test(sentence.text))
  );
}

function found({ mention, n, times, end }: ForEach, { line, sentence }: PlacedSentence): Found {
  const [piece] = meantBy(mention) as [MadePiece];
  const from = mention.many?.start ?? mention.start;
  const typed = sentence.text.slice(from - sentence.start, end - sentence.start);
  const { heading } = piece;
  const told = piece.make === 1 ? say`one is made` : say`${piece.make} are made`;
  return {
    span: { start: line.start + from, end: line.start + mention.end },
    message: say`The assembly speaks of "${typed}": that is ${n * times}, and ${told} under "${piece.name}". Make the numbers agree.`,
    fixes: headingFix(piece, n * times),
    related: [{ span: heading, message: say`Here ${told}.` }],
  };
}
