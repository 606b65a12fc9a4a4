import type { Language } from "../trade/languages/languages";
import { tellsOfChain } from "./declared";
import { isHeading } from "./headings";
import { draftOfOtherLanguage } from "./other-heads";
import { startingChain } from "./other-languages";

/** What a line of a pattern is, as far as its own text tells. */
export interface LineContent {
  readonly kind: "row" | "foundation" | "copy" | "heading" | "field" | "size" | "blank" | "prose";
  readonly text: string;
  readonly head: RowHead | null;
}

/** How a row is announced. */
export interface RowHead {
  /** As typed, without closing mark, side, label and colour. */
  readonly text: string;
  readonly word: "row" | "round" | "none";
  readonly from: number | null;
  /** Last row of a range, one number a size; null for one row. */
  readonly to: readonly (number | null)[] | null;
  readonly open: boolean;
  /** How many rows, where a head without numbers says so: `Next 6 rows`. */
  readonly many: readonly (number | null)[] | null;
  /** What stands between the number and the instructions: `(Eyelet Rnd)`, `(RS)`, a colour. */
  readonly label: string;
  /** The side that faces while it is worked: `Row 3 (RS)`. */
  readonly side: "RS" | "WS" | null;
  /** Characters of the line before the instructions. */
  readonly length: number;
  /** What language it is in, where that is not English: `Runde 3`. */
  readonly language?: Language;
}

/** A head without what stands behind its numbers. */
export type HeadDraft = Omit<RowHead, "length" | "label" | "side">;

const rowWord = "(?:rows?|rnds?|rounds?|rws?|rds?|r)";
/** More digits than these number no row. */
const number = String.raw`\d{1,12}`;
const sizedEnd = String.raw`(?:\d+(?:\s*[([{]\s*[\d\s,;:–-]+[)\]}])?|[([]\s*\d+(?:\s*[,;:]\s*\d+)+\s*[)\]])`;
const dash = String.raw`\s*(?:[-–—&,]|to|and|through)\s*`;
const ord = String.raw`\d+(?:st|nd|rd|th|d)`;

/** What is done in a row: such rows have numbers of their own, and not those of the piece. */
const shapingRow = "(?:inc(?:reas(?:e|ing))?|dec(?:reas(?:e|ing))?)";
const kindOfRow = `(?:${shapingRow}|patt(?:ern)?|eyelet|buttonhole|short)`;

const shapes: readonly { readonly form: RegExp; readonly word?: "row" | "round" }[] = [
  {
    form: new RegExp(
      String.raw`^(?:rs|ws)?\s*(${rowWord})\.?\s*#?\s*(${number})(?:(?:${dash}(?:${rowWord}\.?\s*)?|\s+until\s+(?:${rowWord}\.?\s*)?|\+)(${sizedEnd}))?(\+)?((?<=\d)(?:\s*(?:,\s*and|[,&]|and)\s*${number})+)?(?!(?<!^r\d{1,3}(?:[-–]\d{1,3})?)\s*(?:sc|dc|hdc|tr|inc|dec|sts?|ch)\b)(?![\w%])`,
      "iu",
    ),
  },
  {
    form: new RegExp(
      String.raw`^(${ord})(?:(?:${dash})(${ord}))*\s+(?:${kindOfRow}\.?\s+)?(rows?|rnds?|rounds?)\b`,
      "iu",
    ),
  },
  { form: new RegExp(String.raw`^(${ord})(?=\s*[:—–-])`, "iu") },
  {
    form: new RegExp(
      String.raw`^(${number})\.?(?:${dash}(${number})\.?)?\s+(row|rnd|round)s?(?=\s*[:.–-])`,
      "iu",
    ),
  },
  {
    form: new RegExp(
      String.raw`^((?:next|last|foundation|first|set-?up|final|following|base|joining)\s+(?:(${sizedEnd})\s+)?(?:inc\s+|dec\s+)?(rows?|rnds?|rounds?))\b`,
      "iu",
    ),
  },
  // `Dec row 2:`
  {
    form: new RegExp(String.raw`^(${shapingRow}\.?\s+()(row|rnd|round)\.?\s+\d{1,3})(?=\s*[:.–-])`, "iu"),
  },
  // `Dec row:`, `Eyelet Rnd:`
  {
    form: /^((?!(?:rep|repeat|work|each|every|this|that|these|in|on|at|for|the|of|as|per|last)\b)\p{L}+(?:\s\p{L}+)?\s+()(row|rnd|round))(?=\s*(?:\((?:rs|ws)\)\s*)?:\s*\S)/iu,
  },
  { form: new RegExp(String.raw`^(${number})(?:\.?${dash}(${number}))?(?=[:)]\s*\S|\.\s+\S)`, "iu") },
];

