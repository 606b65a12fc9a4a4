import type { RowHead } from "../notation/document";
import { readHeading, readMake } from "../notation/headings";
import { LineReader, type PatternLine } from "../notation/lines";
import { type Span, shift } from "../text/span";
import { ContextReader, type PatternContext } from "./context";
import type { RowPlan } from "./instructions";
import { fastensOff, noTalk, type PieceTalk, withLine } from "./piece-talk";
import { instructionsAt, type KnownRow, RowsOfLines } from "./row-reader";

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
  readonly talk: PieceTalk;
  /** The same object wherever the piece stands, as long as nothing else of it changes. */
  readonly body: object;
}

export interface Pattern {
  readonly text: string;
  readonly lines: readonly PatternLine[];
  readonly context: PatternContext;
  readonly blocks: readonly Block[];
  readonly pieces: readonly Piece[];
}

/** The pieces and rows of a pattern, read from scratch. */
export function readPattern(text: string): Pattern {
  return new PatternReader().read(text);
}

/** A heading with the lines below it, up to the next one, and the piece that its rows make. */
export interface Block {
  /** The same object wherever the block stands, as long as nothing else of it changes; its piece has it too. */
  readonly body: object;
  /** Indexes of its first line and of the one behind its last. */
  readonly from: number;
  readonly to: number;
  /** The sizes its first rows are for, and those that what follows is for. */
  readonly sizes: RowContent["sizes"];
  readonly sizesAfter: RowContent["sizes"];
  readonly piece: Piece | null;
}

/** Reads one version of a pattern after another; what an edit left alone is not read again. */
export class PatternReader {
  private last: Pattern | null = null;

  constructor(
    private readonly lines = new LineReader(),
    private readonly contexts = new ContextReader(),
    private readonly rows = new RowsOfLines(),
  ) {}

  /** One that has read what this one has, and goes on by itself. */
  apart(): PatternReader {
    const other = new PatternReader(this.lines.apart(), this.contexts.apart(), this.rows.apart());
    other.last = this.last;
    return other;
  }

  /** The pieces and rows of a pattern. Never fails: what is no row is left alone. */
  read(text: string): Pattern {
    const lines = this.lines.read(text);
    const context = this.contexts.read(lines);
    this.rows.enter(lines, context);
    const blocks = this.blocks(lines, context);
    const pieces = blocks.flatMap(({ piece }) => (piece ? [piece] : []));
    const pattern = { text, lines, context, blocks, pieces };
    this.last = pattern;
    return pattern;
  }

  private blocks(lines: readonly PatternLine[], context: PatternContext): Block[] {
    const before = this.last?.context.base === context.base ? this.last.blocks : [];
    const known = new Map(before.map((block) => [block.from, block]));
    const grown = lines.length - (this.last?.lines.length ?? 0);
    const blocks: Block[] = [];
    for (let i = 0; i < lines.length; i = (blocks.at(-1) as Block).to) {
      const sizes = blocks.at(-1)?.sizesAfter ?? null;
      blocks.push(
        this.inHead(known.get(i), sizes) ??
          this.inTail(known.get(i - grown), sizes, grown, lines) ??
          this.readBlock(lines, i, sizes, context),
      );
    }
    return blocks;
  }

  /** A block above all that was edited, the line behind it too, since that might have run on. */
  private inHead(block: Block | undefined, sizes: RowContent["sizes"]): Block | null {
    if (!block || block.to >= this.lines.kept.head || !this.isAsBefore(block, sizes)) return null;
    this.rows.takeOver(block.from, block.to, 0);
    return block;
  }

  /** A block below all that was edited. */
  private inTail(
    block: Block | undefined,
    sizes: RowContent["sizes"],
    by: number,
    lines: readonly PatternLine[],
  ): Block | null {
    const first = lines.length - this.lines.kept.tail;
    if (!block || block.from + by < first || !this.isAsBefore(block, sizes)) return null;
    this.rows.takeOver(block.from, block.to, by);
    const offset = (lines[block.from + by]?.start ?? 0) - (this.last?.lines[block.from]?.start ?? 0);
    const piece = block.piece && movedPiece(block.piece, offset);
    return { ...block, from: block.from + by, to: block.to + by, piece };
  }

  private isAsBefore(block: Block, sizes: RowContent["sizes"]): boolean {
    return sameSizes(block.sizes, sizes) && this.rows.readAsBefore(block.from, block.to);
  }

  private readBlock(
    lines: readonly PatternLine[],
    from: number,
    sizes: RowContent["sizes"],
    context: PatternContext,
  ): Block {
    const draft = new PieceDraft(lines[from] as PatternLine, sizes);
    let i = from;
    for (; i < lines.length; i++) {
      const line = lines[i] as PatternLine;
      if (line.kind === "heading" && i > from) break;
      const isRow = line.kind === "row" || line.kind === "foundation" || line.kind === "copy";
      if (!isRow) draft.read(line, context);
      else if (!draft.isNote(line))
        i += draft.add(this.rows.at(lines, i, draft.sizesOf(line, context), context), line);
    }
    const to = Math.min(i, lines.length);
    return { body: draft.body, from, to, sizes, sizesAfter: draft.sizes, piece: draft.finished() };
  }
}

