import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import type { Basis } from "./basis";
import { yarnPerStitch } from "./basis";
import { type PieceSize, sizeOf } from "./size";
import { stitchesOf } from "./stitch-counts";
import type { StitchPaths } from "./stitch-paths";

/** A round that is worked evenly along an edge, without a count: its stitches and yarn by the length of the edge. */
export interface Edging {
  readonly row: WorkedRow;
  readonly stitches: readonly (number | null)[];
  /** Millimetres, one number a size; null where nothing tells how long the edge is. */
  readonly yarn: readonly (number | null)[];
}

/** Whether anything tells how long its edge is. */
export function isMeasured({ yarn }: Edging): boolean {
  return yarn.some((length) => length !== null);
}

/** Edges that are a part of the outline only. */
const partly = /\b(?:neck|arm|sleeve|cuff|front|band|hem|brim|pocket|one|top|bottom|side)/i;
const allAround =
  /\bevenly\s+(?:around|along|about)\b|\baround\s+(?:the\s+)?(?:whole|entire|outer|all|outside)\b/i;

/** The edgings of a pattern that no count tells. */
export function edgingsOf(pattern: WorkedPattern, basis: Basis, paths: StitchPaths): Edging[] {
  return pattern.pieces.flatMap((piece) => {
    const first = piece.rows.findIndex((row) => isUnknown(row) && allAround.test(row.line.text));
    if (first < 0 || partly.test(`${piece.piece.name} ${piece.rows[first]?.line.text}`)) return [];
    const edges = pattern.context.sizes.map((_, size) =>
      edgeBefore(piece, first, size, pattern, basis, paths),
    );
    return piece.rows
      .slice(first)
      .filter(isUnknown)
      .map((row) => edgingOf(row, edges, basis, paths));
  });
}

function isUnknown(row: WorkedRow): boolean {
  return row.line.kind !== "foundation" && stitchesOf(row).length === 0;
}

function edgingOf(
  row: WorkedRow,
  edges: readonly (number | null)[],
  basis: Basis,
  paths: StitchPaths,
): Edging {
  const [, word = "sc"] = /\b(sc|hdc|htr|dc|tr|dtr)\b/i.exec(row.line.text) ?? [];
  const each = yarnPerStitch(paths.of(word.toLowerCase()), basis);
  const stitches = edges.map((edge) => (edge === null ? null : Math.round(edge / basis.size.width)));
  return { row, stitches, yarn: stitches.map((n) => (n === null ? null : n * each)) };
}

/** The outline of what is worked so far in the piece; else of the largest piece before it. */
function edgeBefore(
  piece: WorkedPiece,
  first: number,
  size: number,
  { pieces }: WorkedPattern,
  basis: Basis,
  paths: StitchPaths,
): number | null {
  const own = piece.rows.slice(0, first);
  const before = pieces.slice(0, pieces.indexOf(piece));
  const all = own.length > 0 ? [{ ...piece, rows: own }] : before;
  const outlines = all.flatMap((one) => {
    const lies = sizeOf(one, size, basis, paths);
    return lies ? [outlineOf(lies)] : [];
  });
  return outlines.length > 0 ? Math.max(...outlines) : null;
}

function outlineOf(size: PieceSize): number {
  switch (size.shape) {
    case "flat":
      return 2 * (size.width + size.height);
    case "half disc":
      return size.width * (1 + Math.PI / 2);
    case "half square":
      return size.width * (1 + Math.SQRT2);
    case "cup":
    case "ball":
    case "tube":
      return size.opening;
    default:
      return size.around;
  }
}
