import { partsOf } from "../fabric/parts";
import type { WorkedPattern, WorkedPiece } from "../fabric/worked";
import { type Mention, nameWords, PieceNames, type Sentence, sentencesOf } from "../notation/assembly";
import { readLengths } from "../notation/front-matter/lengths";
import { stretchAt } from "../notation/front-matter/stretch";
import { say } from "../text/say";
import { numberWords } from "../trade/number-words";
import { convertLength } from "../trade/units";
import type { Basis } from "./basis";
import { type PieceSize, sizeOf } from "./size";
import { slack } from "./stitch-path";
import type { StitchPaths } from "./stitch-paths";
import { tailIn } from "./yarn-in-hand";

/** Something that is sewn: how long its seams are together, in millimetres, one number a size; null where nothing tells. */
export interface Seam {
  /** `17 seams between the squares`. */
  readonly what: string;
  readonly lengths: readonly (number | null)[];
}

/** The seams that the prose of a pattern asks for; what is sewn with a tail of told length is not among them. */
export function seamsOf(pattern: WorkedPattern, basis: Basis, paths: StitchPaths): Seam[] {
  const sizes = pattern.context.sizes.map((_, size) => size);
  const pieces = pattern.pieces.map((piece) => ({
    piece,
    sizes: sizes.map((size) => sizeOf(piece, size, basis, paths)),
    hasTail: leavesTail(piece, pattern),
  }));
  const reader = new SeamReader(pieces, sizes, basis);
  const first = pattern.pieces[0]?.rows[0]?.line.span.start ?? 0;
  return pattern.lines
    .filter(({ start, kind }) => start > first && kind === "prose")
    .flatMap(({ content }) => sentencesOf(content))
    .filter(
      ({ text, deeds }) => deeds.some(({ does }) => does === "sew") && sewing.test(text) && !later.test(text),
    )
    .flatMap((sentence) => reader.seamsIn(sentence));
}

const sewing = /\b(?:sew|whip[\s-]?stitch|seam|stitch(?:ing)?\s+(?:the|them|it|both))/i;

/** `leaving a tail for sewing`. */
const later = /\b(?:for|to)\s+sew/i;

/** Yarn by the length of a seam: whipped, with one turn around both edges in each stitch. */
export function yarnOfSeam(length: number, { size: { width, thickness } }: Basis): number {
  return slack * length * (1 + (2 * Math.PI * thickness) / width);
}

function leavesTail({ piece }: WorkedPiece, pattern: WorkedPattern): boolean {
  const part = partsOf(pattern).find((one) => one.piece?.piece === piece);
  return part?.lines.some(({ text }) => tailIn(text) !== null) ?? false;
}

interface Sewn {
  readonly piece: WorkedPiece;
  readonly sizes: readonly (PieceSize | null)[];
  readonly hasTail: boolean;
}

class SeamReader {
  private readonly names: PieceNames<Sewn>;

  constructor(
    private readonly pieces: readonly Sewn[],
    private readonly sizes: readonly number[],
    private readonly basis: Basis,
  ) {
    this.names = new PieceNames(
      pieces
        .filter(({ piece }) => piece.piece.name !== "")
        .map((piece) => ({ piece, words: nameWords(piece.piece.piece.name) })),
    );
  }

  seamsIn(sentence: Sentence): Seam[] {
    const garment = this.garmentSeams(sentence.text);
    if (garment.length > 0) return garment;
    const motifs = this.motifSeam(sentence);
    if (motifs) return [motifs];
    const target =
      /\b(?:on ?to|to|around|over|between|across|at|in)\b/i.exec(sentence.text)?.index ?? Infinity;
    const sewn = this.names.mentionsIn(sentence).filter(({ start }) => start - sentence.start < target);
    return sewn.length > 0 ? sewn.flatMap((mention) => this.sewnOn(mention)) : [this.untold(sentence)];
  }

  private untold({ text }: Sentence): Seam {
    const what = text.trim().replace(/[.;]$/, "");
    return { what: what.length > 80 ? `${what.slice(0, 79)}…` : what, lengths: this.sizes.map(() => null) };
  }

  /** `Sew the side and sleeve seams`, `sew the shoulder seams over 18 (20, 22) sts`. */
  private garmentSeams(text: string): Seam[] {
    const [, names = ""] = seamNames.exec(text) ?? [];
    return [...names.matchAll(/\p{L}{4,}/gu)].map(([name]) => this.garmentSeam(name.toLowerCase(), text));
  }

