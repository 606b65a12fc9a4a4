import { pieceKey } from "../notation/piece-names";
import type { PatternContext } from "./context";
import { type Habits, noHabits, type OpenRows, settle } from "./habits";
import { type Meant, type State, stateKey } from "./outcome";
import type { Piece, RowLine } from "./pattern";
import { sameTalk } from "./piece-talk";
import type { Ends } from "./starting";
import type { WorkedPiece, WorkedRow } from "./worked";

/** What a piece found in the pieces before it: whether it would find the same there again. */
export type Dependence = (ends: Ends) => boolean;

/** A piece as it was worked, with all that this depended on and all that others may depend on. */
interface Run {
  readonly worked: WorkedPiece;
  readonly dependences: readonly Dependence[];
  /** The line that each row number stands for. */
  readonly lines: ReadonlyMap<number, RowLine>;
  /** What its numbered rows left. */
  readonly leaves: ReadonlyMap<number, State>;
  readonly end: Ends["last"];
  readonly open: OpenRows;
  /** What its rows show of the habits of the pattern. */
  readonly shows: readonly Meant[];
}

export class PieceRun {
  private settledBy: Habits = noHabits;
  private settled: WorkedPiece;

  constructor(private readonly run: Run) {
    this.settled = run.worked;
  }

  get shows(): readonly Meant[] {
    return this.run.shows;
  }

  /** Whether working the piece again would come to the same. */
  holdsFor({ name, rows, talk }: Piece, ends: Ends): boolean {
    const { name: ownName, rows: own, talk: ownTalk } = this.run.worked.piece;
    return (
      // A row that names a piece may name its own.
      name === ownName &&
      sameTalk(talk, ownTalk) &&
      rows.length === own.length &&
      rows.every(({ content }, i) => content === own[i]?.content) &&
      this.run.dependences.every((holds) => holds(ends))
    );
  }

  /** The same work where the piece stands now; tells later pieces what it leaves. */
  at(piece: Piece, ends: Ends, context: PatternContext): PieceRun {
    ends.last = this.run.end;
    if (this.run.end) {
      ends.last = { ...this.run.end, name: piece.name };
      ends.pieces.set(pieceKey(piece.name), this.run.end.state);
    }
    ends.lines.set(pieceKey(piece.name), this.run.lines);
    for (const [number, state] of this.run.leaves) ends.rows.set(number, state);
    const { worked } = this.run;
    if (worked.context === context && isAtSamePlace(piece, worked.piece)) return this;
    return new PieceRun({ ...this.run, worked: moved(worked, piece, context) });
  }

  /** The piece with what the habits of its pattern settle. */
  workedBy(habits: Habits): WorkedPiece {
    const { worked, open } = this.run;
    if (open.size > 0 && !sameHabits(habits, this.settledBy)) {
      const rows = worked.rows.map((row, i) => settle(row, open.get(i) ?? [], habits));
      [this.settledBy, this.settled] = [habits, { ...worked, rows, work: {} }];
    }
    return this.settled;
  }
}

function sameHabits(a: Habits, b: Habits): boolean {
  return a.size === b.size && [...a].every(([topic, means]) => b.get(topic) === means);
}

export function sameState(a: State | null, b: State | null): boolean {
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

function moved(worked: WorkedPiece, piece: Piece, context: PatternContext): WorkedPiece {
  const before = worked.piece.rows;
  const now = (line: RowLine | null, near: number): RowLine | null =>
    line === null ? null : (piece.rows[before[near] === line ? near : before.indexOf(line)] ?? line);
  const rows = worked.rows.map(
    (row, i): WorkedRow => ({
      ...row,
      line: piece.rows[i] ?? row.line,
      below: now(row.below, i - 1),
      after: now(row.after, i - 1),
    }),
  );
  const isSame = context === worked.context && movedTogether(worked.piece, piece);
  return { piece, rows, context, work: isSame ? worked.work : {} };
}

/** Whether nothing of a piece changed but where it stands. */
function movedTogether(before: Piece, now: Piece): boolean {
  const by = now.span.start - before.span.start;
  return (
    now.name === before.name &&
    now.make === before.make &&
    now.rows.every(({ start }, i) => start - by === before.rows[i]?.start)
  );
}
