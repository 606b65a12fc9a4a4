import { readHeading } from "../headings";
import type { PatternLine } from "../lines";
import { partOf, type Stretch } from "./stretch";

/** A heading of a pattern that names a piece. */
export interface PieceHeading {
  readonly line: Stretch;
  readonly name: string;
  /** How often the piece is made; 1 where nothing is said. */
  readonly make: number;
}

/** Every heading, in order; also of pieces that have no rows. */
export function readPieces(lines: readonly PatternLine[]): PieceHeading[] {
  return lines
    .filter(({ kind }) => kind === "heading")
    .map((line) => ({ line: partOf(line, 0), ...readHeading(line.text.trim()) }));
}
