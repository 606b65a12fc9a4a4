import { foundationLead, type LineContent, type RowHead, readHeading } from "../notation/document";
import { LineReader, type PatternLine } from "../notation/lines";
import { treeOf } from "../notation/tree";
import { readWords } from "../notation/words";
import { ownCopy } from "../text/own-copy";
import type { Span } from "../text/span";
import { bindRow } from "./bind";
import { ContextReader, type PatternContext } from "./context";
import { changeOf } from "./context-change";
import type { RowPlan } from "./instructions";
import { countCloser, type OpenMark, openMarkIn } from "./open-mark";

/** What a row says, wherever it stands. */
export interface RowContent {
  readonly kind: "row" | "foundation" | "copy";
  readonly head: RowHead | null;
  readonly headText: string;
  /** The instructions, with the lines that run them on. */
  readonly text: string;
  /** Characters from the start of the row to its instructions. */
  readonly lead: number;
  readonly plan: RowPlan | null;
  /** Only these sizes work it; null for all. */
  readonly sizes: readonly number[] | null;
  /** It speaks of a ring or of going around. */
  readonly goesRound: boolean;
}

/** One row line of a pattern with what it says. */
export class RowLine implements RowContent {
  constructor(
    /** The same object as long as neither the row nor what its reading depends on changes. */
    readonly content: RowContent,
    /** Where the instructions start in the pattern. */
    readonly start: number,
  ) {}

  get kind(): RowContent["kind"] {
    return this.content.kind;
  }

  get head(): RowHead | null {
    return this.content.head;
  }

  get headText(): string {
    return this.content.headText;
  }

  get text(): string {
    return this.content.text;
  }

  get lead(): number {
    return this.content.lead;
  }

  get plan(): RowPlan | null {
    return this.content.plan;
  }

  get sizes(): readonly number[] | null {
    return this.content.sizes;
  }

  get goesRound(): boolean {
    return this.content.goesRound;
  }

  /** Head and instructions. */
  get span(): Span {
    return { start: this.start - this.lead, end: this.start + this.text.length };
  }
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
  private context: PatternContext | null = null;

  read(text: string, context: PatternContext): RowPlan | null {
    if (context !== this.context) this.enter(context);
    if (this.plans.size > plansAtMost) this.plans.clear();
    let plan = this.plans.get(text);
    if (plan === undefined) {
      plan = this.readAfresh(text, context);
      this.plans.set(text, plan);
    }
    return plan;
  }

  /** Forgets what reads otherwise in another context. */
  private enter(context: PatternContext): void {
    const affects = changeOf(this.context, context);
    for (const text of this.plans.keys()) if (affects(text)) this.plans.delete(text);
    this.context = context;
  }

  private readAfresh(text: string, context: PatternContext): RowPlan | null {
    if (text.length > longestRow) return null;
    const words = readWords(text, context.lexicon);
    if (words.some((word) => word.number?.some((n) => n !== null && n > Number.MAX_SAFE_INTEGER)))
      return null;
    const open = openMarkIn(words);
    const closer = open ? countCloser(text, open) : "";
    // What closes the count is read as if it were there: the rows behind have something to stand on.
    if (closer !== "") return this.closed(text, closer, open, context);
    const tree = treeOf(words);
    return tree && bindRow(text, words, tree, context);
  }

  private closed(
    text: string,
    closer: string,
    openMark: OpenMark | null,
    context: PatternContext,
  ): RowPlan | null {
    const plan = this.readAfresh(text + closer, context);
    const span = plan?.statedSpan;
    return plan && { ...plan, openMark, statedSpan: span ? { ...span, end: text.length } : null };
  }
}

const plansAtMost = 20_000;

/** Characters; no row of any pattern is nearly as long. */
const longestRow = 20_000;

/** What a row is read from: a line, and those that run it on. */
interface Wanted {
  readonly first: LineContent;
  readonly behind: readonly RunOn[];
  readonly sizes: readonly number[] | null;
}

interface KnownRow extends Wanted {
  readonly content: RowContent;
}

/** A line that runs a row on. */
interface RunOn {
  readonly content: LineContent;
  /** Characters between it and the line before. */
  readonly gap: number;
}

/** Reads one version of a pattern after another; what an edit left alone is not read again. */
export class PatternReader {
  private readonly lines = new LineReader();
  private readonly contexts = new ContextReader();
  private readonly rows = new RowReader();
  private context: PatternContext | null = null;
  /** By the line that a row starts on; emptied when the context changes. */
  private known = new WeakMap<LineContent, KnownRow[]>();
  /** The rows of the version before, each at the index of its line. */
  private before: readonly (KnownRow | undefined)[] = [];

  /** The pieces and rows of a pattern. Never fails: what is no row is left alone. */
  read(text: string): Pattern {
    const lines = this.lines.read(text);
    const context = this.contexts.read(lines);
    if (context !== this.context) this.enter(context);
    return { text, lines, context, pieces: this.pieces(lines, context) };
  }

  /** Rows that read in another context as they did stay. */
  private enter(context: PatternContext): void {
    const affects = changeOf(this.context, context);
    this.before = this.before.map((row) => (row && !affects(row.content.text) ? row : undefined));
    this.known = new WeakMap();
    this.context = context;
  }

