import { partsOf, perChunk, perPart, type WorkedPart } from "../fabric/parts";
import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import type { PatternLine } from "../notation/lines";
import { keptBy } from "../text/kept-by";
import { type Ground, groundOf, kindsIn, type TurnLengths } from "./ground";
import { layOut } from "./size";
import { stitchesOf } from "./stitch-counts";
import { timesMadeBesides } from "./times-made";
import { type Hand, type PieceYarns, type YarnKey, yarnsOfPiece } from "./yarn-in-hand";

/** Yarn in millimetres, by yarn. */
export type YarnSums = ReadonlyMap<YarnKey, number>;

/** Worked out once for each version of a pattern, when it is first asked for. */
export const yarnUseOf: (pattern: WorkedPattern) => YarnUse = keptBy((pattern) => new YarnUse(pattern));

/** What a piece takes, wherever it stands. */
interface PieceUse {
  readonly hands: PieceYarns;
  readonly sums: readonly YarnSums[];
  readonly passes: Passes;
  readonly leftOut: readonly number[];
}

/** How often the open ranges of a piece are worked in each size: by the place of the row, null where nothing tells. */
type Passes = ReadonlyMap<object, readonly (number | null)[]>;

/** Parts that an edit left alone are not added up again. */
const useOfParts = keptBy((ground: Ground) => perPart((part) => useOfPart(part, ground)));

/** Several parts together, each as often as its heading says. */
interface SeveralUse {
  /** One a size. */
  readonly sums: readonly YarnSums[];
  readonly isWhole: boolean;
}

const useOfChunks = keptBy((ground: Ground) => {
  const useOf = useOfParts(ground);
  return perChunk((parts): SeveralUse => {
    const uses = parts.map((part) => ({ use: useOf(part), make: part.piece?.piece.make ?? 0 }));
    const sizes = Math.max(0, ...uses.map(({ use }) => use.sums.length));
    return {
      sums: [...Array(sizes).keys()].map((size) => {
        const sum = new Map<YarnKey, number>();
        for (const { use, make } of uses) addTo(sum, use.sums[size], make);
        return sum;
      }),
      isWhole: uses.every(({ use }) => use.leftOut.length === 0),
    };
  });
});

/** The yarn of one pattern: how much each row and piece takes. */
export class YarnUse {
  readonly ground: Ground;
  private sumInAll: readonly YarnSums[] | undefined;

  constructor(private readonly pattern: WorkedPattern) {
    this.ground = groundOf(pattern);
  }

  /** Of a row and all its repeats, one sum a size; none where there is no basis, or nothing tells the stitches. */
  ofRow(row: WorkedRow, piece: WorkedPiece): readonly YarnSums[] {
    const { hands, passes } = this.useOf(piece);
    return sumsOfRow(row, hands.atStart[piece.rows.indexOf(row)], passes, this.ground);
  }

  /** The same of every row of a piece, in their order. */
  ofRows(piece: WorkedPiece): readonly (readonly YarnSums[])[] {
    const { hands, passes } = this.useOf(piece);
    return piece.rows.map((row, i) => sumsOfRow(row, hands.atStart[i], passes, this.ground));
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
      for (const { value } of useOfChunks(this.ground)(this.pattern)) addTo(sum, value.sums[size], 1);
      for (const [piece, times] of timesMadeBesides(this.pattern))
        addTo(sum, this.ofPiece(piece)[size], times);
      return sum;
    });
  }

  /** Whether every row is in the sums. */
  get isWhole(): boolean {
    return useOfChunks(this.ground)(this.pattern).every(({ value }) => value.isWhole);
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
    const part = partWith(this.pattern).get(piece);
    return part ? useOfParts(this.ground)(part) : nothingUsed;
  }
}

const partWith = keptBy(
  (pattern: WorkedPattern) => new Map(partsOf(pattern).map((part) => [part.piece, part])),
);

const nothingUsed: PieceUse = {
  hands: { atStart: [], tails: new Map() },
  sums: [],
  passes: new Map(),
  leftOut: [],
};

function useOfPart(part: WorkedPart, ground: Ground): PieceUse {
  const { piece } = part;
  if (piece === null) return nothingUsed;
  const hands = yarnsOfPiece(piece, linesOf(part, piece), ground);
  const passes = openRanges(piece, ground);
  const leftOut = piece.rows.flatMap((row, i) => (isLeftOut(row, passes) ? [i] : []));
  return { hands, passes, sums: addUp(piece, hands, passes, ground), leftOut };
}

function openRanges(piece: WorkedPiece, { basis, paths }: Ground): Passes {
  const open = basis === null ? [] : piece.rows.filter(({ times }) => times === null);
  if (basis === null || open.length === 0) return new Map();
  const bySize = piece.context.sizes.map((_, size) => layOut(piece, size, basis, paths).passes);
  return new Map(open.map((row) => [row.line.content, bySize.map((passes) => passes.get(row) ?? null)]));
}

function addUp(piece: WorkedPiece, hands: PieceYarns, passes: Passes, ground: Ground): readonly YarnSums[] {
  const { basis } = ground;
  const rows = piece.rows.map((row, i) => sumsOfRow(row, hands.atStart[i], passes, ground));
  return piece.context.sizes.map((_, size) => {
    const sum = new Map<YarnKey, number>();
    for (const row of rows) addTo(sum, row[size], 1);
    if (basis) addTo(sum, hands.tails, basis.strands);
    return sum;
  });
}

function sumsOfRow(
  row: WorkedRow,
  hands: readonly Hand[] = [anyYarn],
  passes: Passes,
  ground: Ground,
): readonly YarnSums[] {
  const times = passesIn(row, passes);
  return ground
    .lengthsOf(row)
    .map((turns, size) => sumOfTurns(turns, hands, times === null ? 1 : (times[size] ?? 0), ground));
}

function sumOfTurns(turns: TurnLengths, hands: readonly Hand[], times: number, { list }: Ground): YarnSums {
  const sum = new Map<YarnKey, number>();
  if (times <= 0) return sum;
  const named = (name: string): Hand => ({ yarns: [list.keyOf(name)], share: 1 });
  for (const [i, turn] of turns.entries())
    for (const [name, length] of turn) {
      const { yarns, share } = name === "" ? (hands[i % hands.length] ?? anyYarn) : named(name);
      for (const yarn of yarns) sum.set(yarn, (sum.get(yarn) ?? 0) + length * times * share);
    }
  return sum;
}

const anyYarn: Hand = { yarns: [0], share: 1 };

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

/** From the heading of a piece to the next one; what stands above its first row in a paragraph of its own is left out. */
function linesOf({ heading, lines }: WorkedPart, { rows: [first] }: WorkedPiece): readonly PatternLine[] {
  const begins = first?.line.span.start ?? 0;
  const row = lines.findIndex(({ start }) => start >= begins);
  const gap = lines.slice(0, Math.max(row, 0)).findLastIndex(({ kind }) => kind === "blank");
  return [...(heading ? [heading] : []), ...lines.slice(gap + 1)];
}
