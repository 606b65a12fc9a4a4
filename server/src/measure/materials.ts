import type { WorkedPattern, WorkedPiece } from "../fabric/worked";
import { say } from "../text/say";
import { convertLength } from "../trade/units";
import { usualMetres } from "../trade/yarn-weights";
import type { Basis } from "./basis";
import { edgingsOf, isMeasured } from "./edgings";
import { type Estimate, estimateOf, figuresOf, rounded } from "./figures";
import { leftOutOf, notesOf } from "./materials-notes";
import { drawnIn } from "./plain-pieces";
import { openingsInWords } from "./row-size";
import { sumOf } from "./row-yarn";
import { seamsOf, yarnOfSeam } from "./seams";
import { type PieceSize, type RoundOfPiece, roundsOf, sizeOf } from "./size";
import { sizeInWords } from "./size-words";
import { minutesOf, pace } from "./time";
import { timesMade } from "./times-made";
import { eachInOne } from "./yarn-in-hand";
import type { ListedYarn, YarnKey } from "./yarn-list";
import { type YarnUse, yarnUseOf } from "./yarn-used";

/** What a designer may set. */
export interface MeasureOptions {
  /** Yarn to spare, in percent. */
  readonly marginPercent: number;
  readonly stitchesPerMinute: number;
}

/** Common practice: 10 to 20 percent to spare. */
export const usualOptions: MeasureOptions = { marginPercent: 15, stitchesPerMinute: pace.usual };

/** How much of one yarn one size takes, with the margin. */
export interface YarnAmount {
  readonly metres: Estimate;
  readonly yards: Estimate;
  /** Null where neither a label nor a yarn weight tells what the yarn weighs. */
  readonly grams: Estimate | null;
  /** Balls to buy; null where no label tells how much a ball holds. */
  readonly balls: Estimate | null;
}

export interface YarnOfPattern {
  readonly name: string;
  readonly isListed: boolean;
  /** What a ball holds, as the label tells it. */
  readonly label: string | null;
  /** One a size. */
  readonly amounts: readonly YarnAmount[];
}

export interface PieceMeasures {
  readonly name: string;
  readonly make: number;
  /** In words, one a size; null where a row of it is not known, or nothing tells the gauge. */
  readonly sizes: readonly (string | null)[];
  /** The same in figures, one a size: a shape and lengths in centimetres. */
  readonly lengths: readonly (PieceLengths | null)[];
  /** Made once, tails with it and without the margin, one a size; null where nothing tells. */
  readonly metres: readonly (Estimate | null)[];
  readonly minutes: readonly number[];
}

/** How a piece lies, with its lengths in centimetres to a tenth; which there are depends on the shape. */
export interface PieceLengths extends Readonly<Partial<Record<LengthOfPiece, number>>> {
  readonly shape: PieceSize["shape"];
}

type LengthOfPiece =
  | "width"
  | "narrowest"
  | "height"
  | "firstEdge"
  | "lastEdge"
  | "across"
  | "length"
  | "around"
  | "opening";

function lengthsIn(size: PieceSize): PieceLengths {
  const lengths = Object.entries(size).flatMap(([name, mm]) =>
    typeof mm === "number" ? [[name, Number(convertLength(mm, "mm", "cm").toFixed(1))] as const] : [],
  );
  return { shape: size.shape, ...Object.fromEntries(lengths) };
}

/** What is sewn, or edged without a count. */
export interface FinishingYarn {
  /** `17 seams between 12 pieces of Square`. */
  readonly what: string;
  /** With the margin, one a size; null where nothing tells how long it is. */
  readonly metres: readonly (Estimate | null)[];
}

/** Materials and measures of a pattern, as plain data. */
export interface Materials {
  readonly sizes: readonly string[];
  readonly options: MeasureOptions;
  /** What the yarn per stitch is worked out from; null where the pattern gives nothing. */
  readonly basis: { readonly sort: Basis["sort"]; readonly says: string } | null;
  readonly yarns: readonly YarnOfPattern[];
  /** Comes on top of the yarns, since nothing tells in which of them it is worked. */
  readonly finishing: readonly FinishingYarn[];
  readonly pieces: readonly PieceMeasures[];
  /** Of all pieces, as often as they are made, one a size. Sewing and finishing are not in it. */
  readonly minutes: readonly number[];
  /** Rows that are in no figure, since nothing tells their stitches. */
  readonly leftOut: readonly string[];
  /** What was left aside, taken for granted, or is missing, in whole sentences. */
  readonly notes: readonly string[];
}

/** Works out everything for a pattern. */
export function materialsOf(pattern: WorkedPattern, options: MeasureOptions): Materials {
  const use = yarnUseOf(pattern);
  const { sizes } = pattern.context;
  const pieces = pattern.pieces.map((piece) => pieceMeasures(piece, pattern, options));
  const { basis } = use.ground;
  return {
    sizes,
    options,
    basis: basis && { sort: basis.sort, says: basis.says },
    yarns: basis ? yarnsOf(use, basis, options) : [],
    finishing: basis ? finishingOf(pattern, use, basis, options) : [],
    pieces,
    minutes: sizes.map((_, size) =>
      rounded(
        pieces.reduce((sum, { minutes, make }) => sum + (minutes[size] ?? 0) * make, 0),
        2,
      ),
    ),
    leftOut: leftOutOf(pattern, use),
    notes: notesOf(pattern, use),
  };
}

