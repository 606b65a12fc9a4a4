import { foundationLead, type LineContent } from "../notation/document";
import type { PatternLine } from "../notation/lines";
import { treeOf } from "../notation/tree";
import { readWords, type Sized, type Word } from "../notation/words";
import { keptBy } from "../text/kept-by";
import { Lately } from "../text/lately";
import { bindRow } from "./bind";
import type { PatternContext } from "./context";
import { type Affects, changeOf } from "./context-change";
import type { RowPlan } from "./instructions";
import { countCloser, type OpenMark, openMarkIn } from "./open-mark";
import type { RowContent } from "./pattern";

/** Remembers how row texts read in one context. */
export class RowReader {
  /** Of rows that were typed lately; those that stand in the pattern are kept with their lines. */
  private readonly plans = new Lately<RowPlan | null>(200);

  constructor(private readonly context: PatternContext) {}

  /** `sizes`: those that the row is for; a list in it may have a number for each of them only. */
  read(text: string, sizes: readonly number[] | null = null): RowPlan | null {
    const key = sizes === null ? text : `${sizes}\n${text}`;
    let plan = this.plans.get(key);
    if (plan === undefined) {
      plan = this.readAfresh(text, this.context, sizes);
      this.plans.set(key, plan);
    }
    return plan;
  }

  /** What reads alike in both contexts. */
  takeOver(other: RowReader, affects: Affects): void {
    for (const [text, plan] of other.plans.entries) if (!affects(text)) this.plans.set(text, plan);
  }

  private readAfresh(text: string, context: PatternContext, sizes: readonly number[] | null): RowPlan | null {
    if (text.length > longestRow) return null;
    const words = spreadOver(sizes, readWords(text, context.lexicon), context.sizes.length);
    if (words.some((word) => word.number?.some((n) => n !== null && n > Number.MAX_SAFE_INTEGER)))
      return null;
    const open = openMarkIn(words);
    const closer = open ? countCloser(text, open) : "";
    // What closes the count is read as if it were there: the rows behind have something to stand on.
    if (closer !== "") return this.closed(text, closer, open, context, sizes);
    const tree = treeOf(words);
    return tree && bindRow(text, words, tree, context);
  }

  private closed(
    text: string,
    closer: string,
    openMark: OpenMark | null,
    context: PatternContext,
    sizes: readonly number[] | null,
  ): RowPlan | null {
    const plan = this.readAfresh(text + closer, context, sizes);
    const span = plan?.statedSpan;
    return plan && { ...plan, openMark, statedSpan: span ? { ...span, end: text.length } : null };
  }
}

/** The one reader of a context: changes of a row are read for whoever tries them, and for the text that has them. */
export const readerIn = keptBy((context: PatternContext) => new RowReader(context));

/** Characters; no row of any pattern is nearly as long. */
const longestRow = 20_000;

/** Finds the rows that lines begin, and remembers them. */
export class RowsOfLines {
  private context: PatternContext | null = null;
  /** By the line that a row starts on; emptied when the context changes. */
  private known = new WeakMap<LineContent, KnownRow[]>();
  /** The rows of the version before, each at the index of its line. */
  private before: readonly (KnownRow | undefined)[] = [];
  private now: (KnownRow | undefined)[] = [];
  private grown = 0;
  /** Lines of the version before whose rows read otherwise now. */
  private lost: readonly number[] = [];

  /** Of the last version that was read to its end. */
  apart(): RowsOfLines {
    const other = new RowsOfLines();
    other.context = this.context;
    other.known = this.known;
    other.now = this.now;
    return other;
  }

  /** Has to be called for each version, before its rows are asked for. */
  enter(lines: readonly PatternLine[], context: PatternContext): void {
    this.before = this.now;
    this.lost = [];
    if (context !== this.context) this.change(context);
    this.now = Array(lines.length).fill(undefined);
    this.grown = lines.length - this.before.length;
  }