const bareNumber = shapes.length - 1;

/** A bullet, a side, or what the rows are for: `Shoulder: Next row: …`. */
const beforeHead =
  /^\s*(?:[•·▪]\s*|[-–>]\s+(?=(?:rows?|rnds?|rounds?)\s*\d))?(?:\((?:rs|ws)\)\s*)?(?:\p{L}[\p{L} ]{2,30}:\s+(?=(?:next\s+(?:row|rnd|round)|(?:row|rnd|round)\s*\d+)\b))?/iu;

/** `Body Rnd 2:`, `Heel Rows 2-14:`, `Hem, Rnd 3:`: the part that a row is of. */
const partBeforeHead = new RegExp(
  String.raw`^\s*(?!(?:${shapingRow}|rep|repeat|work|after|before|for|at|in|on|from|until|between|note|see|when|during|of|the|with|through|to|as|like|end|join|continue|cont|place|mark|change)\b)\p{L}[\p{L}'’]+(?:\s\p{L}+)?\s*(?:[,–—-]\s*)?(?=(?:rows?|rnds?|rounds?)\.?\s*\d{1,4}(?:\s*[-–—]\s*\d{1,4})?\s*:\s*\S)`,
  "iu",
);

/** The head that a stretch of text starts with; null where it is no row. */
export function readHead(text: string): RowHead | null {
  const bold = text.includes("**") ? boldHead.exec(text) : null;
  return headIn(bold ? `${bold[1]}  ${bold[2]}  ${text.slice(bold[0].length)}` : text);
}

/** `**Rnd 1:** Ch 2`: a head between marks of bold print, which are none of the row. */
const boldHead =
  /^(\s*(?:[-•]\s+)?)\*\*((?:next|last|foundation)?\s*(?:rows?|rnds?|rounds?|r(?=\d))\b[^*]{0,60})\*\*/i;

function headIn(text: string): RowHead | null {
  const lead = (beforeHead.exec(text)?.[0] || partBeforeHead.exec(text)?.[0] || "").length;
  const body = text.slice(lead);
  const found = shapeOf(body);
  // `1. Runde:` begins with a number as well.
  const other = !found || found.shape === bareNumber ? draftOfOtherLanguage(body) : null;
  const head = other ? withMark(other, other.text, body) : found && headOf(found, body);
  if (!head) return null;
  const length = lead + head.length;
  const label = text.slice(lead + head.text.length, length).trim();
  return { ...head, label, side: sideIn(text.slice(0, length)), length };
}

function sideIn(head: string): RowHead["side"] {
  const named = /\b(?:(rs|right side)|ws|wrong side)\b/i.exec(head);
  return named && (named[1] === undefined ? "WS" : "RS");
}

type MarkedHead = Omit<RowHead, "label" | "side">;

interface FoundShape {
  /** Index of the shape. */
  readonly shape: number;
  readonly match: RegExpExecArray;
}

function shapeOf(body: string): FoundShape | null {
  for (const [shape, { form }] of shapes.entries()) {
    const match = form.exec(body);
    if (match) return { shape, match };
  }
  return null;
}

function headOf({ shape, match }: FoundShape, body: string): MarkedHead | null {
  const draft = draftOf(shape, match);
  const head = draft ? withMark(draft, match[0], body) : null;
  return head && shape === 0 && isInline(head.mark, body.slice(head.length)) ? null : head;
}

/** Prose begins so: `Row 3 of the chart`. */
function isInline(mark: string, behind: string): boolean {
  return (
    !/[:.)–—-]/.test(mark) &&
    /^(?:of|and|is|are|was|for|until|only|has|to|on|forms?|sets?|establish\w*|in the|with the)\b/i.test(
      behind,
    )
  );
}