/** A piece that an edit above it moved: its rows are made when somebody looks at them. */
class MovedPiece implements Piece {
  readonly name: string;
  readonly make: number;
  readonly span: Span;
  readonly talk: PieceTalk;
  readonly body: object;
  private moved: readonly RowLine[] | undefined;

  constructor(
    private readonly piece: Piece,
    private readonly by: number,
  ) {
    const { name, make, span, talk, body } = piece;
    this.name = name;
    this.make = make;
    this.span = shift(span, by);
    this.talk = talk;
    this.body = body;
  }

  get rows(): readonly RowLine[] {
    this.moved ??= this.piece.rows.map(({ content, start }) => new RowLine(content, start + this.by));
    return this.moved;
  }

  /** From where it stood first, so that no chain of moves grows. */
  movedBy(by: number): Piece {
    return this.by + by === 0 ? this.piece : new MovedPiece(this.piece, this.by + by);
  }
}

function movedPiece(piece: Piece, by: number): Piece {
  if (by === 0) return piece;
  return piece instanceof MovedPiece ? piece.movedBy(by) : new MovedPiece(piece, by);
}

function sameSizes(a: RowContent["sizes"], b: RowContent["sizes"]): boolean {
  return a === b || `${a}` === `${b}`;
}

const notesHeading = /^(?:notes?|abbreviations?|materials?|special stitch|assembly|finishing|pattern notes)/i;

/** Collects the rows of a piece, line by line. */
class PieceDraft {
  readonly body = {};
  private readonly name: string;
  private make: number;
  private readonly start: number;
  private readonly rows: RowLine[] = [];
  private talk: PieceTalk = noTalk;
  /** Numbered sentences of notes are no rows. */
  private inNotes: boolean;

  constructor(
    { kind, text, start }: PatternLine,
    /** The sizes that the rows from here on are for; null for all. */
    public sizes: RowContent["sizes"],
  ) {
    const { name, make } = kind === "heading" ? readHeading(text.trim()) : { name: "", make: 1 };
    [this.name, this.make] = [name, make];
    this.start = kind === "heading" ? start : 0;
    this.inNotes = notesHeading.test(name);
  }

  /** A line that is no row. */
  read(line: PatternLine, context: PatternContext): void {
    if (line.kind === "size") this.sizes = sizesOf(line.text, context.sizes);
    if (line.kind === "prose" && this.rows.length === 0) this.make = readMake(line.text) ?? this.make;
    if (line.kind === "prose") this.talk = withLine(this.talk, line.text, this.rows.length === 0);
    if (line.kind === "field") this.inNotes = /^\s*(?:notes?|pattern notes?)\b/i.test(line.text);
    if (line.kind === "blank") this.inNotes = false;
  }

  /** `Rnd 9 (L only):` is for that size, whatever the lines about it are for. */
  sizesOf({ head }: PatternLine, context: PatternContext): RowContent["sizes"] {
    const only = head && head.label !== "" ? /\(([^()]*\bonly)\b/i.exec(head.label)?.[1] : undefined;
    const own = only === undefined ? null : sizesOf(only, context.sizes);
    return own && own.length > 0 ? own : this.sizes;
  }

  isNote(line: PatternLine): boolean {
    return this.inNotes && line.head?.word === "none";
  }

  /** Gives how many lines behind its first the row takes up. */
  add({ content, behind }: KnownRow, line: PatternLine): number {
    this.inNotes = false;
    this.rows.push(new RowLine(content, line.start + instructionsAt(line.content)));
    this.talk = { ...this.talk, fastened: fastensOff(content.text) };
    return behind.length;
  }

  finished(): Piece | null {
    const last = this.rows.at(-1);
    if (!last) return null;
    const { name, make, start, rows, talk, body } = this;
    return { name, make, span: { start, end: last.span.end }, rows, talk, body };
  }
}

function sizesOf(text: string, names: readonly string[]): readonly number[] | null {
  if (/\b(?:all|both)\b/i.test(text)) return null;
  const listed = text.replace(/.*?\bsizes?\b/i, "").replace(/\bonly\b.*/i, "");
  const asked = listed
    .toLowerCase()
    .split(/\s*[,&]\s*|\s+and\s+|\s+/)
    .filter((word) => word !== "");
  const said = ` ${asked.join(" ")} `;
  return names.flatMap((name, i) => (said.includes(` ${wordsOf(name)} `) ? [i] : []));
}

/** `Adult S/M`: the words of a name, as they stand in a list of them. */
function wordsOf(name: string): string {
  return name.toLowerCase().trim().replace(/\s+/g, " ");
}
