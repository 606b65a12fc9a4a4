import { colourNames, colourShades } from "../../trade/colours";
import { unitSpellings } from "../../trade/units";
import { numberOf } from "./lengths";
import { otherWord } from "./other-things";
import type { FrontLine } from "./sections";
import { partOf, type Stretch, splitAt } from "./stretch";

/** How much of a yarn: `50 g`, `120 (140, 160) yds`, `2 balls`. */
export interface Amount extends Stretch {
  /** One number, or one a size. */
  readonly values: readonly number[];
  readonly unit: "g" | "kg" | "oz" | "lb" | "m" | "yd" | "ball";
  /** What one ball weighs, where the amount itself says so: `3 x 50 g balls`. */
  readonly ballGrams: number | null;
}

/** One yarn of the list, as far as it is told from others: by a letter, by its colour, or not at all. */
export interface Yarn extends Stretch {
  /** `A`, `MC`. */
  readonly letter: Stretch | null;
  /** `tide blue`. */
  readonly colour: Stretch | null;
  readonly amounts: readonly Amount[];
  /** The item of the list that it belongs to, with fibre and weight: `DK cotton: 45 g in sand, 20 g in tide blue`. */
  readonly item: Stretch;
  /** `DK`, `worsted`, `4ply`, as the item says it; null where it says nothing. */
  readonly weight: string | null;
}

export const yarnLetter = String.raw`(?:[A-H]|M[CS]|CC\d?|C[A-HS1-9])`;
/** Also the letter of a name, `Navy (N)`: where words around it tell that a yarn is meant. */
export const anyYarnLetter = String.raw`(?:[A-HJ-Z]|M[CS]|CC\d?|C[A-HS1-9])`;

const yarnWord =
  /\b(?:yarns?|cotton|wool|acrylic|alpaca|merino|bamboo|linen|silk|chenille|velvet|cord|rope|thread|twine|string|jute|raffia|dk|worsted|aran|chunky|bulky|sport|fingering|\d{1,2}[ -]?ply|balls?|skeins?|hanks?)\b/i;
const list = String.raw`\d{1,5}(?:[.,]\d{1,2})?(?:\s?[([{]\s?\d{1,5}(?:[.,]\d{1,2})?(?:\s?[,:;–-]\s?\d{1,5}(?:[.,]\d{1,2})?){0,15}\s?[)\]}])?`;
const ball = "(?:balls?|skeins?|hanks?|cones?)";
/** `50 g`, `3 (4, 4) balls`, `3 x 50 g balls`, `3 x` before `50 g`; the grams of `50 g balls` are of one ball. */
const amount = new RegExp(
  String.raw`(?<![\d.,/])(${list})\s?(?:(?:[x×]\s?)?[([]?(\d{1,4})\s?g(?:r|ms?|rams?)?[)\]]?[\s-]?(${ball})(?![\p{L}\d])|([x×])(?=\s?(\d{1,4})\s?g(?:r|ms?|rams?)?(?![\p{L}\d]))|(g|gms?|grams?|grammes?|kg|oz|ounces?|lbs?|m|metres?|meters?|yds?|yards?|${ball})(?![\p{L}\d])(?![\s-]?${ball}))`,
  "giu",
);
const weightWord =
  /\b(?:super (?:bulky|chunky|fine)|light worsted|double knitting|dk|worsted|aran|chunky|bulky|sport|fingering|sock|lace|jumbo|\d{1,2}[ -]?ply)\b/i;

/** The yarns of the list of materials. */
export function readYarns(lines: readonly FrontLine[]): Yarn[] {
  return lines
    .filter(({ topic, content }) => topic === "materials" || topic === "yarn" || isUntitled(topic, content))
    .flatMap(({ content, topic }) => itemsOf(content).flatMap((item) => yarnsOfItem(item, topic === "yarn")));
}

/** `DK wool: 1 x 50 g ball each of Navy (M) and Sky (C).` under no title. */
function isUntitled(topic: FrontLine["topic"], content: Stretch): boolean {
  return (
    topic === "other" &&
    (byFibre.test(content.text) || byBalls.test(content.text) || isAmountOf(content)) &&
    amountsIn(content.text).length > 0
  );
}

/** `1 x 50 g baby DK in mint`: it begins with how much, of what weight and of what colour. */
function isAmountOf(content: Stretch): boolean {
  const [first] = amountsIn(content.text);
  return first?.index === 0 && weightWord.test(content.text) && namedColour(content) !== null;
}

/** `2 [2] x 50 g balls of cotton DK in Lemon`. */
const byBalls = new RegExp(String.raw`^\d[^.:]{0,30}\b${ball}\s+(?:of|in)\b`, "i");
const byFibre =
  /^(?:(?:super )?(?:bulky|chunky)|double knitting|dk|worsted|aran|sport|fingering|\d{1,2}[ -]?ply|cotton|wool|merino|acrylic)\b[^.:]{0,30}[:,–—-]\s/i;