/** Of one piece, made once. */
export function pieceMeasures(
  piece: WorkedPiece,
  pattern: WorkedPattern,
  { stitchesPerMinute }: MeasureOptions,
): PieceMeasures {
  const use = yarnUseOf(pattern);
  const { basis, paths } = use.ground;
  const sums = use.ofPiece(piece);
  const sizes = piece.context.sizes.map((_, size) => (basis ? sizeOf(piece, size, basis, paths) : null));
  const openings = (size: number): string =>
    basis ? openingsOf(roundsOf(piece, size, basis, paths), basis) : "";
  return {
    name: piece.piece.name,
    make: timesMade(piece, pattern),
    sizes: sizes.map((size, at) => size && `${sizeInWords(size)}${asLaid(piece)}${openings(at)}`),
    lengths: sizes.map((size) => size && lengthsIn(size)),
    metres: sums.map((sum) => (basis ? estimateOf(sumOf(sum) / 1000, basis) : null)),
    minutes: sums.map((_, size) =>
      rounded(
        piece.rows.reduce(
          (sum, row) => sum + (minutesOf(row, stitchesPerMinute, use.timesOf(row, piece))[size] ?? 0),
          0,
        ),
        2,
      ),
    ),
  };
}

function openingsOf(rounds: readonly RoundOfPiece[] | null, basis: Basis): string {
  return (rounds ?? [])
    .flatMap((round) => {
      const words = openingsInWords(round, basis);
      return words === null ? [] : [say`; openings in ${round.row.line.headText}: ${words}`];
    })
    .join("");
}

/** What no count tells: how far waves draw a piece in, and open work stretches. */
function asLaid(piece: WorkedPiece): string {
  const why = drawnIn(piece);
  if (why === null) return "";
  return why === "waves"
    ? say`, before its waves draw it in`
    : say`, as its stitches lie; open work stretches`;
}

function yarnsOf(use: YarnUse, basis: Basis, { marginPercent }: MeasureOptions): YarnOfPattern[] {
  const keys = [...new Set(use.inAll.flatMap((sums) => [...sums.keys()]))].sort(byList);
  const margin = 1 + marginPercent / 100;
  return keys.map((key) => {
    const listed = typeof key === "number" ? use.ground.list.yarns[key] : undefined;
    return {
      name: listed?.name || (typeof key === "string" ? key : say`yarn`),
      // `coral / mint / cream`: pieces that are made in one of them each.
      isListed: listed?.yarn != null || (typeof key === "string" && key.includes(eachInOne)),
      label: listed?.label?.text ?? null,
      amounts: use.inAll.map((sums) => amountOf(((sums.get(key) ?? 0) / 1000) * margin, basis, listed)),
    };
  });
}

function finishingOf(
  pattern: WorkedPattern,
  { ground: { paths } }: YarnUse,
  basis: Basis,
  { marginPercent }: MeasureOptions,
): FinishingYarn[] {
  const margin = 1 + marginPercent / 100;
  const metres = (mm: number | null): Estimate | null =>
    mm === null
      ? null
      : estimateOf((mm / 1000) * margin, { spread: Math.max(basis.spread, spreadOfFinishing) });
  const edgings = edgingsOf(pattern, basis, paths)
    .filter(isMeasured)
    .map(({ row: { line }, stitches, yarn }) => ({
      what: say`${line.headText}, about ${told(stitches.map((n) => n && rounded(n, 2)))} sts evenly along the edge`,
      metres: yarn.map(metres),
    }));
  const seams = seamsOf(pattern, basis, paths).map(({ what, lengths }) => ({
    what,
    metres: lengths.map((length) => metres(length === null ? null : yarnOfSeam(length, basis))),
  }));
  return [...edgings, ...seams];
}

/** No seam or edge is known better: nothing counts their stitches. */
const spreadOfFinishing = 0.3;

function told(numbers: readonly (number | null)[]): string {
  const [first, ...rest] = numbers.map((n) => n ?? "–");
  return rest.length > 0 ? `${first} (${rest.join(", ")})` : String(first);
}

function byList(a: YarnKey, b: YarnKey): number {
  const place = (key: YarnKey) => (typeof key === "number" ? key : Number.MAX_SAFE_INTEGER);
  return place(a) - place(b);
}

/** An amount of yarn in metres, with all that follows from it. */
export function amountOf(metres: number, basis: Basis, yarn: ListedYarn | undefined): YarnAmount {
  const label = yarn?.label ?? null;
  return {
    metres: estimateOf(metres, basis),
    yards: estimateOf(convertLength(metres, "m", "yd"), basis),
    grams: gramsOf(metres, basis, yarn),
    balls: label && ballsOf(metres, basis, label.metres),
  };
}

/** By the label, or by the metres that 100 g of such a yarn usually have. */
export function gramsOf(metres: number, basis: Basis, yarn: ListedYarn | undefined): Estimate | null {
  const label = yarn?.label;
  if (label) return estimateOf((metres * label.grams) / label.metres, basis);
  const usual = basis.weight && usualMetres(basis.weight);
  if (!usual) return null;
  const grams = (of: number, per100: number) => rounded((of * 100) / per100, figuresOf({ spread: 1 }));
  const { low, high } = estimateOf(metres, basis);
  return {
    low: grams(low, usual.max),
    likely: grams(metres, (usual.min + usual.max) / 2),
    high: grams(high, usual.min),
  };
}

function ballsOf(metres: number, basis: Basis, each: number): Estimate {
  const balls = (of: number) => Math.max(Math.ceil(of / each - 1e-9), metres > 0 ? 1 : 0);
  const { spread } = basis;
  return { low: balls(metres * (1 - spread)), likely: balls(metres), high: balls(metres * (1 + spread)) };
}
