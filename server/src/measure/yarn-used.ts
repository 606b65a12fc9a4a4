import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import type { PatternLine } from "../notation/lines";
import { keptBy } from "../text/kept-by";
import { type Basis, type BasisRead, plainStitch, readBasis, yarnPerStitch } from "./basis";
import { type StitchCounts, stitchesOf, type TurnCounts } from "./stitch-counts";
import { StitchPaths } from "./stitch-paths";
import { type PieceYarns, type YarnKey, yarnsOfPiece } from "./yarn-in-hand";
import { type YarnList, yarnListOf } from "./yarn-list";

/** Yarn in millimetres, by yarn. */
export type YarnSums = ReadonlyMap<YarnKey, number>;

/** The yarn of one pattern: what it is worked out from, and how much each row and piece takes. */
export interface YarnUse extends BasisRead {
  readonly list: YarnList;
  readonly paths: StitchPaths;
  /** Of a row and all its repeats, one sum a size; null where its stitches or the basis are not known. */
  ofRow(row: WorkedRow): readonly (YarnSums | null)[];
  /** Of a piece made once, with its tails; rows that are not known are left out. */
  ofPiece(piece: WorkedPiece): readonly YarnSums[];
  /** Of the whole pattern, each piece as often as it is made. */
  readonly inAll: readonly YarnSums[];
  /** Rows whose stitches nobody knows, and which are in no sum. */
  readonly leftOut: readonly WorkedRow[];
  /** What had to be taken for granted: `each bobble as 5 dc together`. */
  readonly taken: readonly string[];
}

/** Worked out once for each version of a pattern, when it is first asked for. */
export const yarnUseOf: (pattern: WorkedPattern) => YarnUse = keptBy((pattern) => new PatternYarn(pattern));

class PatternYarn implements YarnUse {
  readonly list: YarnList;
  readonly paths: StitchPaths;
  readonly basis: Basis | null;
  readonly problems: BasisRead["problems"];
  private readonly front: FrontMatter;
  private readonly hands = new Map<WorkedPiece, PieceYarns>();
  private readonly home: ReadonlyMap<WorkedRow, WorkedPiece>;
  private readonly carries: boolean;
  private whole: readonly YarnSums[] | null = null;

  constructor(private readonly pattern: WorkedPattern) {
    const { lines, context, pieces } = pattern;
    this.front = frontMatterOf(lines);
    this.list = yarnListOf(this.front);
    this.paths = new StitchPaths(context, this.front.specialStitches);
    const grounds = { front: this.front, context, paths: this.paths, list: this.list };
    ({ basis: this.basis, problems: this.problems } = readBasis({
      ...grounds,
      mainStitch: mainStitchOf(pattern),
    }));
    this.home = new Map(pieces.flatMap((piece) => piece.rows.map((row) => [row, piece] as const)));
    this.carries = lines.some(({ kind, text }) => kind !== "row" && /\bcarr(?:y|ied|ying)\b/i.test(text));
  }

  get leftOut(): readonly WorkedRow[] {
    return this.pattern.pieces.flatMap(({ rows }) =>
      rows.filter((row) => row.line.kind !== "foundation" && stitchesOf(row).length === 0),
    );
  }

  get taken(): readonly string[] {
    const keys = this.pattern.pieces.flatMap(({ rows }) =>
      rows.flatMap((row) =>
        stitchesOf(row).flatMap((turns) =>
          (turns ?? []).flatMap((turn) => [...turn.values()].flatMap((counts) => [...counts.keys()])),
        ),
      ),
    );
    return [...new Set(keys)].flatMap((key) => this.paths.of(key).taken ?? []);
  }

  get inAll(): readonly YarnSums[] {
    this.whole ??= this.pattern.context.sizes.map((_, size) => {
      const sum = new Map<YarnKey, number>();
      for (const piece of this.pattern.pieces) addTo(sum, this.ofPiece(piece)[size], piece.piece.make);
      return sum;
    });
    return this.whole;
  }