export function itemsOf(content: Stretch): Stretch[] {
  return splitAt(content, /[;•·|]+|\.\s+(?=\p{Lu})/gu);
}

function yarnsOfItem(item: Stretch, about: boolean): Yarn[] {
  const pieces = withAmounts(item, splitAt(item, /,(?![^()[\]]*[)\]])|\band\b|&|\+/g));
  const parts = (isOneYarn(item, pieces) ? [item] : pieces).filter(({ text }) => !otherWord.test(text));
  const isYarn = about || parts.some(speaksOfYarn);
  if (!isYarn || parts.length === 0) return [];
  const weight = weightWord.exec(item.text)?.[0] ?? null;
  return parts.map((part) => {
    const own = behindColon(part);
    const letter = letterOf(own);
    return { ...own, letter, colour: colourOf(own, letter), amounts: readAmounts(own), item, weight };
  });
}

/** `brown, about 60 m, beige`: a bare amount is that of the yarn before it. */
function withAmounts(item: Stretch, pieces: readonly Stretch[]): readonly Stretch[] {
  if (!/\babout\b/i.test(item.text)) return pieces;
  const isAmount = (piece: Stretch | undefined): boolean =>
    piece !== undefined && onlyAmount.test(piece.text);
  return pieces.flatMap((piece, i) => {
    if (i > 0 && isAmount(piece)) return [];
    const next = pieces[i + 1];
    return [next && isAmount(next) ? partOf(item, piece.start - item.start, next.end - item.start) : piece];
  });
}

const onlyAmount = new RegExp(
  String.raw`^\W*about ${list}\s?(?:m|metres?|meters?|yds?|yards?|g|grams?|oz)\W*$`,
  "iu",
);

/** `Yarn A: bulky chenille, cream, 100 g`: its letter leads all of it. */
const ledByLetter = new RegExp(
  String.raw`^\W*(?:(?:[Yy]arn|[Cc]olou?r)\s)?${yarnLetter}\s?(?:\([^()]*\)\s?)?[:=–-]\s`,
  "u",
);

function isOneYarn(item: Stretch, pieces: readonly Stretch[]): boolean {
  return (
    ledByLetter.test(item.text) &&
    pieces.filter((piece) => letterOf(piece) !== null).length === 1 &&
    pieces.filter((piece) => namedColour(piece) !== null).length < 2
  );
}

function speaksOfYarn(part: Stretch): boolean {
  return yarnWord.test(part.text) || amountsIn(part.text).length > 0 || letterOf(part) !== null;
}

const onlyLetter = new RegExp(String.raw`^\W*(?:(?:[Yy]arn|[Cc]olou?r)\s)?${yarnLetter}\W*$`, "u");

/** `Worsted cotton: 50 g red` → `50 g red`; `Navy (A): 1 skein` stays whole. */
function behindColon(part: Stretch): Stretch {
  // Not the colon of a list: `3 [4: 4] balls`.
  const colon = [...part.text.matchAll(/: (?![^([]*[)\]])/g)].at(-1)?.index ?? -1;
  if (colon < 0 || colon === part.text.length - 1) return part;
  const [before, behind] = [partOf(part, 0, colon), partOf(part, colon + 1)];
  return onlyLetter.test(before.text) || (namesYarn(before) && !namesYarn(behind)) ? part : behind;
}

/** By its letter, or by nothing but its colour. */
function namesYarn(part: Stretch): boolean {
  return letterOf(part) !== null || namedColour(part)?.text === part.text;
}

function amountsIn(text: string): RegExpExecArray[] {
  return [...text.matchAll(amount)];
}

export function readAmounts(part: Stretch): Amount[] {
  return amountsIn(part.text).map((match) => {
    const [all, figures = "", ofBall, , , behind, unit] = match;
    const each = ofBall ?? behind;
    return {
      ...partOf(part, match.index, match.index + all.length),
      values: (figures.match(/\d+(?:[.,]\d+)?/g) ?? []).map(numberOf),
      unit: each === undefined ? unitOf((unit ?? "").toLowerCase()) : "ball",
      ballGrams: each === undefined ? null : Number(each),
    };
  });
}

function unitOf(spelling: string): Amount["unit"] {
  const unit = unitSpellings.get(spelling);
  return unit === "g" || unit === "kg" || unit === "oz" || unit === "lb" || unit === "m" || unit === "yd"
    ? unit
    : "ball";
}

const letterForms = [
  new RegExp(String.raw`[([]\s?(?:(?:yarn|colou?r)\s)?(${anyYarnLetter})\s?[)\]]`, "u"),
  new RegExp(String.raw`\b(?:[Yy]arns?|[Cc]olou?rs?|[Cc]ol)\s(${yarnLetter})\b(?!['’])`, "u"),
  new RegExp(
    String.raw`(?:^|(?<=\s[-–—]\s|:\s))(${yarnLetter})(?=\s?(?:[:=([–]|-(?!\d))|\s\p{Ll}|\s?$)`,
    "u",
  ),
];

