import type { PatternContext } from "./context";
import { type Habits, noHabits, type OpenRows, settle } from "./habits";
import { type Meant, type State, stateKey } from "./outcome";
import type { Piece, RowLine } from "./pattern";
import { sameTalk } from "./piece-talk";
import type { Ends, LeftByPiece } from "./starting";
import type { WorkedPiece, WorkedRow } from "./worked";

/** What a piece found in the pieces before it: whether it would find the same there again. */
export type Dependence = (ends: Ends) => boolean;

/** A piece as it was worked, with all that this depended on and all that others may depend on. */
interface Run extends LeftByPiece {
  readonly worked: WorkedPiece;
  readonly dependences: readonly Dependence[];
  readonly open: OpenRows;
  /** What its rows show of the habits of the pattern. */
  readonly shows: readonly Meant[];
}

export class PieceRun {
  /** What the habits of the pattern settle, wherever the piece stands. */
  private settled: { readonly by: Habits; readonly worked: WorkedPiece };
  private placed: WorkedPiece;

  constructor(
    private readonly run: Run,
    /** Where it stands now, and among what. */
    private readonly piece: Piece,
    private readonly context: PatternContext,
  ) {
    this.settled = { by: noHabits, worked: run.worked };
    this.placed = run.worked;
  }

  get shows(): readonly Meant[] {
    return this.run.shows;
  }

  /** Whether working the piece again would come to the same. */
  holdsFor(piece: Piece, ends: Ends): boolean {
    return saysTheSame(piece, this.piece) && this.run.dependences.every((holds) => holds(ends));
  }

  /** The same work where the piece stands now; tells later pieces what it leaves. */
  at(piece: Piece, ends: Ends, context: PatternContext): PieceRun {
    const { worked } = this.run;
    ends.add(this.run);
    if (!isMoved(piece, this.piece))
      return new PieceRun({ ...this.run, worked: rebased(worked, piece, context) }, piece, context);
    if (piece === this.piece && context === this.context) return this;
    const run = new PieceRun(this.run, piece, context);
    run.settled = this.settled;
    return run;
  }

  /** The piece with what the habits of its pattern settle. */
  workedBy(habits: Habits): WorkedPiece {
    const { open, worked } = this.run;
    if (open.size > 0 && !sameHabits(habits, this.settled.by)) {
      const rows = worked.rows.map((row, i) => settle(row, open.get(i) ?? [], habits));
      this.settled = { by: habits, worked: { ...worked, rows, work: {} } };
    }
    const settled = this.settled.worked;
    if (this.placed.work !== settled.work || !this.isHere(this.placed))
      this.placed = this.isHere(settled) ? settled : new MovedWork(settled, this.piece, this.context);
    return this.placed;
  }

  private isHere({ piece, context }: WorkedPiece): boolean {
    return piece === this.piece && context === this.context;
  }
}

/** A piece that an edit elsewhere left alone: its rows are made when somebody looks at them. */
class MovedWork implements WorkedPiece {
  readonly work: object;
  private moved: readonly WorkedRow[] | undefined;

  constructor(
    private readonly worked: WorkedPiece,
    readonly piece: Piece,
    readonly context: PatternContext,
  ) {
    this.work = worked.work;
  }

  get rows(): readonly WorkedRow[] {
    this.moved ??= rowsAt(this.worked, this.piece);
    return this.moved;
  }
}

function sameHabits(a: Habits, b: Habits): boolean {
  return a.size === b.size && [...a].every(([topic, means]) => b.get(topic) === means);
}

export function sameState(a: State | null, b: State | null): boolean {
  return a === b || (a !== null && b !== null && stateKey(a) === stateKey(b));
}

/** A row that names a piece may name its own. */
function saysTheSame(now: Piece, before: Piece): boolean {
  if (now.body === before.body) return true;
  const [rows, own] = [now.rows, before.rows];
  return (
    now.name === before.name &&
    sameTalk(now.talk, before.talk) &&
    rows.length === own.length &&
    rows.every(({ content }, i) => content === own[i]?.content)
  );
}

/** Whether nothing of a piece changed but where it stands. */
function isMoved(now: Piece, before: Piece): boolean {
  if (now.body === before.body) return true;
  const by = now.span.start - before.span.start;
  return now.make === before.make && now.rows.every(({ start }, i) => start - by === before.rows[i]?.start);
}

function rebased(worked: WorkedPiece, piece: Piece, context: PatternContext): WorkedPiece {
  return { piece, rows: rowsAt(worked, piece), context, work: {} };
}

function rowsAt(worked: WorkedPiece, piece: Piece): readonly WorkedRow[] {
  const before = worked.piece.rows;
  const now = (line: RowLine | null, near: number): RowLine | null =>
    line === null ? null : (piece.rows[before[near] === line ? near : before.indexOf(line)] ?? line);
  return worked.rows.map(
    (row, i): WorkedRow => ({
      ...row,
      line: piece.rows[i] ?? row.line,
      below: now(row.below, i - 1),
      after: now(row.after, i - 1),
    }),
  );
}
