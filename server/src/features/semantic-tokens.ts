import type { PatternContext } from "../fabric/context";
import type { RowContent } from "../fabric/pattern";
import { frontMatterOf } from "../notation/front-matter/front-matter";
import { readWords, type Word } from "../notation/words";
import type { WorkedPattern } from "../rules/rule";
import type { Span } from "../text/span";

/** Kinds that every theme colours; the protocol's own names. */
export const tokenTypes = ["class", "type", "function", "macro", "variable", "number", "keyword"] as const;

export type TokenType = (typeof tokenTypes)[number];

/** A stretch of a line with what it is. */
export interface Token extends Span {
  readonly type: TokenType;
}

/** What words mean that spelling alone does not tell, in order: pieces, heads, stitches, own stitches, yarns, numbers, repeats. */
export function tokensOf(pattern: WorkedPattern, within?: Span): Token[] {
  const isAsked = ({ start, end }: Span) => !within || (start <= within.end && end >= within.start);
  const own = ownNames(pattern);
  const rows = pattern.pieces.flatMap(({ rows }) =>
    rows
      .filter(({ line }) => isAsked(line.span))
      .flatMap(({ line }) => {
        const head = line.head && headToken(line.span, line.headText, pattern);
        const words = wordTokens(line.content, pattern.context, own);
        return [...(head ? [head] : []), ...words.map((token) => movedBy(token, line.start))];
      }),
  );
  const pieces = pattern.pieces
    .filter(({ piece }) => piece.name !== "" && isAsked(piece.span))
    .flatMap(({ piece }) => headingToken(piece.span, piece.name, pattern));
  const all = [...pieces, ...rows].filter(({ start, end }) => !/[\r\n]/.test(pattern.text.slice(start, end)));
  return all.sort((a, b) => a.start - b.start);
}

function movedBy({ start, end, type }: Token, by: number): Token {
  return { start: start + by, end: end + by, type };
}

function headToken({ start }: Span, head: string, { text }: WorkedPattern): Token | null {
  const at = text.indexOf(head, start);
  return at < 0 || at > start + 20 ? null : { start: at, end: at + head.length, type: "type" };
}

function headingToken({ start }: Span, name: string, { text }: WorkedPattern): Token[] {
  const at = text.indexOf(name, start);
  return at < 0 || at > start + 20 ? [] : [{ start: at, end: at + name.length, type: "class" }];
}

function ownNames({ lines, context }: WorkedPattern): ReadonlySet<string> {
  const special = frontMatterOf(lines).specialStitches.flatMap(({ names }) => names);
  return new Set([...special, ...context.definitions.keys()]);
}

/** Kept by what a row says: an edit elsewhere costs it nothing. A row that reads otherwise is another object. */
const kept = new WeakMap<RowContent, readonly Token[]>();

function wordTokens(
  content: RowContent,
  context: PatternContext,
  own: ReadonlySet<string>,
): readonly Token[] {
  let found = kept.get(content);
  if (!found) {
    found = withoutOverlaps(wordsIn(content, context).flatMap((word) => tokenOf(word, own)));
    kept.set(content, found);
  }
  return found;
}

/** Characters; a longer row is coloured by its spelling alone. */
const longestRow = 20_000;

function wordsIn({ text }: RowContent, { lexicon }: PatternContext): readonly Word[] {
  return text.length > longestRow ? [] : readWords(text, lexicon);
}

const byClass: Readonly<Record<string, TokenType>> = {
  S: "function",
  l: "function",
  c: "function",
  "@": "function",
  K: "variable",
  N: "class",
  n: "number",
  o: "number",
  r: "keyword",
  T: "keyword",
  "*": "keyword",
  $: "keyword",
};

function tokenOf({ cls, value, start, end }: Word, own: ReadonlySet<string>): Token[] {
  const type = own.has(value) && /[S@]/.test(cls) ? "macro" : byClass[cls];
  return type ? [{ start, end, type }] : [];
}

function withoutOverlaps(tokens: readonly Token[]): Token[] {
  return tokens.filter(({ start, end }, i) => end > start && start >= (tokens[i - 1]?.end ?? 0));
}
