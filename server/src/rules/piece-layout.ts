import type { Span } from "../text/span";
import { numberWords } from "../trade/number-words";
import type { MadePiece, PlacedSentence } from "./pieces-made";
import type { Found } from "./rule";

/** So many rows of so many, as pieces are laid out to be joined. */
interface Layout extends Span {
  readonly rows: number;
  readonly inEach: number;
}

const count = String.raw`(\d{1,3}|[a-z]{3,9})`;
const rowsOf = new RegExp(
  String.raw`\b${count}\s+rows?\s+of\s+${count}\b(?!\s*(?:sc|hdc|dc|htr|tr|ch|sts?|stitch\w*|cm|mm|in|inch\w*)\b)`,
  "giu",
);
const across =
  /\b(\d{1,3})(?:\s+\p{L}+)?\s+(?:wide|across)\s+(?:and|by|x|×)\s+(\d{1,3})(?:\s+\p{L}+)?\s+(?:high|long|tall|deep|down)\b/giu;

/** Pieces laid out in another number than is made; null where all is well or nothing is said. */
export function wrongLayout({ sentence, mentions, line }: PlacedSentence): Found | null {
  const [layout, ...others] = layoutsIn(sentence.text);
  const pieces = [...new Set(mentions.flatMap((mention) => mention.pieces))];
  if (!layout || others.length > 0 || pieces.length === 0) return null;
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

function isWithin(at: number, { start, end }: Span): boolean {
  return start <= at && at < end;
}

function layoutsIn(text: string): Layout[] {
  return [...text.matchAll(rowsOf), ...text.matchAll(across)].flatMap(
    ({ 0: all, 1: a = "", 2: b = "", index }) => {
      const [rows, inEach] = [a, b].map((word) => numberWords.get(word.toLowerCase()) ?? Number(word)) as [
        number,
        number,
      ];
      return Number.isInteger(rows) && Number.isInteger(inEach)
        ? [{ rows, inEach, start: index, end: index + all.length }]
        : [];
    },
  );
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
