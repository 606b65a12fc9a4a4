import type { Sentence } from "../notation/assembly";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import type { Span } from "../text/span";
import { numberFrom } from "../trade/number-words";
import { headingFix } from "./make-number";
import type { MadePiece, Making, PlacedSentence } from "./pieces-made";
import type { Found } from "./rule";

/** So many rows of so many, as pieces are laid out to be joined. */
interface Layout extends Span {
  readonly all: number;
  /** `9 times 7`. */
  readonly shown: string;
}

const count = String.raw`(\d{1,3}|[a-z]{3,9})`;
const noStitches = String.raw`(?!\s*(?:sc|hdc|dc|htr|tr|ch|sts?|stitch\w*|cm|mm|in|inch\w*|"|')\b)`;
const lines = "(?:rows?|strips?|columns?|lines?|rounds?)";

/** The ways to say so many by so many: `9 rows of 7`, `9 rows, 7 squares in each`, `7 x 9 grid`, `7 across and 9 down`. */
const layouts: readonly RegExp[] = [
  new RegExp(String.raw`\b${count}\s+${lines}\s+of\s+${count}\b${noStitches}`, "giu"),
  new RegExp(
    String.raw`\b${count}\s+${lines}\s*(?:,|with)\s*(?:each\s+(?:with|of)\s+)?${count}\s+\p{L}+\s+(?:in\s+each|per|to\s+(?:a|each))\b`,
    "giu",
  ),
  /\b(\d{1,3})(?:\s+\p{L}+)?\s+(?:wide|across)\s*(?:and|by|x|×|,)\s*(\d{1,3})(?:\s+\p{L}+)?\s+(?:high|long|tall|deep|down)\b/giu,
  /\b(\d{1,2})\s*(?:x|×|by)\s*(\d{1,2})\s+(?:grid|layout|rectangle|arrangement|squares|hexagons|motifs|blocks|pattern)\b/giu,
];

/** `five rows of 3, 4, 5, 4 and 3`: a number for each row. */
const eachItsOwn = new RegExp(
  String.raw`\b${lines}\s+of\s+(\d{1,3}(?:\s*,\s*\d{1,3})+\s*(?:,\s*)?(?:and|&)\s*\d{1,3})\b(?!\s*${lines})${noStitches}`,
  "giu",
);

/** Pieces laid out in another number than is made; null where all is well or nothing is said. */
export function wrongLayout({ sentence, mentions, line }: PlacedSentence, making: Making): Found | null {
  const layouts = mayLayOut(sentence) ? layoutsIn(sentence.text) : [];
  if (layouts.length === 0 || !isOneWhole(layouts, sentence.text) || onlyIf.test(sentence.text)) return null;
  const inside = mentions.filter(({ start }) => layouts.some((one) => isAt(start - sentence.start, one)));
  const meantBy = inside.length > 0 ? inside : mentions;
  const pieces = [...new Set(meantBy.flatMap((mention) => mention.pieces))];
  const kin = [...new Set(meantBy.flatMap((mention) => mention.kin))];
  const meant = pieces.length > 0 ? [pieces, kin] : [piecesCalledMotifs(sentence.text, making)];
  const laid = layouts.reduce((sum, { all }) => sum + all, 0);
  const isOfLayout = (at: number): boolean => layouts.some((one) => isWithin(at - sentence.start, one));
  const said = mentions.flatMap(({ many }) => (many && !isOfLayout(many.start) ? [many.n] : []));
  const numbers = meant.map(madeOf);
  const isSaidOtherwise = said.length === 1 && pieces.length === 1 && said[0] !== laid;
  if (Math.max(...numbers) < 2 || (numbers.includes(laid) && !isSaidOtherwise)) return null;
  const wrong = numbers.includes(laid) ? (said[0] as number) : (numbers.at(-1) as number);
  const from = line.start + sentence.start;
  const span = { start: from + (layouts[0]?.start ?? 0), end: from + (layouts.at(-1)?.end ?? 0) };
  return found(span, layouts, wrong, meant.at(-1) ?? []);
}

function madeOf(pieces: readonly MadePiece[]): number {
  return pieces.reduce((sum, { make }) => sum + make, 0);
}

/** `three strips of 5 and two strips of 4` are one layout; two with other words between may be two ways. */
function isOneWhole(layouts: readonly Layout[], text: string): boolean {
  return layouts.every((one, i) => {
    const before = layouts[i - 1];
    return (
      before === undefined ||
      /^(?:\s+\p{L}+)?\s*(?:,|and|,\s*and|plus)\s*$/iu.test(text.slice(before.end, one.start))
    );
  });
}

/** For a larger one there are other numbers. */
const onlyIf = /\b(?:if|larger|bigger|smaller|for\s+an?\s+\p{L}+\s+(?:throw|blanket|one))\b/iu;

/** `Join the motifs in 9 rows of 7`: what is made many times, whatever it is called. */
function piecesCalledMotifs(text: string, { pieces }: Making): readonly MadePiece[] {
  return /\b(?:motifs|squares|hexagons|blocks|pieces|tiles|medallions|units|grann(?:ies|y\s+squares))\b/i.test(
    text,
  )
    ? pieces.filter(({ make }) => make > 3)
    : [];
}

/** `strips of 5 hexagons`: the word behind it is what is laid out. */
function isAt(at: number, { start, end }: Span): boolean {
  return start <= at && at <= end + 1;
}

function isWithin(at: number, { start, end }: Span): boolean {
  return start <= at && at < end;
}

const mayLayOut = keptBy(({ text }: Sentence): boolean =>
  /\b(?:rows?|strips?|columns?|lines?|rounds?|wide|across|x|×|by)\b|\d[x×]/i.test(text),
);

function layoutsIn(text: string): Layout[] {
  const lists = [...text.matchAll(eachItsOwn)].map(({ 0: phrase, 1: list = "", index }) => {
    const numbers = (list.match(/\d+/g) ?? []).map(Number);
    const all = numbers.reduce((sum, n) => sum + n, 0);
    return { all, shown: numbers.join(" + "), start: index, end: index + phrase.length };
  });
  if (lists.length > 0) return lists;
  return layouts
    .flatMap((form) => [...text.matchAll(form)])
    .flatMap(({ 0: all, 1: a = "", 2: b = "", index }) => {
      const [rows, inEach] = [a, b].map((word) => numberFrom(word)) as [number, number];
      return Number.isInteger(rows) && Number.isInteger(inEach)
        ? [{ all: rows * inEach, shown: say`${rows} times ${inEach}`, start: index, end: index + all.length }]
        : [];
    })
    .sort((one, other) => one.start - other.start);
}

function found(span: Span, layouts: readonly Layout[], made: number, pieces: readonly MadePiece[]): Found {
  const names = pieces.map(({ name }) => say`"${name}"`).join(say` and `);
  const headings = pieces.map(({ heading }) => heading);
  const sum = layouts.map(({ shown }) => shown).join(say` and `);
  const laid = layouts.reduce((all, one) => all + one.all, 0);
  return {
    span,
    message: say`${sum} is ${laid}, and the pattern has ${made} of ${names}. Make the numbers agree.`,
    fixes: layouts.length === 1 && pieces.length === 1 ? headingFix(pieces[0] as MadePiece, laid) : [],
    related: headings.map((heading) => ({ span: heading, message: say`Here it says how many are made.` })),
  };
}
