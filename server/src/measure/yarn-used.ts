import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import type { PatternLine } from "../notation/lines";
import { keptBy } from "../text/kept-by";
import { type Ground, groundOf, kindsIn, type TurnLengths } from "./ground";
import { stitchesOf } from "./stitch-counts";
import { type PieceYarns, type YarnKey, yarnsOfPiece } from "./yarn-in-hand";

/** Yarn in millimetres, by yarn. */
export type YarnSums = ReadonlyMap<YarnKey, number>;

/** Worked out once for each version of a pattern, when it is first asked for. */
export const yarnUseOf: (pattern: WorkedPattern) => YarnUse = keptBy((pattern) => new YarnUse(pattern));

/** The yarn of one pattern: how much each row and piece takes. */
export class YarnUse {
  readonly ground: Ground;
  private readonly hands = new Map<WorkedPiece, PieceYarns>();
  private readonly pieces = new Map<WorkedPiece, readonly YarnSums[]>();

  constructor(private readonly pattern: WorkedPattern) {
    this.ground = groundOf(pattern);
  }

  /** Of a row and all its repeats, one sum a size; none where there is no basis, or nothing tells the stitches. */
  ofRow(row: WorkedRow, piece: WorkedPiece): readonly YarnSums[] {
    const hands = this.handsOf(piece).atStart.get(row) ?? [0];
    return this.ground.lengthsOf(row).map((turns) => this.sumOf(turns, hands));
  }

  /** Of a piece made once, with its tails; rows that are not known are left out. */
  ofPiece(piece: WorkedPiece): readonly YarnSums[] {
    const found = this.pieces.get(piece) ?? this.addUp(piece);
    this.pieces.set(piece, found);
    return found;
  }

  /** Of the whole pattern, each piece as often as it is made. */
  get inAll(): readonly YarnSums[] {
    return this.pattern.context.sizes.map((_, size) => {
      const sum = new Map<YarnKey, number>();
      for (const piece of this.pattern.pieces) addTo(sum, this.ofPiece(piece)[size], piece.piece.make);
      return sum;
    });
  }

  /** Rows whose stitches nobody knows, and which are in no sum. */
  get leftOut(): readonly WorkedRow[] {
    const rows = this.pattern.pieces.flatMap((piece) => piece.rows);
    return rows.filter((row) => row.line.kind !== "foundation" && stitchesOf(row).length === 0);
  }

  /** What had to be taken for granted: `each bobble as 5 dc together`. */
  get taken(): readonly string[] {
    const kinds = new Set(this.pattern.pieces.flatMap(({ rows }) => rows.flatMap(kindsIn)));
    return [...kinds].flatMap((key) => this.ground.paths.of(key).taken ?? []);
  }

  private addUp(piece: WorkedPiece): readonly YarnSums[] {
    const { basis } = this.ground;
    const { tails } = this.handsOf(piece);
    const rows = piece.rows.map((row) => this.ofRow(row, piece));
    return piece.context.sizes.map((_, size) => {
      const sum = new Map<YarnKey, number>();
      for (const row of rows) addTo(sum, row[size], 1);
      if (basis) addTo(sum, tails, basis.strands);
      return sum;
    });
  }

  private sumOf(turns: TurnLengths, hands: readonly YarnKey[]): YarnSums {
    const sum = new Map<YarnKey, number>();
    for (const [i, turn] of turns.entries())
      for (const [name, length] of turn) {
        const yarn = name === "" ? (hands[i % hands.length] ?? 0) : this.keyOf(name);
        sum.set(yarn, (sum.get(yarn) ?? 0) + length);
      }
    return sum;
  }

  private keyOf(name: string): YarnKey {
    const at = this.ground.list.find(name);
    return at >= 0 ? at : name;
  }

  private handsOf(piece: WorkedPiece): PieceYarns {
    const found =
      this.hands.get(piece) ?? yarnsOfPiece(piece, linesOf(piece, this.pattern.lines), this.ground.list);
    this.hands.set(piece, found);
    return found;
  }
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
