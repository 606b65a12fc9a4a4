import { Chunks, type PlacedChunk } from "../text/chunks";
import { keptBy } from "../text/kept-by";
import type { LineContent } from "./document";
import type { PatternLine } from "./lines";

/** Lines that stand together, wherever they stand: things found out about them can be kept by it. */
export interface ParagraphContent {
  readonly lines: readonly LineContent[];
}

/** Some lines of a pattern with no blank line among them. */
export interface Paragraph {
  readonly content: ParagraphContent;
  /** The index of its first line. */
  readonly first: number;
}

/** So that an edit in a pattern without blank lines leaves most of it alone. */
const linesAtMost = 64;
/** Of paragraphs that begin with the same line. */
const variantsKept = 20;

const known = new WeakMap<LineContent, readonly ParagraphContent[]>();

/** The paragraphs of a pattern; one that an edit left alone has the same content as before. */
export const paragraphsOf = keptBy((lines: readonly PatternLine[]): readonly Paragraph[] => {
  const paragraphs: Paragraph[] = [];
  for (let first = 0; first < lines.length; ) {
    if (lines[first]?.kind === "blank") first++;
    else {
      const content = contentFrom(lines, first);
      paragraphs.push({ content, first });
      first += content.lines.length;
    }
  }
  return paragraphs;
});

const chunks = new Chunks<ParagraphContent>();

/** The paragraphs of a pattern, some at a time: what is known of those that an edit left alone can be kept. */
export const paragraphChunksOf = keptBy(
  (lines: readonly PatternLine[]): readonly PlacedChunk<ParagraphContent>[] =>
    chunks.of(paragraphsOf(lines).map(({ content }) => content)),
);

function contentFrom(lines: readonly PatternLine[], first: number): ParagraphContent {
  const start = (lines[first] as PatternLine).content;
  const variants = known.get(start) ?? [];
  const same = variants.find((variant) => standsAt(variant, lines, first));
  if (same) return same;
  let end = first + 1;
  while (end < lines.length && end - first < linesAtMost && lines[end]?.kind !== "blank") end++;
  const content = { lines: lines.slice(first, end).map((line) => line.content) };
  known.set(start, [...variants.slice(1 - variantsKept), content]);
  return content;
}

function standsAt({ lines: own }: ParagraphContent, lines: readonly PatternLine[], first: number): boolean {
  for (let i = 1; i < own.length; i++) if (lines[first + i]?.content !== own[i]) return false;
  const next = lines[first + own.length];
  return own.length === linesAtMost || next === undefined || next.kind === "blank";
}