  ofPiece(piece: WorkedPiece): readonly YarnSums[] {
    const { tails } = this.handsOf(piece);
    const rows = piece.rows.map((row) => this.ofRow(row));
    return this.pattern.context.sizes.map((_, size) => {
      const sum = new Map<YarnKey, number>();
      for (const row of rows) addTo(sum, row[size] ?? undefined, 1);
      if (this.basis) addTo(sum, tails, this.basis.strands);
      return sum;
    });
  }

  ofRow(row: WorkedRow): readonly (YarnSums | null)[] {
    const { basis } = this;
    if (basis === null) return [];
    const hands = this.handsOfRow(row);
    return stitchesOf(row).map((turns) => turns && this.sumOf(turns, hands, basis));
  }

  private sumOf(turns: TurnCounts, hands: readonly YarnKey[], basis: Basis): YarnSums {
    const sum = new Map<YarnKey, number>();
    for (const [i, turn] of turns.entries()) {
      for (const [name, counts] of turn) {
        const yarn = name === "" ? (hands[i % hands.length] ?? 0) : this.keyOf(name);
        addTo(sum, new Map([[yarn, this.lengthOf(counts, basis)]]), 1);
        if (this.carries && turn.size > 1) addTo(sum, new Map([[yarn, carried(turn, counts, basis)]]), 1);
      }
    }
    return sum;
  }

  private lengthOf(counts: StitchCounts, basis: Basis): number {
    let sum = 0;
    for (const [key, n] of counts) sum += n * yarnPerStitch(this.paths.of(key), basis);
    return sum;
  }

  private keyOf(name: string): YarnKey {
    const at = this.list.find(name);
    return at >= 0 ? at : name;
  }

  private handsOfRow(row: WorkedRow): readonly YarnKey[] {
    const piece = this.home.get(row);
    return (piece && this.handsOf(piece).atStart.get(row)) ?? [0];
  }

  private handsOf(piece: WorkedPiece): PieceYarns {
    const found = this.hands.get(piece) ?? yarnsOfPiece(piece, linesOf(piece, this.pattern.lines), this.list);
    this.hands.set(piece, found);
    return found;
  }
}

/** A yarn that is carried along lies straight behind the stitches of the others. */
function carried(
  turn: ReadonlyMap<string, StitchCounts>,
  own: StitchCounts,
  { size, strands }: Basis,
): number {
  const others = [...turn.values()].filter((counts) => counts !== own);
  return others.reduce((sum, counts) => sum + stitchesIn(counts), 0) * size.width * strands;
}

function stitchesIn(counts: StitchCounts): number {
  return [...counts.values()].reduce((sum, n) => sum + n, 0);
}

function addTo(sum: Map<YarnKey, number>, more: YarnSums | undefined, times: number): void {
  for (const [yarn, n] of more ?? []) sum.set(yarn, (sum.get(yarn) ?? 0) + n * times);
}

/** From the heading of a piece to the next one; what stands above its first row in a paragraph of its own is left out. */
function linesOf({ piece, rows: [first] }: WorkedPiece, all: readonly PatternLine[]): PatternLine[] {
  const from = all.findIndex(({ start }) => start >= piece.span.start);
  const next = all.findIndex(({ kind, start }) => kind === "heading" && start > piece.span.end);
  const own = all.slice(from, next < 0 ? undefined : next);
  const row = own.findIndex(({ start }) => start >= (first?.line.span.start ?? 0));
  const gap = own.slice(0, Math.max(row, 0)).findLastIndex(({ kind }) => kind === "blank");
  return gap < 0 ? own : [...own.slice(0, 1).filter(({ kind }) => kind === "heading"), ...own.slice(gap + 1)];
}

/** The plain stitch that most stitches of a pattern are; a single crochet where there is none. */
function mainStitchOf({ pieces, context }: WorkedPattern): string {
  const sums = new Map<string, number>();
  for (const { rows, piece } of pieces)
    for (const row of rows)
      for (const turn of stitchesOf(row)[0] ?? [])
        for (const counts of turn.values())
          for (const [key, n] of counts) {
            const plain = plainStitch(key.split(/[*<]/)[0] ?? key, context);
            if (plain !== null) sums.set(plain, (sums.get(plain) ?? 0) + n * piece.make);
          }
  const [most] = [...sums].sort((a, b) => b[1] - a[1]);
  return most?.[0] ?? "sc";
}
