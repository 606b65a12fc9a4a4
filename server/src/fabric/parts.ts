import { type LineContent, readHeading } from "../notation/document";
import type { PatternLine } from "../notation/lines";
import { keptBy } from "../text/kept-by";
import type { Piece } from "./pattern";

/** What of a piece the reading of parts needs: rows may be worked or not. */
interface Placed<P> {
  readonly lines: readonly PatternLine[];
  readonly pieces: readonly P[];
}

/** A heading with all that stands below it, up to the next one. */
export interface Part<P> {
  /** Null for what stands before the first heading. */
  readonly heading: PatternLine | null;
  readonly name: string;
  /** Its rows, where it has any. */
  readonly piece: P | null;
  /** Whether it tells how the pieces are put together. */
  readonly assembles: boolean;
  /** Without the heading. */
  readonly lines: readonly PatternLine[];
}

const assembling =
  /^(?:final\s+)?(?:assembl|finish|(?:to\s+)?mak(?:e|ing)\s+up|put(?:ting)?\s+(?:it\s+|\w+\s+)?together|sewing|joining|construction|to\s+finish|completing)/i;

/** The parts of a pattern, in order. */
export function partsOf<P extends { readonly piece: Piece }>({ lines, pieces }: Placed<P>): Part<P>[] {
  const parts: Part<P>[] = [];
  const byStart = new Map(pieces.map((one) => [startOf(one.piece), one]));
  let from = 0;
  for (let i = 0; i <= lines.length; i++) {
    const line = lines[i];
    if (line !== undefined && line.kind !== "heading") continue;
    parts.push(partOf(lines.slice(from, i), byStart));
    from = i;
  }
  return parts;
}

/** A piece without a heading begins where the pattern does. */
function startOf({ name, span }: Piece): number {
  return name === "" ? -1 : span.start;
}

function partOf<P extends { readonly piece: Piece }>(
  lines: readonly PatternLine[],
  byStart: ReadonlyMap<number, P>,
): Part<P> {
  const [first] = lines;
  const heading = first?.kind === "heading" ? first : null;
  const name = heading ? nameOf(heading.content) : "";
  const piece = byStart.get(heading?.start ?? -1) ?? null;
  const assembles = piece === null && assembling.test(name);
  return { heading, name, piece, assembles, lines: heading ? lines.slice(1) : lines };
}

const nameOf = keptBy((heading: LineContent): string => readHeading(heading.text.trim()).name);
