import type { RowPlan } from "./instructions";
import { type State, stateKey } from "./outcome";
import type { Piece, RowLine } from "./pattern";
import { type Ends, startState } from "./starting";
import type { WorkedPiece, WorkedRow } from "./worked";

/** A row that does not go on from the row above it, and what it was worked on. */
export interface FreshStart {
  readonly plan: RowPlan;
  readonly line: RowLine;
  readonly isFirst: boolean;
  readonly state: State | null;
}

/** A piece as it was worked, with all that this depended on and all that others may depend on. */
export class PieceRun {
  constructor(
    readonly worked: WorkedPiece,
    private readonly starts: readonly FreshStart[],
    private readonly leaves: ReadonlyMap<number, State>,
    private readonly end: Ends["last"],
  ) {}

  /** Whether working the piece again would come to the same. */
  holdsFor({ rows }: Piece, ends: Ends): boolean {
    const own = this.worked.piece.rows;
    const sizes = this.worked.context.sizes.length;
    return (
      rows.length === own.length &&
      rows.every(({ content }, i) => content === own[i]?.content) &&
      this.starts.every(({ plan, line, isFirst, state }) =>
        sameState(state, startState(plan, line, isFirst, sizes, ends)),
      )
    );
  }

  /** The same work where the piece stands now; tells later pieces what it leaves. */
  at(piece: Piece, ends: Ends): PieceRun {
    ends.last = this.end;
    if (this.end) ends.pieces.set(piece.name.toLowerCase(), this.end.state);
    for (const [number, state] of this.leaves) ends.rows.set(number, state);
    if (isAtSamePlace(piece, this.worked.piece)) return this;
    return new PieceRun(moved(this.worked, piece), this.starts, this.leaves, this.end);
  }
}

function sameState(a: State | null, b: State | null): boolean {
  return a === b || (a !== null && b !== null && stateKey(a) === stateKey(b));
}

function isAtSamePlace(now: Piece, before: Piece): boolean {
  return (
    now === before ||
    (now.name === before.name &&
      now.make === before.make &&
      now.span.start === before.span.start &&
      now.rows.every(({ start }, i) => start === before.rows[i]?.start))
  );
}

function moved(worked: WorkedPiece, piece: Piece): WorkedPiece {
  const now = new Map(worked.piece.rows.map((row, i) => [row, piece.rows[i] ?? row]));
  const lineNow = (line: RowLine | null): RowLine | null => (line === null ? null : (now.get(line) ?? line));
  const rows = worked.rows.map(
    (row): WorkedRow => ({
      ...row,
      line: now.get(row.line) ?? row.line,
      below: lineNow(row.below),
      after: lineNow(row.after),
    }),
  );
  return { ...worked, piece, rows };
}
