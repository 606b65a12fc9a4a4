import type { Span } from "../../text/span";
import { colourNames, colourShades } from "../../trade/colours";
import { anyYarnLetter, yarnLetter } from "../front-matter/yarns";
import { trade } from "../vocabulary";

/** A yarn that a line takes up, in offsets of the line. */
export interface YarnMention extends Span {
  readonly kind: "letter" | "colour";
  /** `A`, `tide blue`; as typed. */
  readonly name: string;
}

const taking = `(?:[Ww]ith|(?:[Ss]tart|[Bb]egin)(?:ning)? in|[Uu]sing|(?:[Rr]e)?[Jj]oin(?:ing)?|[Cc]hang(?:e|ing) to|[Ss]witch(?:ing)? to|[Aa]ttach)`;
const letter = new RegExp(
  String.raw`\b${taking}\s+(?:[^.,;:()]{1,24}\bhook\s+and\s+|[\d.]+\s?mm\s+hook\s+and\s+)?(?:(?:yarn|colou?r)\s+)?(${anyYarnLetter})\b(?![-'’/]|\s+(?:crochet\s+)?hook)`,
  "gu",
);
const name = String.raw`(\p{L}[\p{L}-]{1,20}(?: \p{L}[\p{L}-]{1,20}){0,2}?)`;
const end = String.raw`(?=\s+(?:yarns?|colou?r|cotton|wool)\b|\s*(?:[.:;,)]|$)|\s+(?:in|at|on|for|from|and|with|when|before|to)\b)`;
/** Where a colour is taken up with words that say so. */
const change = new RegExp(
  String.raw`(?:^\s*(?:with|using)|\b(?:chang(?:e|ing)|switch(?:ing)?)(?: colou?r)? to|^\s*(?:begin|start|work) (?:with|in)|\bjoin)\s+(?:the\s+)?${name}${end}`,
  "giu",
);

/** `embroider a mouth with brown.`: a known colour, with nothing behind it. */
const withColour = new RegExp(String.raw`(?<!^\s*)\bwith\s+${name}(?=\s*(?:[.;,)]|$))`, "giu");

/** The yarns that a line takes up: `With A`, `Change to tide blue.`, `Join cream with a sl st`. */
export function yarnsIn(text: string): YarnMention[] {
  if (
    !/\b(?:with|using|yarn:|colou?r:|chang|switch|join|rejoin|attach|(?:start|begin)\s+in|lengths?|strands?|pompoms?|tassels?)/i.test(
      text,
    )
  )
    return [];
  return [...lettersIn(text), ...coloursIn(text), ...coloursMadeOf(text)].sort((a, b) => a.start - b.start);
}

const inHead =
  /^.{1,24}?[([,–—-]\s*(?:[RW]S\s*,\s*)?(?:(?:[Yy]arn|[Cc]olou?r|with|in)\s+)?([A-H]|MC|CC\d?)(?=\s*(?:,\s*[RW]S\s*)?(?:[)\]]|:))/u;

/** `Row 3 (B):`, `Rnd 4 (in A):`, `Row 5: (B) Sc in …`: the letter that the head of a row says. */
function yarnInHead(text: string): YarnMention[] {
  const match = inHead.exec(text);
  return match ? [mention("letter", match[1] as string, match)] : [];
}

/** Those of a row, with the letter of its head. */
export function yarnsInRow(text: string): YarnMention[] {
  return [...yarnInHead(text), ...yarnsIn(text)];
}

/** `Wing (make 2, black)`, `Tail (Yarn B, 4 mm hook)`, `Leaf: green`, `Ears (in pink and white)`. */
const saidOf =
  /(?<=([([,;/&–—:-]\s*|\b(?:and|in|with|using|yarn|colou?r)\s))((?:(?!and\b)\p{L}+[ -]){0,2}\p{L}+\d?)(?=\s*(?:yarns?\s*|colou?rs?\s*)?(?:[)\],;/&]|and\b|$))/giu;
const yarnSaid = new RegExp(`^${yarnLetter}$`, "u");

/** The yarns that a heading names: a colour it knows, or a letter that it calls a yarn. */
export function yarnsInHeading(text: string): YarnMention[] {
  const known = [...text.matchAll(saidOf)].flatMap((match): YarnMention[] => {
    const [, lead = "", phrase = ""] = match;
    const name = phrase.replace(/^(?:in|with|using|yarn|colou?r)\s+/i, "");
    const isLetter = yarnSaid.test(name) && (name.length > 1 || lead.trim().length > 1 || name !== phrase);
    if (!isLetter && !isColourName(name.toLowerCase().split(/[\s-]+/))) return [];
    const end = match.index + phrase.length;
    return [{ kind: isLetter ? "letter" : "colour", name, start: end - name.length, end }];
  });
  return [...known, ...ownNameIn(text)];
}