  private change(context: PatternContext): void {
    const affects = changeOf(this.context, context);
    if (this.context) readerIn(context).takeOver(readerIn(this.context), affects);
    this.context = context;
    this.loseUnlike(affects);
  }

  private loseUnlike(affects: Affects): void {
    this.lost = this.now.flatMap((row, i) => (row && affects(row.content.text) ? [i] : []));
    const lost = new Set(this.lost);
    this.before = this.now.map((row, i) => (lost.has(i) ? undefined : row));
    this.known = new WeakMap();
  }

  /** Whether all rows of these lines of the version before read as they did. */
  readAsBefore(from: number, to: number): boolean {
    return this.lost.length === 0 || !this.lost.some((i) => i >= from && i < to);
  }

  /** The row that begins on a line. */
  at(
    lines: readonly PatternLine[],
    i: number,
    sizes: RowContent["sizes"],
    context: PatternContext,
  ): KnownRow {
    const wanted = { first: (lines[i] as PatternLine).content, behind: runOn(lines, i), sizes };
    const near = [this.before[i], this.before[i - this.grown]];
    const row = near.find((one) => one && isRowOf(one, wanted)) ?? this.rowOf(wanted, context);
    this.now[i] = row;
    return row;
  }

  /** Lines that were taken over with all their rows. */
  takeOver(from: number, to: number, by: number): void {
    for (let i = from; i < to; i++) this.now[i + by] = this.before[i];
  }

  private rowOf(wanted: Wanted, context: PatternContext): KnownRow {
    const known = this.known.get(wanted.first) ?? [];
    const same = known.find((row) => isRowOf(row, wanted));
    if (same) return same;
    const text = textOf(wanted);
    const { first, behind, sizes } = wanted;
    const row = {
      first,
      behind,
      sizes,
      content: rowContent(wanted, text, readerIn(context).read(text, wanted.sizes)),
    };
    this.known.set(first, [...known.slice(-variantsKept), row]);
    return row;
  }
}

/** What a row is read from: a line, and those that run it on. */
interface Wanted {
  readonly first: LineContent;
  readonly behind: readonly RunOn[];
  readonly sizes: readonly number[] | null;
}

/** A row with the lines it was read from. */
export interface KnownRow extends Wanted {
  readonly content: RowContent;
}

/** A line that runs a row on. */
interface RunOn {
  readonly content: LineContent;
  /** Characters between it and the line before. */
  readonly gap: number;
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
  return all.trimEnd();
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

/** `12 (14) sc` in a row for sizes M and L only has a number for each of the two. */
function spreadOver(sizes: readonly number[] | null, words: readonly Word[], all: number): readonly Word[] {
  if (sizes === null || sizes.length < 2 || sizes.length === all) return words;
  const spread = (n: Sized): Sized => [...Array(all).keys()].map((size) => n[sizes.indexOf(size)] ?? null);
  return words.map((word) =>
    word.number?.length === sizes.length ? { ...word, number: spread(word.number) } : word,
  );
}

/** Characters of a line before what it instructs. */
export function instructionsAt({ kind, text, head }: LineContent): number {
  return kind === "foundation" ? foundationLead(text) : (head?.length ?? 0);
}

function continues(before: PatternLine, next: PatternLine): boolean {
  if (next.kind === "foundation") return before.kind === "row" && /,\s*$/.test(before.text);
  if (next.kind !== "prose" && next.kind !== "heading") return false;
  const open = (before.text.match(/[([{]/g)?.length ?? 0) > (before.text.match(/[)\]}]/g)?.length ?? 0);
  // `-16 sc-` is a count between dashes.
  if (open || /[,;–-]\s*$/.test(before.text.replace(/-[^-]*\d[^-]*-\s*$/, ""))) return true;
  if (next.kind === "heading") return false;
  if (before.kind === "foundation") return false;
  return /^\s*[\p{Ll}([*]/u.test(next.text) && !/[.)\]]\s*$/.test(before.text);
}
