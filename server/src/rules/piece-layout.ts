import type { Span } from "../text/span";
import { numberWords } from "../trade/number-words";
import type { MadePiece, Making, PlacedSentence } from "./pieces-made";
import type { Found } from "./rule";

/** So many rows of so many, as pieces are laid out to be joined. */
interface Layout extends Span {
  readonly rows: number;
  readonly inEach: number;
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

/** Pieces laid out in another number than is made; null where all is well or nothing is said. */
export function wrongLayout({ sentence, mentions, line }: PlacedSentence, making: Making): Found | null {
  const [layout, ...others] = layoutsIn(sentence.text);
  if (!layout || onlyIf.test(sentence.text)) return null;
  const named = [...new Set(mentions.flatMap((mention) => mention.kin))];
  const pieces = named.length > 0 ? named : piecesCalledMotifs(sentence.text, making);
  if (others.length > 0 || pieces.length === 0) return null;
  const laid = layout.rows * layout.inEach;
  const isOfLayout = (at: number): boolean => isWithin(at - sentence.start, layout);
  const said = mentions.flatMap(({ many }) => (many && !isOfLayout(many.start) ? [many.n] : []));
  const made = pieces.reduce((sum, { make }) => sum + make, 0);
  const meant = said.length === 1 && pieces.length === 1 ? [said[0] as number, made] : [made];
  if (made < 2 || meant.every((n) => n === laid)) return null;
  const from = line.start + sentence.start;
  return found(
    { start: from + layout.start, end: from + layout.end },
    layout,
    meant.find((n) => n !== laid) ?? made,
    pieces,
  );
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

function isWithin(at: number, { start, end }: Span): boolean {
  return start <= at && at < end;
}

function layoutsIn(text: string): Layout[] {
  if (!/\b(?:rows?|strips?|columns?|lines?|rounds?|wide|across|x|×|by)\b|\d[x×]/i.test(text)) return [];
  return layouts
    .flatMap((form) => [...text.matchAll(form)])
    .flatMap(({ 0: all, 1: a = "", 2: b = "", index }) => {
      const [rows, inEach] = [a, b].map((word) => numberWords.get(word.toLowerCase()) ?? Number(word)) as [
        number,
        number,
      ];
      return Number.isInteger(rows) && Number.isInteger(inEach)
        ? [{ rows, inEach, start: index, end: index + all.length }]
        : [];
    });
}

function found(span: Span, { rows, inEach }: Layout, made: number, pieces: readonly MadePiece[]): Found {
  const names = pieces.map(({ name }) => `"${name}"`).join(" and ");
  const headings = pieces.flatMap(({ part }) => part.heading ?? []);
  return {
    span,
    message: `${rows} times ${inEach} is ${rows * inEach}, and the pattern has ${made} of ${names}. Make the numbers agree.`,
    fixes: [],
    related: headings.map((heading) => ({ span: heading, message: "Here it says how many are made." })),
  };
}