/** `EARS (make 2, in Walnut)`: a name of the maker's own. */
const ownName = /\(\s*(?:make|work)\s[^()]*\bin\s+(\p{Lu}\p{Ll}{2,})\s*\)/u;

function ownNameIn(text: string): YarnMention[] {
  const match = ownName.exec(text);
  const name = match?.[1];
  if (!match || name === undefined || trade.has(name.toLowerCase()) || isColourName([name.toLowerCase()]))
    return [];
  const end = match.index + match[0].lastIndexOf(name) + name.length;
  return [{ kind: "colour", name, start: end - name.length, end }];
}

/** Nothing but the name of a colour: `dark grey`. */
function isColourName(words: readonly string[]): boolean {
  return (
    colourNames.has(words.at(-1) ?? "") &&
    words.slice(0, -1).every((word) => colourShades.has(word) || colourNames.has(word))
  );
}

function lettersIn(text: string): YarnMention[] {
  return [...text.matchAll(letter)].map((match) => mention("letter", match[1] as string, match));
}

function coloursIn(text: string): YarnMention[] {
  const taken = [...text.matchAll(change)]
    .map((match) => mention("colour", match[1] as string, match))
    .filter(({ name, end }) => isColour(name.toLowerCase().split(/[\s-]+/), text.slice(end)));
  const others = [...text.matchAll(withColour)]
    .map((match) => mention("colour", match[1] as string, match))
    .filter(
      ({ name, start }) =>
        isColourName(name.toLowerCase().split(/[\s-]+/)) && !taken.some((one) => one.start === start),
    );
  return [...taken, ...others];
}

/** `6 lengths of pink`, `a cream pompom`: a known colour that something is cut from or made in. */
const madeOf = [
  /\b(?:lengths?|strands?)\s+of\s+((?:\p{L}+[ -])?\p{L}+)/giu,
  /\b(?:an?|each|two|small|large)\s+((?:\p{L}+[ -])?\p{L}+)(?=\s+(?:pompom|tassel)s?\b)/giu,
];

function coloursMadeOf(text: string): YarnMention[] {
  if (!/\b(?:lengths?|strands?|pompoms?|tassels?)\b/i.test(text)) return [];
  return madeOf
    .flatMap((form) => [...text.matchAll(form)])
    .flatMap((match) => {
      const words = (match[1] as string).split(/[ -]/);
      const known = colourNames.has((words.at(-1) ?? "").toLowerCase()) ? words : words.slice(0, 1);
      if (!isColourName(known.map((word) => word.toLowerCase()))) return [];
      const start = match.index + match[0].indexOf(match[1] as string);
      const name = text.slice(start, start + known.join(" ").length);
      return [{ kind: "colour" as const, name, start, end: start + name.length }];
    });
}

function mention(kind: YarnMention["kind"], name: string, match: RegExpExecArray): YarnMention {
  const end = match.index + match[0].length;
  return { kind, name, start: end - name.length, end };
}

const alone = new RegExp(String.raw`(?<![\p{L}\d])(${anyYarnLetter})(?![\p{L}\d'’])`, "gu");
const range = /(?<![\p{L}\d])([A-H])\s?(?:-|–|to)\s?([A-H])(?![\p{L}\d])/gu;

/** Every letter of a line that may stand for a yarn, whatever the words around it; `A-D` holds four. */
export function lettersAlone(text: string): string[] {
  const ranges = [...text.matchAll(range)].flatMap(([, from = "", to = ""]) => lettersFrom(from, to));
  return [...new Set([...[...text.matchAll(alone)].map(([letter]) => letter), ...ranges])];
}

function lettersFrom(from: string, to: string): string[] {
  const all = "ABCDEFGH";
  return [...all.slice(all.indexOf(from), all.indexOf(to) + 1)];
}

/** Words that stand behind the same verbs and name no colour. */
const others =
  /^(?:side|sides|facing|hooks?|needles?|sizes?|mm|half|working|charts?|edges?|top|bottom|yarns?|strands?|double|held|contrast(?:ing)?|main|other|second|new|pieces?|tails?|wrong|right|smaller|larger|thread|pins?|starch|sewing|sl|slip|standing|stuffing|same|next|any|each|both|your|a|an|the|colou?rs?|invisible|mattress|whip\w*|needle|knots?|ends?|long|matching|remaining|one|two|unless|if|until|asked|told|needed|again|here|there|together|rounds|as|you|we|go|where)$/;

/** A known name of a colour, or words that are none of the trade's and close the sentence. */
function isColour(words: readonly string[], behind: string): boolean {
  if (words.some((word) => others.test(word))) return false;
  if (colourNames.has(words.at(-1) ?? "")) return true;
  return /^(?:\s+yarn)?\s*[.:]\s*$/.test(behind) && !words.some((word) => trade.has(word));
}