function letterOf(part: Stretch): Stretch | null {
  for (const form of letterForms) {
    const match = form.exec(part.text);
    if (!match) continue;
    const at = match.index + match[0].lastIndexOf(match[1] as string);
    return partOf(part, at, at + (match[1] as string).length);
  }
  return null;
}

const weightAlone = /^(?:dk|worsted|aran|chunky|bulky|sport|fingering)$/i;

/** Words of a yarn that are no name of a colour. */
const noColour =
  /^(?:yarns?|colou?rs?|in|of|for|each|every|per|a|an|the|any|your|own|choice|about|approx|or|some|one|two|small|large|amount|oddments?|scraps?|balls?|skeins?|hanks?|cones?|weight|x|ply|with|total|square|main|contrast(?:ing)?|leftover|plus|more|less|held|single|double|doubled|strands?|together|throughout)$/i;

/** `DK cotton, shade Tangerine`: the word before it tells what it is. */
const afterShade = /\bshades?:?\s+(\p{Lu}[\p{L}'’-]*(?:\s\p{Lu}[\p{L}'’-]*){0,2})/u;

function shadeOf(part: Stretch): Stretch | null {
  const match = afterShade.exec(part.text);
  if (!match) return null;
  const end = match.index + match[0].length;
  return partOf(part, end - (match[1] as string).length, end);
}

/** A colour is known by its name, or by standing beside a letter or behind an amount. */
function colourOf(part: Stretch, letter: Stretch | null): Stretch | null {
  const shade = shadeOf(part);
  if (shade) return shade;
  const named = namedColour(part);
  if (named) return named;
  const amounts = readAmounts(part);
  if (letter === null && amounts.length === 0) return null;
  const from = letter && letter.start <= part.start + 1 ? letter.end - part.start : behindIn(part);
  const words = [...part.text.slice(from).matchAll(/\p{L}[\p{L}'’-]*/gu)]
    .map(({ 0: word, index }) => ({ word, at: from + index }))
    .filter(
      ({ word, at }) =>
        !isInside(part.start + at, [...amounts, ...(letter ? [letter] : [])]) &&
        !noColour.test(word) &&
        !weightAlone.test(word),
    );
  const first = words[0];
  const last = words.at(-1);
  if (!first || !last || words.length > 3) return null;
  const colour = partOf(part, first.at, last.at + last.word.length);
  if (/\b(?:per|each)\s/i.test(part.text.slice(from)) || weightWord.test(colour.text)) return null;
  if (isNamedByAmount(colour.text, part.text)) return colour;
  const isPlain = /^[\p{Ll}\s'’-]+$/u.test(colour.text) && !yarnWord.test(colour.text);
  return isPlain || (letter !== null && /^[\p{L}\s'’-]+$/u.test(colour.text) && !yarnWord.test(colour.text))
    ? colour
    : null;
}

/** `Moss (50 g)`: a name of the maker's own, with how much of it. */
function isNamedByAmount(name: string, text: string): boolean {
  const isName = /^\p{Lu}[\p{L}'’-]+(?: \p{Lu}[\p{L}'’-]+)?$/u.test(name) && !yarnWord.test(name);
  return isName && /^\s*[([]\s*\d/.test(text.slice(text.indexOf(name) + name.length));
}

/** `2 balls of cotton DK in teal`: the colour is named last. */
function behindIn({ text }: Stretch): number {
  const at = text.lastIndexOf(" in ");
  return at < 0 ? 0 : at + 4;
}

function isInside(offset: number, spans: readonly Stretch[]): boolean {
  return spans.some(({ start, end }) => start <= offset && offset < end);
}

/** `light blue`, `black`: a name that everybody uses, with its shade. */
function namedColour(part: Stretch): Stretch | null {
  const words = [...part.text.matchAll(/\p{L}+/gu)].map(({ 0: word, index }) => ({
    word: word.toLowerCase(),
    index,
  }));
  const last = words.findLastIndex(({ word }) => colourNames.has(word));
  if (last < 0) return null;
  let first = last;
  while (first > 0 && isShade(words[first - 1]?.word ?? "") && isOneGap(part.text, words, first)) first--;
  const { index } = words[first] as { index: number };
  const end = words[last] as { word: string; index: number };
  return partOf(part, index, end.index + end.word.length);
}

function isShade(word: string): boolean {
  return (
    (colourShades.has(word) || !noColour.test(word)) &&
    !yarnWord.test(word) &&
    word.length > 1 &&
    !unitSpellings.has(word)
  );
}

function isOneGap(text: string, words: readonly { word: string; index: number }[], at: number): boolean {
  const [before, word] = [words[at - 1], words[at]];
  return (
    before !== undefined &&
    word !== undefined &&
    /^[ -]$/.test(text.slice(before.index + before.word.length, word.index))
  );
}
