import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import type { PatternLine } from "../notation/lines";
import { type ParagraphContent, paragraphsOf } from "../notation/paragraphs";
import { keptBy } from "../text/kept-by";
import { type Ground, groundOf, kindsIn, type TurnLengths } from "./ground";
import { layOut } from "./size";
import { stitchesOf } from "./stitch-counts";
import { type Hand, type PieceYarns, tellsOfYarn, type YarnKey, yarnsOfPiece } from "./yarn-in-hand";

/** Yarn in millimetres, by yarn. */
export type YarnSums = ReadonlyMap<YarnKey, number>;

/** Worked out once for each version of a pattern, when it is first asked for. */
export const yarnUseOf: (pattern: WorkedPattern) => YarnUse = keptBy((pattern) => new YarnUse(pattern));

/** What a piece takes, and the lines between its rows that it depends on. */
interface PieceUse {
  readonly telling: readonly unknown[];
  readonly hands: PieceYarns;
  readonly sums: readonly YarnSums[];
  readonly passes: Passes;
  readonly leftOut: readonly number[];
}

/** How often the open ranges of a piece are worked in each size: by the place of the row, null where nothing tells. */
type Passes = ReadonlyMap<object, readonly (number | null)[]>;

/** A line that takes up a yarn or tells of a tail, by its place in the pattern. */
interface Telling {
  readonly content: PatternLine["content"];
  readonly start: number;
  readonly at: number;
}

/** Pieces that an edit left alone are not added up again. */
const keptPieces = new WeakMap<Ground, WeakMap<object, PieceUse>>();

/** The yarn of one pattern: how much each row and piece takes. */
export class YarnUse {
  readonly ground: Ground;
  private readonly pieces = new Map<WorkedPiece, PieceUse>();
  private tellingLines: readonly Telling[] | undefined;
  private sumInAll: readonly YarnSums[] | undefined;

  constructor(private readonly pattern: WorkedPattern) {
    this.ground = groundOf(pattern);
  }

  /** Of a row and all its repeats, one sum a size; none where there is no basis, or nothing tells the stitches. */
  ofRow(row: WorkedRow, piece: WorkedPiece): readonly YarnSums[] {
    const { hands, passes } = this.useOf(piece);
    return this.rowWith(row, hands.atStart[piece.rows.indexOf(row)], passes);
  }

  /** The same of every row of a piece, in their order. */
  ofRows(piece: WorkedPiece): readonly (readonly YarnSums[])[] {
    const { hands, passes } = this.useOf(piece);
    return piece.rows.map((row, i) => this.rowWith(row, hands.atStart[i], passes));
  }

  /** How often a row is worked as it is told, one number a size: 1, or as often as an open range asks for; null where nothing tells. */
  timesOf(row: WorkedRow, piece: WorkedPiece): readonly (number | null)[] {
    return passesIn(row, this.useOf(piece).passes) ?? piece.context.sizes.map(() => 1);
  }

  /** Of a piece made once, with its tails; rows that are not known are left out. */
  ofPiece(piece: WorkedPiece): readonly YarnSums[] {
    return this.useOf(piece).sums;
  }

  /** Of the whole pattern, each piece as often as it is made. */
  get inAll(): readonly YarnSums[] {
    this.sumInAll ??= this.addUpAll();
    return this.sumInAll;
  }

  private addUpAll(): readonly YarnSums[] {
    return this.pattern.context.sizes.map((_, size) => {
      const sum = new Map<YarnKey, number>();
      for (const piece of this.pattern.pieces) addTo(sum, this.ofPiece(piece)[size], piece.piece.make);
      return sum;
    });
  }

  /** Whether every row is in the sums. */
  get isWhole(): boolean {
    return this.pattern.pieces.every((piece) => this.useOf(piece).leftOut.length === 0);
  }

  /** Rows whose stitches nobody knows, and which are in no sum. */
  get leftOut(): readonly WorkedRow[] {
    return this.pattern.pieces.flatMap((piece) =>
      this.useOf(piece).leftOut.map((at) => piece.rows[at] as WorkedRow),
    );
  }

  /** What had to be taken for granted: `each bobble as 5 dc together`. */
  get taken(): readonly string[] {
    const kinds = new Set(this.pattern.pieces.flatMap(({ rows }) => rows.flatMap(kindsIn)));
    return [...kinds].flatMap((key) => this.ground.paths.of(key).taken ?? []);
  }

  private useOf(piece: WorkedPiece): PieceUse {
    let found = this.pieces.get(piece);
    if (!found) {
      found = this.keptUse(piece);
      this.pieces.set(piece, found);
    }
    return found;
  }

  private keptUse(piece: WorkedPiece): PieceUse {
    const kept = keptPieces.get(this.ground) ?? new WeakMap<object, PieceUse>();
    keptPieces.set(this.ground, kept);
    const telling = this.tellingOf(piece);
    const before = kept.get(piece.work);
    if (before && sameItems(before.telling, telling)) return before;
    const hands = yarnsOfPiece(piece, linesOf(piece, this.pattern.lines), this.ground);
    const passes = this.openRanges(piece);
    const leftOut = piece.rows.flatMap((row, i) => (isLeftOut(row, passes) ? [i] : []));
    const use = { telling, hands, passes, sums: this.addUp(piece, hands, passes), leftOut };
    kept.set(piece.work, use);
    return use;
  }

