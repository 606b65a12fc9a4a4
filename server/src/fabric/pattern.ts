import { type PatternLine, type RowHead, readHeading, readLines } from "../notation/document";
import { treeOf } from "../notation/tree";
import { readWords } from "../notation/words";
import type { Span } from "../text/span";
import { bindRow } from "./bind";
import { type PatternContext, readContext } from "./context";
import type { RowPlan } from "./instructions";

/** One row line of a pattern with what it says. */
export interface RowLine {
  readonly kind: "row" | "foundation" | "copy";
  readonly head: RowHead | null;
  readonly headText: string;
  readonly span: Span;
  /** The instructions, and where they start in the pattern. */
  readonly text: string;
  readonly start: number;
  readonly plan: RowPlan | null;
  /** Only these sizes work it; null for all. */
  readonly sizes: readonly number[] | null;
}

export interface Piece {
  readonly name: string;
  readonly make: number;
  readonly span: Span;
  readonly rows: readonly RowLine[];
}

export interface Pattern {
  readonly text: string;
  readonly lines: readonly PatternLine[];
  readonly context: PatternContext;
  readonly pieces: readonly Piece[];
}

/** Remembers how row texts read, by the context they were read in. */
export class RowReader {
  private readonly plans = new Map<string, RowPlan | null>();
  private contextKey = "";

  read(text: string, context: PatternContext): RowPlan | null {
    if (context.key !== this.contextKey || this.plans.size > 50_000) {
      this.plans.clear();
      this.contextKey = context.key;
    }
    let plan = this.plans.get(text);
    if (plan === undefined) {
      plan = this.readAfresh(text, context);
      this.plans.set(text, plan);
    }
    return plan;
  }

  private readAfresh(text: string, context: PatternContext): RowPlan | null {
    if (text.length > longestRow) return null;
    const words = readWords(text, context.lexicon);
    if (words.some((word) => word.number?.some((n) => n !== null && n > Number.MAX_SAFE_INTEGER)))
      return null;
    const tree = treeOf(words);
    return tree && bindRow(text, words, tree, context);
  }
}

/** Characters; no row of any pattern is nearly as long. */
const longestRow = 20_000;

interface OpenPiece {
  name: string;
  make: number;
  span: Span;
  rows: RowLine[];
}

/** The pieces and rows of a pattern. Never fails: what is no row is left alone. */
export function readPattern(text: string, reader: RowReader): Pattern {
  const lines = readLines(text);
  const context = readContext(lines);
  const pieces: OpenPiece[] = [{ name: "", make: 1, span: { start: 0, end: 0 }, rows: [] }];
  let sizes: readonly number[] | null = null;
  let notes = false;
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i] as PatternLine;
    if (line.kind === "size") sizes = sizesOf(line.text, context.sizes);
    if (line.kind === "heading") {
      const { name, make } = readHeading(line.text.trim());
      notes = /^(?:notes?|abbreviations?|materials?|special stitch|assembly|finishing|pattern notes)/i.test(
        name,
      );
      pieces.push({ name, make, span: line, rows: [] });
    }
    if (line.kind === "field") notes = /^\s*(?:notes?|pattern notes?)\b/i.test(line.text);
    if (line.kind === "blank" && notes && /^\s*$/.test(line.text)) notes = false;
    if (line.kind !== "row" && line.kind !== "foundation" && line.kind !== "copy") continue;
    if (notes && line.head?.word === "none") continue;
    notes = false;
    const [row, used] = rowLine(text, lines, i, context, reader, sizes);
    if (row) (pieces.at(-1) as OpenPiece).rows.push(row);
    i += used - 1;
  }
  return {
    text,
    lines,
    context,
    pieces: pieces
      .filter((piece) => piece.rows.length > 0)
      .map((piece) => ({
        ...piece,
        span: { start: piece.span.start, end: piece.rows.at(-1)?.span.end ?? piece.span.end },
      })),
  };
}

function sizesOf(text: string, names: readonly string[]): readonly number[] | null {
  if (/all|both/i.test(text)) return null;
  const listed = text.replace(/.*?\bsizes?\b/i, "").replace(/\bonly\b.*/i, "");
  const asked = listed
    .split(/[\s,&]+|\band\b/)
    .map((name) => name.trim().toLowerCase())
    .filter((name) => name !== "");
  return names.flatMap((name, i) => (asked.includes(name.toLowerCase()) ? [i] : []));
}

/** A row with the lines that run it on. */
function rowLine(
  text: string,
  lines: readonly PatternLine[],
  i: number,
  context: PatternContext,
  reader: RowReader,
  sizes: readonly number[] | null,
): [RowLine | null, number] {
  const first = lines[i] as PatternLine;
  let last = first;
  let used = 1;
  for (let next = lines[i + used]; next && continues(last, next); next = lines[i + used]) {
    last = next;
    used++;
  }
  const start = first.start + (first.head?.length ?? 0);
  const body = text.slice(start, last.end);
  const trimmed = body.trimEnd();
  const lead = first.text.length - first.text.trimStart().length;
  const span = { start: first.start + lead, end: start + trimmed.length };
  const kind = first.kind as RowLine["kind"];
  const plan = reader.read(trimmed, context);
  const headText = first.head?.text ?? trimmed.trim().split(/\s+/).slice(0, 8).join(" ");
  return [{ kind, head: first.head, headText, span, text: trimmed, start, plan, sizes }, used];
}

function continues(before: PatternLine, next: PatternLine): boolean {
  if (next.kind === "foundation") return before.kind === "row" && /,\s*$/.test(before.text);
  if (next.kind !== "prose" && next.kind !== "heading") return false;
  const open = (before.text.match(/[([{]/g)?.length ?? 0) > (before.text.match(/[)\]}]/g)?.length ?? 0);
  if (open || /[,;–-]\s*$/.test(before.text)) return true;
  if (next.kind === "heading") return false;
  if (before.kind === "foundation") return false;
  return /^\s*[\p{Ll}([*]/u.test(next.text) && !/[.)\]]\s*$/.test(before.text);
}