  private pieces(lines: readonly PatternLine[], context: PatternContext): Piece[] {
    const draft = new PieceDraft();
    const rows: (KnownRow | undefined)[] = Array(lines.length).fill(undefined);
    const grown = lines.length - this.before.length;
    for (let i = 0; i < lines.length; i++) {
      const line = lines[i] as PatternLine;
      const isRow = line.kind === "row" || line.kind === "foundation" || line.kind === "copy";
      if (!isRow) draft.read(line, context);
      if (!isRow || draft.isNote(line)) continue;
      const wanted = { first: line.content, behind: runOn(lines, i), sizes: draft.sizes };
      const row =
        [this.before[i], this.before[i - grown]].find((one) => one && isRowOf(one, wanted)) ??
        this.row(wanted, context);
      rows[i] = row;
      i += draft.add(row, line);
    }
    this.before = rows;
    return draft.finished();
  }

  private row(wanted: Wanted, context: PatternContext): KnownRow {
    const known = this.known.get(wanted.first) ?? [];
    const same = known.find((row) => isRowOf(row, wanted));
    if (same) return same;
    const text = textOf(wanted);
    const row = { ...wanted, content: rowContent(wanted, text, this.rows.read(text, context)) };
    this.known.set(wanted.first, [...known.slice(-variantsKept), row]);
    return row;
  }
}

/** Of rows that begin with the same line. */
const variantsKept = 20;

/** The lines that run a row on. */
function runOn(lines: readonly PatternLine[], i: number): readonly RunOn[] {
  const behind: RunOn[] = [];
  for (let last = lines[i] as PatternLine; ; ) {
    const next = lines[i + 1 + behind.length];
    if (!next || !continues(last, next)) return behind;
    behind.push({ content: next.content, gap: next.start - last.end });
    last = next;
  }
}

function isRowOf(row: KnownRow, { first, behind, sizes }: Wanted): boolean {
  return row.first === first && sameSizes(row.sizes, sizes) && sameLines(row.behind, behind);
}

function sameSizes(a: readonly number[] | null, b: readonly number[] | null): boolean {
  return a === b || `${a}` === `${b}`;
}

function sameLines(a: readonly RunOn[], b: readonly RunOn[]): boolean {
  return (
    a.length === b.length && a.every(({ content, gap }, i) => content === b[i]?.content && gap === b[i].gap)
  );
}

/** The instructions; whatever ends a line, blanks of the same length stand for it. */
function textOf({ first, behind }: Wanted): string {
  const own = first.text.slice(instructionsAt(first));
  const all = behind.reduce((row, { content, gap }) => row + " ".repeat(gap) + content.text, own);
  return ownCopy(all.trimEnd());
}

function rowContent({ first, sizes }: Wanted, text: string, plan: RowPlan | null): RowContent {
  const { kind, head, text: line } = first;
  const before = instructionsAt(first);
  const indent = line.length - line.trimStart().length;
  const shown = line.slice(0, before) + text;
  return {
    kind: kind as RowContent["kind"],
    head,
    headText: head?.text ?? shown.trim().split(/\s+/).slice(0, 8).join(" "),
    text,
    lead: before - indent,
    plan,
    sizes,
    goesRound: /\b(?:magic|ring|around|mr)\b/i.test(text),
  };
}

/** Characters of a line before what it instructs. */
function instructionsAt({ kind, text, head }: LineContent): number {
  return kind === "foundation" ? foundationLead(text) : (head?.length ?? 0);
}

interface OpenPiece {
  readonly name: string;
  readonly make: number;
  readonly start: number;
  readonly rows: RowLine[];
}

const notesHeading = /^(?:notes?|abbreviations?|materials?|special stitch|assembly|finishing|pattern notes)/i;

/** Collects the pieces of a pattern, line by line. */
class PieceDraft {
  private readonly pieces: OpenPiece[] = [{ name: "", make: 1, start: 0, rows: [] }];
  /** Numbered sentences of notes are no rows. */
  private inNotes = false;
  /** The sizes that the rows from here on are for; null for all. */
  sizes: readonly number[] | null = null;

  /** A line that is no row. */
  read(line: PatternLine, context: PatternContext): void {
    if (line.kind === "size") this.sizes = sizesOf(line.text, context.sizes);
    if (line.kind === "heading") {
      const { name, make } = readHeading(line.text.trim());
      this.inNotes = notesHeading.test(name);
      this.pieces.push({ name, make, start: line.start, rows: [] });
    }
    if (line.kind === "field") this.inNotes = /^\s*(?:notes?|pattern notes?)\b/i.test(line.text);
    if (line.kind === "blank") this.inNotes = false;
  }

  isNote(line: PatternLine): boolean {
    return this.inNotes && line.head?.word === "none";
  }

  /** Gives how many lines behind its first the row takes up. */
  add({ content, behind }: KnownRow, line: PatternLine): number {
    this.inNotes = false;
    const start = line.start + instructionsAt(line.content);
    (this.pieces.at(-1) as OpenPiece).rows.push(new RowLine(content, start));
    return behind.length;
  }

  finished(): Piece[] {
    return this.pieces
      .filter(({ rows }) => rows.length > 0)
      .map(({ name, make, start, rows }) => {
        const end = (rows.at(-1) as RowLine).span.end;
        return { name, make, span: { start, end }, rows };
      });
  }
}

/** The pieces and rows of a pattern, read from scratch. */
export function readPattern(text: string): Pattern {
  return new PatternReader().read(text);
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

function continues(before: PatternLine, next: PatternLine): boolean {
  if (next.kind === "foundation") return before.kind === "row" && /,\s*$/.test(before.text);
  if (next.kind !== "prose" && next.kind !== "heading") return false;
  const open = (before.text.match(/[([{]/g)?.length ?? 0) > (before.text.match(/[)\]}]/g)?.length ?? 0);
  if (open || /[,;–-]\s*$/.test(before.text)) return true;
  if (next.kind === "heading") return false;
  if (before.kind === "foundation") return false;
  return /^\s*[\p{Ll}([*]/u.test(next.text) && !/[.)\]]\s*$/.test(before.text);
}