  /** The lines that tell of yarn for a piece, each with where it stands among the rows. */
  private tellingOf({ piece, rows }: WorkedPiece): unknown[] {
    const { lines } = this.pattern;
    const found: unknown[] = [];
    const first = firstFrom(lines, rows[0]?.line.span.start ?? 0);
    for (let i = firstFrom(this.telling, piece.span.start); i < this.telling.length; i++) {
      const { content, start, at } = this.telling[i] as Telling;
      if (content.kind === "heading" && start > piece.span.end) break;
      // Above the rows it matters whether a blank line stands between.
      found.push(content, at < first ? at - first : rowsBefore(rows, start));
    }
    return found;
  }

  private get telling(): readonly Telling[] {
    const { lines } = this.pattern;
    this.tellingLines ??= paragraphsOf(lines).flatMap(({ content, first }) =>
      tellingIn(content).map((i) => {
        const at = first + i;
        return { content: content.lines[i] as PatternLine["content"], start: lines[at]?.start ?? 0, at };
      }),
    );
    return this.tellingLines;
  }

  private openRanges(piece: WorkedPiece): Passes {
    const { basis, paths } = this.ground;
    const open = basis === null ? [] : piece.rows.filter(({ times }) => times === null);
    if (basis === null || open.length === 0) return new Map();
    const bySize = piece.context.sizes.map((_, size) => layOut(piece, size, basis, paths).passes);
    return new Map(open.map((row) => [row.line.content, bySize.map((passes) => passes.get(row) ?? null)]));
  }

  private addUp(piece: WorkedPiece, { tails, atStart }: PieceYarns, passes: Passes): readonly YarnSums[] {
    const { basis } = this.ground;
    const rows = piece.rows.map((row, i) => this.rowWith(row, atStart[i], passes));
    return piece.context.sizes.map((_, size) => {
      const sum = new Map<YarnKey, number>();
      for (const row of rows) addTo(sum, row[size], 1);
      if (basis) addTo(sum, tails, basis.strands);
      return sum;
    });
  }

  private rowWith(row: WorkedRow, hands: readonly Hand[] = [anyYarn], passes: Passes): readonly YarnSums[] {
    const times = passesIn(row, passes);
    return this.ground
      .lengthsOf(row)
      .map((turns, size) => this.sumOf(turns, hands, times === null ? 1 : (times[size] ?? 0)));
  }

  private sumOf(turns: TurnLengths, hands: readonly Hand[], times: number): YarnSums {
    const sum = new Map<YarnKey, number>();
    if (times <= 0) return sum;
    for (const [i, turn] of turns.entries())
      for (const [name, length] of turn) {
        const { yarns, share } = name === "" ? (hands[i % hands.length] ?? anyYarn) : this.named(name);
        for (const yarn of yarns) sum.set(yarn, (sum.get(yarn) ?? 0) + length * times * share);
      }
    return sum;
  }

  private named(name: string): Hand {
    return { yarns: [this.ground.list.keyOf(name)], share: 1 };
  }
}

const anyYarn: Hand = { yarns: [0], share: 1 };

/** Which lines of a paragraph tell of yarn. */
const tellingIn = keptBy(({ lines }: ParagraphContent): readonly number[] =>
  lines.flatMap((content, i) => (tellsOfYarn(content) ? [i] : [])),
);

function isLeftOut(row: WorkedRow, passes: Passes): boolean {
  if (row.line.kind === "foundation") return false;
  return stitchesOf(row).length === 0 || (passesIn(row, passes)?.some((n) => n === null) ?? false);
}

/** Null for a row that is told how often it is worked. */
function passesIn({ line, times }: WorkedRow, passes: Passes): readonly (number | null)[] | null {
  return times === null ? (passes.get(line.content) ?? [null]) : null;
}

function addTo(sum: Map<YarnKey, number>, more: YarnSums | undefined, times: number): void {
  for (const [yarn, n] of more ?? []) sum.set(yarn, (sum.get(yarn) ?? 0) + n * times);
}

function rowsBefore(rows: readonly WorkedRow[], offset: number): number {
  const at = rows.findIndex(({ line }) => line.span.start > offset);
  return at < 0 ? rows.length : at;
}

function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((one, i) => one === b[i]);
}

/** From the heading of a piece to the next one; what stands above its first row in a paragraph of its own is left out. */
function linesOf({ piece, rows: [first] }: WorkedPiece, all: readonly PatternLine[]): PatternLine[] {
  const from = firstFrom(all, piece.span.start);
  let to = firstFrom(all, piece.span.end);
  while (to < all.length && all[to]?.kind !== "heading") to++;
  const own = all.slice(from, to);
  const row = firstFrom(own, first?.line.span.start ?? 0);
  const gap = own.slice(0, row).findLastIndex(({ kind }) => kind === "blank");
  return gap < 0 ? own : [...own.slice(0, 1).filter(({ kind }) => kind === "heading"), ...own.slice(gap + 1)];
}

/** The index of the first line that starts at an offset or behind it. */
function firstFrom(lines: readonly { readonly start: number }[], offset: number): number {
  let [low, high] = [0, lines.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((lines[middle]?.start ?? 0) < offset) low = middle + 1;
    else high = middle;
  }
  return low;
}