/** A head up to the mark that closes it; null where other words go on behind it. */
function withMark(draft: HeadDraft, found: string, body: string): (MarkedHead & { mark: string }) | null {
  const rest = body.slice(found.length);
  const label =
    /^(?:\s+of\s+(?:the\s+)?\p{L}+(?:\s\p{L}+)?(?=\s*:)|\s+and\s+(?:all|every)\s+[\w\s]{1,30}?rows?(?=\s*[:.])|\s+incl(?:usive|\.)?|\s*,\s*(?:col(?:ou?r)?\.?\s*)?[A-Z]\w*(?=\s*[:–—-])|\s*,\s*(?:(?:eyelets?|buttonholes?|increas\w+|decreas\w+|inc|dec|shaping|edging|fringe|turning|opening|joining)(?:\s(?:row|rnd|round))?)(?=\s*:)|\s*\((?!\d+\s*\))[^()]*\)(?=\s*[:.–—-])|\s*\(\d+(?:\s*,\s*\d+)*\)(?=\s*(?::|,\s*\p{L}[\p{L} ]{2,20}:))|\s*\((?:rs|ws|right side|wrong side)\))*/iu.exec(
      rest,
    )?.[0] ?? "";
  const behind = rest.slice(label.length);
  const mark = /^\s*(?:[:.)|]|[–—-]+)\s*|^\s+/u.exec(behind)?.[0];
  if (mark === undefined && behind !== "") return null;
  const side =
    /^\s*\((?:rs|ws|right side|wrong side)\)\s*[:,]?/iu.exec(behind.slice(mark?.length ?? 0))?.[0] ?? "";
  const length = found.length + label.length + (mark?.length ?? 0) + side.length;
  return { ...draft, length, mark: mark ?? "" };
}

const ofKind = new RegExp(String.raw`\b${kindOfRow}\b`, "i");

function draftOf(shape: number, match: RegExpExecArray): HeadDraft | null {
  const text = match[0].replace(/^(?:rs|ws)\s+/i, "").trim();
  const plain = { text, open: false, many: null };
  switch (shape) {
    case 0: {
      const word = /^(?:rnd|rd|round|r(?!ow|w))/i.test(match[1] as string) ? "round" : "row";
      return {
        ...plain,
        word,
        from: Number(match[2]),
        to: match[3] ? endsOf(Number(match[2]), match[3], match[5]) : null,
        open: match[4] === "+",
      };
    }
    case 1: {
      const all = [...match[0].matchAll(/\d+/g)].map(Number);
      return {
        ...plain,
        word: /^row/i.test(match[3] as string) ? "row" : "round",
        // Rows of the pattern stitch have numbers of their own.
        from: ofKind.test(text) ? null : (all[0] ?? null),
        to: all.length > 1 ? [all.at(-1) as number] : null,
      };
    }
    case 2:
      return { ...plain, word: "none", from: Number.parseInt(match[1] as string, 10), to: null };
    case 3:
      // Translations say "row" of rounds as well.
      return {
        ...plain,
        word: /^row/i.test(match[3] as string) ? "none" : "round",
        from: Number(match[1]),
        to: match[2] ? [Number(match[2])] : null,
      };
    case 4:
    case 5:
    case 6:
      return {
        ...plain,
        word: /^row/i.test(match[3] as string) ? "row" : "round",
        from: null,
        to: null,
        many: match[2] ? sizedNumbers(match[2]) : null,
      };
    default:
      return { ...plain, word: "none", from: Number(match[1]), to: match[2] ? [Number(match[2])] : null };
  }
}

/** Behind `Rows 3, 5` there may be more of the list. */
function endsOf(from: number, end: string, more: string | undefined): number[] {
  return more === undefined ? sizedEnds(from, end) : sizedNumbers(more).slice(-1);
}

/** `Rows 3, 5 and 7`: the numbers of rows that are not all neighbours; none for other heads. */
export function listedNumbers({ text, from, to }: RowHead): readonly number[] {
  if (from === null || to === null || /[-–—([]|\b(?:to|until|through)\b/i.test(text)) return [];
  const numbers = sizedNumbers(text);
  const grows = numbers.every((n, i) => i === 0 || n > (numbers[i - 1] ?? n));
  return grows && (numbers.at(-1) ?? 0) - from >= numbers.length ? numbers : [];
}

const rangeOfSize = /^\s*(\d+)\s*[-–—]\s*(\d+)\s*$/;

/** The last rows of a range, one a size: `30 (34)`, or `44 (37-50)` where each size has rows of its own. */
function sizedEnds(from: number, text: string): number[] {
  const numbers = sizedNumbers(text);
  const [first = from] = numbers;
  const inside = /[([]([^)\]]*)[)\]]/.exec(text)?.[1];
  const ranges = inside?.split(/[,;:]/).map((part) => rangeOfSize.exec(part)) ?? [];
  const areRanges = ranges.length > 0 && ranges.every((range) => range !== null && Number(range[1]) <= first);
  // As many rows as the size has, counted from the first of all.
  return areRanges
    ? [first, ...ranges.map((range) => from + Number(range?.[2]) - Number(range?.[1]))]
    : numbers;
}