  private garmentSeam(name: string, text: string): Seam {
    const what = say`${name} seams`;
    if (name === "shoulder") return { what, lengths: this.overStitches(text) };
    const panels = this.pieces.filter(({ piece: { piece } }) =>
      (/sleeve|underarm/.test(name) ? /sleeve/i : /front|back|body|panel/i).test(piece.name),
    );
    const open = /\bopen\b|\barmhole/i.test(text) ? lengthIn(text) : 0;
    return { what, lengths: this.sizes.map((size) => twice(lowest(panels, size), open)) };
  }

  private overStitches(text: string): (number | null)[] {
    const [, first, rest = ""] = /\b(\d+)\s*(?:\(([^)]*)\))?\s*sts?\b/i.exec(text) ?? [];
    const all = first === undefined ? [] : [first, ...rest.split(/[,\s]+/).filter(Boolean)].map(Number);
    return this.sizes.map((size) => {
      const n = all.length === 1 ? all[0] : all[size];
      return n === undefined || Number.isNaN(n) ? null : 2 * n * this.basis.size.width;
    });
  }

  /** `Lay out 4 rows of 3 squares and sew them together`. */
  private motifSeam({ text, start, ...rest }: Sentence): Seam | null {
    if (!/\btogether\b/i.test(text)) return null;
    const named = this.names.mentionsIn({ text, start, ...rest }).flatMap(({ pieces }) => pieces);
    const motif = [...named, ...this.pieces].find(
      ({ piece, sizes }) => piece.piece.make >= 4 && sizes.some((size) => size?.shape === "square"),
    );
    if (!motif) return null;
    const { make } = motif.piece.piece;
    const seams = seamsOfGrid(make, text);
    const lengths = this.sizes.map((size) => {
      const own = motif.sizes[size];
      return own?.shape === "square" ? seams * own.across : null;
    });
    return {
      what: say`${seams} seams between ${make} pieces of ${motif.piece.piece.name || say`the piece`}`,
      lengths,
    };
  }

  /** A piece is sewn on by its opening, or all around where it lies flat. */
  private sewnOn({ pieces, many }: Mention<Sewn>): Seam[] {
    return pieces.flatMap(({ piece, sizes, hasTail }) => {
      if (hasTail) return [];
      const { name, make } = piece.piece;
      const n = many?.n ?? make;
      const lengths = sizes.map((size) => (size === null ? null : n * edgeOf(size)));
      return [{ what: n > 1 ? say`${n} of ${name} sewn on` : say`${name} sewn on`, lengths }];
    });
  }
}

const seamName = "(?:side|shoulder|sleeve|underarm|back|centre|center)";
const seamNames = new RegExp(
  String.raw`\b(${seamName}(?:\s*(?:,|and|&|,\s*and)\s*${seamName})*)\s+seams?\b`,
  "i",
);

function edgeOf(size: PieceSize): number {
  switch (size.shape) {
    case "cup":
    case "tube":
      return size.opening;
    case "ball":
      return size.around / 3;
    case "flat":
      return size.lastEdge;
    case "half disc":
    case "half square":
      return size.width;
    default:
      return size.around;
  }
}

function seamsOfGrid(pieces: number, text: string): number {
  const [, a = "", b = ""] =
    /\b(\p{L}+|\d+)\s+(?:rows?|strips?|columns?)\s+of\s+(\p{L}+|\d+)\b/iu.exec(text) ??
    /\b(\d+)\s*(?:x|×|by)\s*(\d+)\b/i.exec(text) ??
    [];
  const [rows, columns] = [a, b].map((word) => numberWords.get(word.toLowerCase()) ?? Number(word));
  const told = rows !== undefined && columns !== undefined && rows * columns === pieces ? rows : null;
  const high = told ?? Math.max(1, Math.round(Math.sqrt(pieces)));
  return Math.round(2 * pieces - high - pieces / high);
}

function lowest(panels: readonly Sewn[], size: number): number | null {
  const heights = panels.flatMap(({ sizes }) => {
    const own = sizes[size];
    return own?.shape === "flat" ? [own.height] : [];
  });
  return heights.length > 0 ? Math.min(...heights) : null;
}

function twice(length: number | null, open: number): number | null {
  return length === null ? null : 2 * Math.max(length - open, 0);
}

function lengthIn(text: string): number {
  const [length] = readLengths(stretchAt(text, 0));
  const [value = 0] = length?.values ?? [];
  return length ? convertLength(value, length.unit, "mm") : 0;
}