function sizedNumbers(text: string): number[] {
  return [...text.matchAll(/\d+/g)].map(([digits]) => Number(digits));
}

const fieldWords =
  /^(?:materials?|yarn|hooks?|gauge|tension|stitches control|finished(?: size| measurements)?|size|sizes|measurements|level|skill level|difficulty|notions|notes?|abbreviations?|terms|language|special stitch(?:es)?|stitch(?:es)? used|colou?rs?|to fit|you will need|pattern notes?|multiple|written in|instructions are|version|design|copyright|about|stitch guide|stitch key|needles?|tools|supplies|ease|swatch|safety|care)\b/i;
const sizeLine = /^\s*(?:(?:for\s+)?sizes?\s+.+\bonly|all sizes|for all sizes|both sizes)\s*[:.]?\s*$/i;
const copyLine =
  /^\s*[[(*]?\s*(?:(?:rep(?:eat)?s?|alternate)\b[^.]*\b(?:(?:row|rnd|round|rw|rd)s?\b|r\s?\d)|(?:(?:cont(?:inue)?|work(?:ing)?|keep(?:ing)?)\s[^.;:*()]{1,40}?,\s*)?(?:dec|inc)(?:reas(?:e|ing))?\s+\d+\s+sts?\s+(?:at\s+)?(?:the\s+)?(?:each|both|neck|armhole|raglan|beg|end|inner|outer|front|side)|work(?:ed)?\s+(?:the\s+)?(?:same\s+)?as\s+(?:for\s+)?(?:the\s+)?\p{L}[^.;:]{1,40}?\b(?:to|until|through)\s+(?:the\s+)?(?:end\s+of\s+)?(?:row|rnd|round)\s+\d|work\s+(?:rows|rnds|rounds)\s+\d+\s*(?:[-–—]|to|and)\s*\d+\s*(?:[([][\d\s,;:–-]+[)\]]\s*)?(?:of|from|as)\b|work\s+\d+(?:st|nd|rd|th)\b[^.;:]*\b(?:rows?|rnds?|rounds?)\s+as\b|work(?:ing)? even|work(?:ed)? straight(?! (?:on )?from)|work\s+\d[^.;]*\b(?:rows?|rnds?|rounds?)\s+(?:straight|even)|cont(?:inue)?\b[^.]*\b(?:as (?:set|established)|even|in patt(?:ern)?)\b|(?:cont(?:inue)?|keep)\b.*\b(?:inc|dec|add)\w*\b.*\buntil\s+(?:there\s+are|you\s+have)\s+\d)/iu;
const numberWord =
  "(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty)";
const sizeList = String.raw`(?:\s*[([][\d\s,:–-]+[)\]])?`;
/** `With A,` `Starting at the toe,` `Set-up:` `We pull`: what may stand before a starting chain. */
const beforeChain = [
  String.raw`(?:foundation(?:\s+ch(?:ain)?)?\s*:\s*(?=(?:with|using)\b))?`,
  String.raw`(?:(?:with|using|in|(?:start(?:ing)?|begin(?:ning)?|commenc(?:e|ing))\s+(?:at|with|from|in|on|by|the))\b(?:[^,:.]|\.\d){1,60}(?:[,:.](?![^([]*[)\]])\s*|\bwith\s+(?=\d+\s*ch)))?`,
  String.raw`(?:(?:leave|leaving)\s(?:[^.]|\.\d){1,60}?[.,]\s*(?=(?:ch|chain)\s*\d))?`,
  String.raw`(?:\p{L}[\p{L} ]{1,30}:\s*(?=(?:loosely\s+)?(?:ch|chain)\s*\d+[^,;:]*$))?`,
  String.raw`(?:(?:with|using)\s(?:[^,:.]|\.\d){1,40}?\s(?=(?:(?:make|work)\s+)?(?:ch(?:ain)?\s*\d+${sizeList}|\d+${sizeList}\s*ch)[^,;:]*(?:,\s*turn\W*)?$))?`,
  String.raw`(?:(?:(?:foundation|base|starting|beginning)(?:\s+ch(?:ain)?)?|set-?up)\s*[:–-]\s*|(?:foundation|base|starting)\s+(?=ch))?`,
  String.raw`(?:(?:we\s+)?(?:make|pull|collect|dial|cast on|start with|begin with)\s+(?:a\s+)?)?`,
].join("");
const chain = String.raw`(?:(?:loosely\s+)?(?:ch|chains?)(?:\b|(?=\d))\.?\s*-?\s*(?:of\s+)?[([]?\s*(?:\d|${numberWord}\b)|\d+[\s([{:\d,;\])}]*\s*(?:ch|chains?)\b|(?:make a |start with a |form a )?(?:magic|adjustable|sliding)\s+(?:ring|circle|loop)|mr\b\.?\s*$|${startingChain})`;
const leadOfChain = new RegExp(String.raw`^\s*${beforeChain}(?=${chain})`, "iu");

/** `Fsc 40.`, `Work 32 foundation dc.`: stitches that stand on nothing, on a line of their own. */
const foundationStitches = String.raw`(?:work\s+)?(?:f(?:sc|hdc|dc|tr)\s*\d+|\d+\s*(?:f(?:sc|hdc|dc|tr)|foundation\s+(?:sc|hdc|dc|tr))\b|foundation\s+(?:sc|hdc|dc|tr)\s*\d+)`;

/** Characters of a starting chain's line before the chain itself. */
export function foundationLead(text: string): number {
  return leadOfChain.exec(text)?.[0].length ?? 0;
}

const foundationLine = new RegExp(String.raw`^\s*(?:${beforeChain}${chain}|${foundationStitches})`, "iu");
const workedStitch =
  "(?:sc|hdc|dc|htr|tr|ss|sl\\s?sts?|slip\\s+stitch(?:es)?|(?:single|double)\\s+crochets?)";
const chainFromHook = String.raw`(?:the\s+)?(?:\d(?:nd|rd|th)|second|third|fourth)\s+(?:ch|chain|st|stitch)\s+from\b`;
/** `Ch 41. 1 sc in 2nd ch from hook, …`, `Ch 45. Starting in 2nd ch from hook, hdc …`: a row without a head. */
const workedChain = new RegExp(
  String.raw`\b(?:${workedStitch}\s+(?:in|into)\s+${chainFromHook}|(?:start|beginn?)ing\s+(?:in|at|from|with)\s+${chainFromHook}[^.;]*\b${workedStitch}\b)`,
  "i",
);
const numbered = /^\s*\d+\s*[.)]/;

const glued = new RegExp(
  String.raw`(?<=[.;)\]}>])\s+(?=(?:${rowWord})\.?\s*\d+(?:${dash}\d+)?\s*[:.)–—-]|${ord}(?:\s*(?:to|and|&|[-–])\s*${ord})?\s+(?:rows?|rnds?|rounds?)(?:\s+incl(?:usive|\.)?)?\s*[:—–-])`,
  "giu",
);

const titleMark = String.raw`(?:\s*\([^()]*\))?(?::|\s*(?:\.\s?){3,}|…|\s*[–—])\s*`;
const title = new RegExp(String.raw`^\s*\p{Lu}[\p{L}\d'’&/ -]{1,40}?${titleMark}`, "u");
const inCapitals = /^\s*\p{Lu}{2}[^\p{Ll}]*$/u;
const firstRow = String.raw`(?:row|rnd|round|r)\.?\s*1\s*[:.)–—-]|1st\s+(?:row|rnd|round)\s*[:.–—-]`;
/** `BEGINNING SHELL: Ch 3, in same place make …`, `OPEN MESH: ch 2, dc in next dc`: a stitch is explained. */
const notOfStitch = String.raw`(?![^.]*\bin(?:to)?\s+(?:the\s+)?(?:same|next|place|st|sp)\b)`;
const firstChain = String.raw`(?:starting|beginning|begin)\s+(?:at|with|from)\b|(?:with|using)\s[^,.:;]{1,40},\s*(?:ch|chain|make)\b|(?:(?:loosely\s+)?(?:ch|chain)\s*\d|make\s+\d+\s*ch|\d+\s*ch\b)${notOfStitch}`;
const opening = new RegExp(`^(?:${firstRow})`, "i");
const anyRow = String.raw`(?:rows?|rnds?|rounds?)\.?\s*\d+(?:${dash}\d+)?\s*[:.–—-]`;
const openingInCapitals = new RegExp(`^(?:${firstRow}|${anyRow}|${firstChain})`, "i");
const noTitle = new RegExp(
  String.raw`^\s*(?:${rowWord}\.?\s*\d|(?:foundation|set-?up|to begin|next|rs|ws)\b)`,
  "i",
);

/** Where a heading ends that has its first line behind it: `LEFT MITTEN . . . Starting at tip, ch 5`, `Cuff: Row 1: …`; 0 for none. */
function titleEnd(text: string): number {
  const found = title.exec(text)?.[0];
  if (found === undefined || noTitle.test(found) || fieldWords.test(found.trim())) return 0;
  const first = inCapitals.test(found.replace(/\(.*/, "")) ? openingInCapitals : opening;
  return first.test(text.slice(found.length)) ? found.length : 0;
}

/** A line by its heads: a page or a scan may deliver several rows in one. */
export function splitGlued(text: string): string[] {
  if (!/\d/.test(text) || text.length > 100_000) return [text];
  const heading = titleEnd(text);
  const cuts = [...text.matchAll(glued)].map((match) => match.index + match[0].length);
  if (heading > 0) cuts.unshift(heading);
  if (cuts.length === 0) return [text];
  return [0, ...cuts].map((from, i) => text.slice(from, cuts[i] ?? text.length));
}

/** What a line is. */
export function contentOf(text: string): LineContent {
  if (text.length > 20_000)
    return {
      text,
      kind: /^\s*(?:row|rnd|round|r)\s*\d/i.test(text.slice(0, 40)) ? "row" : "prose",
      head: readHead(text.slice(0, 100)),
    };
  const trimmed = text.trim();
  if (trimmed === "") return { text, kind: "blank", head: null };
  if (sizeLine.test(trimmed)) return { text, kind: "size", head: null };
  if (copyLine.test(trimmed)) return { text, kind: "copy", head: null };
  const head = trimmed.length > 100_000 ? null : readHead(text);
  if (head && (head.language || !numbered.test(text) || !isNote(text.slice(head.length))))
    return { text, kind: "row", head };
  if (foundationLine.test(trimmed) && workedChain.test(trimmed)) return { text, kind: "row", head: null };
  if (foundationLine.test(trimmed) && !tellsOfChain(trimmed)) return { text, kind: "foundation", head: null };
  if (fieldWords.test(trimmed)) return { text, kind: "field", head: null };
  if (isHeading(trimmed)) return { text, kind: "heading", head: null };
  return { text, kind: "prose", head: null };
}

/** What pieces are put together with: no row begins so. */
const putsTogether =
  /^\s*(?:sew|whip[\s-]?stitch|stuff|embroider|weave|glue|pin|knot|position|press|block|thread|flatten|oversew|hide|trim|stitch\s+(?:it|them|down|on|up)\b|(?:fill|fold|close|turn|place|attach|insert|join|lay|stitch|tie|cut|fix|set|hang|wrap|line)\s+(?:the|each|both|one|two|all|an?|your)\s+(?!yarn|hook|markers?\b|sts?\b|stitch))\b/i;

/** A numbered sentence of a list is no row: it reads as prose. */
function isNote(rest: string): boolean {
  if (putsTogether.test(rest) || /\b(?:count|counts|never|always|is|are|should|your|you)\b/i.test(rest))
    return true;
  const words = rest.match(/\p{L}+/gu) ?? [];
  const known = words.filter(
    (word) =>
      word.length <= 3 ||
      /^(?:inc|dec|each|next|around|ring|round|skip|repeat|magic|chain|shell|times|turn|join|stitch|sts|with|across|last|first|same|from|hook|fpdc|bpdc|cluster|single|double|crochet|front|back|loops?\b|only\b)/i.test(
        word,
      ),
  );
  return (
    words.length === 0 ||
    (words.length > 3 && known.length / words.length < 0.5) ||
    !/^\s*(?:[\d*([{]|\p{L})/u.test(rest)
  );
}
