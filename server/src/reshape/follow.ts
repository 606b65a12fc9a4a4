import type { State } from "../fabric/outcome";
import { isWorkedOnce } from "../fabric/rework";
import { countPlaces } from "../fabric/strip";
import type { WorkedPattern, WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { shift, type TextEdit, withEdits } from "../text/span";
import { hasRepeat } from "./by-numbers";
import { rewriteOn } from "./rewrite-row";
import type { Rewritten } from "./rewritten";
import { countEdits, isRefusal, type Refusal } from "./row-trial";
import { rewriteInProportion } from "./scaled-row";

/** What becomes of one row below a row that changed. */
export interface Followed {
  /** As it was before anything changed. */
  readonly row: WorkedRow;
  /** `count`: only its count changes; `numbers`: numbers in it; `spaced`: its groups. */
  readonly how: Rewritten["how"];
  /** In offsets of the text before anything changed. */
  readonly edits: readonly TextEdit[];
  readonly makes: number | null;
}

export interface Following {
  /** The rows that have to change, in order; rows that still fit as they are written are not among them. */
  readonly changed: readonly Followed[];
  readonly asWritten: number;
  /** What the rows of the piece make then, from the first that was looked at on. */
  readonly makes: readonly (number | null)[];
  /** The row that cannot follow: those below it are not looked at. */
  readonly stopped: (Refusal & { readonly row: WorkedRow }) | null;
}

/** Where a row is: its piece and its place in it, which no change of a row's text alters. */
export interface RowAddress {
  readonly piece: number;
  readonly row: number;
}

export function addressOf(pieces: readonly WorkedPiece[], row: WorkedRow): RowAddress | null {
  const piece = pieces.findIndex(({ rows }) => rows.includes(row));
  const at = pieces[piece]?.rows.indexOf(row) ?? -1;
  return at < 0 ? null : { piece, row: at };
}

/** A pattern as far as its rows are needed. */
export type WorkedText = Pick<WorkedPattern, "text" | "pieces" | "copies">;

/** Rows that were changed already, and what the row above the first that follows leaves then, where that is known. */
export interface Changes {
  readonly edits: readonly TextEdit[];
  readonly left?: State;
}

/**
 * What the rows from one on have to become after changes of rows above them, and rows of other pieces that are
 * worked on theirs, or as they are. Each is read and worked again where it stands, with all that was changed before it.
 */
export function follow(pattern: WorkedText, from: RowAddress, first: Changes): Following {
  const own = inPiece(pattern, from, first);
  return own.stopped ? own : inOtherPieces(pattern, from.piece, first.edits, own);
}

/** The same of one piece alone. */
export function followInPiece(pattern: WorkedText, from: RowAddress): Following {
  return inPiece(pattern, from, { edits: [] });
}

function inPiece(pattern: WorkedText, from: RowAddress, first: Changes): Following {
  const quick = new Desk(pattern, from, first, "by-rows");
  const following = followOn(quick, from.row);
  return quick.isRight(from.row, following)
    ? following
    : followOn(new Desk(pattern, from, first, "by-piece"), from.row);
}

/** Legs that a body is joined from, and rounds that are worked as those of another piece. */
function inOtherPieces(
  pattern: WorkedText,
  piece: number,
  first: readonly TextEdit[],
  own: Following,
): Following {
  let all = own;
  for (let other = 0; pattern.pieces.length > 1 && other < pattern.pieces.length; other++) {
    const edits = [...first, ...all.changed.flatMap((one) => one.edits)];
    const row = other === piece ? -1 : firstWrong(pattern, other, edits);
    if (row < 0) continue;
    const { changed, asWritten, stopped } = inPiece(pattern, { piece: other, row }, { edits });
    const both = [...all.changed, ...changed];
    all = { ...all, changed: both, asWritten: all.asWritten + asWritten, stopped };
    if (stopped) return all;
  }
  return all;
}

function firstWrong(pattern: WorkedText, piece: number, edits: readonly TextEdit[]): number {
  const before = pattern.pieces[piece];
  const now = workedWith(pattern, edits)[piece];
  if (!before || !now || now.work === before.work || now.rows.length !== before.rows.length) return -1;
  return now.rows.findIndex(({ result }, i) => result !== "ok" && before.rows[i]?.result === "ok");
}

/** The pieces of a pattern with changes in it. */
export function workedWith({ text, copies }: WorkedText, edits: readonly TextEdit[]): readonly WorkedPiece[] {
  return copies().work(withEdits(text, edits)).pieces;
}

function followOn(desk: Desk, from: number): Following {
  const changed: Followed[] = [];
  const makes: (number | null)[] = [];
  let asWritten = 0;
  for (let i = from; i < desk.length; i++) {
    const done = desk.follow(i);
    if ("why" in done) return { changed, asWritten, makes, stopped: { ...done, row: desk.before(i) } };
    makes.push(done.makes);
    if (done.edits.length === 0) asWritten++;
    else changed.push(done);
  }
  return { changed, asWritten, makes, stopped: null };
}

/**
 * A text that is changed row after row. The whole piece is worked again after each change, or, `by-rows`, only where
 * a row stands for others: else a row is tried on what the row before it left.
 */
class Desk {
  private readonly piece: number;
  private readonly original: WorkedPiece | undefined;
  private edits: readonly TextEdit[];
  private now: WorkedPiece | undefined;
  /** What the row before leaves; null where the piece has to be worked to know. */
  private left: State | null;
  private isStale = true;
  /** By how much the openings of a row are wider now: what is worked into them is, too. */
  private wider: number | null = null;

  constructor(
    private readonly pattern: WorkedText,
    from: RowAddress,
    first: Changes,
    private readonly way: "by-rows" | "by-piece",
  ) {
    this.piece = from.piece;
    this.original = pattern.pieces[from.piece];
    this.edits = first.edits;
    this.left = first.left ?? this.leftBy(from.row - 1);
    if (way === "by-piece") this.catchUp();
  }

  /** None where the changes made other lines rows. */
  get length(): number {
    const many = this.original?.rows.length ?? 0;
    return this.isStale || this.now?.rows.length === many ? many : 0;
  }

  before(i: number): WorkedRow {
    return this.original?.rows[i] as WorkedRow;
  }

  /** Whether all rows that were followed come out right where they stand. */
  isRight(from: number, { stopped }: Following): boolean {
    this.catchUp();
    const to = stopped ? this.original?.rows.indexOf(stopped.row) : undefined;
    const rows = this.now?.rows ?? [];
    return (
      rows.length === this.original?.rows.length &&
      rows.slice(from, to).every(({ result }) => result === "ok")
    );
  }

  /** A row that stays as it is written has no edits. */
  follow(i: number): Followed | Refusal {
    const quick = this.quickly(i);
    if (quick) return quick;
    this.catchUp();
    const done = this.inPiece(i);
    this.left = this.now?.rows[i]?.outcome?.leaves.state ?? null;
    return done;
  }

  private leftBy(i: number): State | null {
    this.catchUp();
    const row = this.now?.rows[i];
    return row?.result === "ok" ? (row.outcome?.leaves.state ?? null) : null;
  }

  private catchUp(): void {
    if (this.isStale) this.now = this.worked(this.edits);
    this.isStale = false;
  }

  private quickly(i: number): Followed | null {
    const row = this.before(i);
    const isPlain = row.result === "ok" && row.line.kind === "row" && isWorkedOnce(row);
    if (this.way === "by-piece" || !this.left || !this.original || !isPlain) return null;
    const found = this.onPlaces(row, this.left);
    if (isRefusal(found)) return null;
    this.left = found.after;
    const edits = this.placed(i, found.edits);
    this.edits = [...this.edits, ...edits];
    this.isStale ||= edits.length > 0;
    return { row, how: found.how, edits, makes: found.makes };
  }

  private inPiece(i: number): Followed | Refusal {
    const [row, piece] = [this.now?.rows[i], this.now];
    if (!row || !piece) return { why: say`it is gone` };
    const before = this.before(i);
    if (row.result === "ok" || row.line.kind === "foundation")
      return { row: before, how: "count", edits: [], makes: row.outcome?.makes[0] ?? null };
    const changes = [countOnly(row, piece), this.onItsPlaces(before, row), ...countsTold(before, row)];
    for (const change of changes) {
      const done = isRefusal(change) ? null : this.keep(i, change);
      if (done) return done;
    }
    if (row.result === "unchecked") return { why: row.reason ?? say`it is not understood` };
    const [, refused] = changes;
    return refused && isRefusal(refused) ? refused : { why: say`it does not come out right` };
  }

  /** As the row was understood when it was right, on what it finds now. */
  private onItsPlaces(before: WorkedRow, { found }: WorkedRow): Change | Refusal {
    return found ? this.onPlaces(before, found.state) : { why: say`it is not worked on stitches` };
  }

  /** In its own way; a row with openings gets them by so many times as wide as there are more stitches. */
  private onPlaces(row: WorkedRow, on: State): Rewritten | Refusal {
    if (!this.original) return { why: say`it is gone` };
    const found = rewriteOn(row, this.original, on);
    if (!isRefusal(found) || hasRepeat(row)) return found;
    const by = this.wider ?? countPlaces(on[0]?.strip ?? []) / (row.outcome?.has[0] ?? 1);
    const scaled = rewriteInProportion(row, this.original, on, by);
    if (scaled) this.wider = by;
    return scaled ?? found;
  }

  /** The change, if the row is right with it where it stands. */
  private keep(i: number, { edits: own, how }: Change): Followed | null {
    const edits = this.placed(i, own);
    const all = [...this.edits, ...edits];
    const piece = this.worked(all);
    const row = piece?.rows[i];
    if (row?.result !== "ok") return null;
    this.edits = all;
    this.now = piece;
    return { row: this.before(i), how, edits, makes: row.outcome?.makes[0] ?? null };
  }

  private placed(i: number, edits: readonly TextEdit[]): TextEdit[] {
    const { start } = this.before(i).line;
    return edits.map(({ span, newText }) => ({ span: shift(span, start), newText }));
  }

  private worked(edits: readonly TextEdit[]): WorkedPiece | undefined {
    return workedWith(this.pattern, edits)[this.piece];
  }
}

type Change = Pick<Rewritten, "edits" | "how">;

function countOnly({ result, outcome, line }: WorkedRow, { context }: WorkedPiece): Change | Refusal {
  const edits = result === "wrong-count" && outcome ? countEdits(context, line.plan, outcome) : [];
  return edits.length > 0 ? { edits, how: "count" } : { why: say`its count is right` };
}

/** The counts that a line may have which tells its rows by what they do to the count alone: `Work even. (24)`. */
function countsTold({ line, outcome }: WorkedRow, { has: now }: WorkedRow): Change[] {
  const [has, makes, places] = [outcome?.has[0], outcome?.makes[0], now?.[0]];
  const typed = [...line.text.matchAll(/\d+/g)].filter(([digits]) => Number(digits) === makes);
  const [only] = typed;
  if (!has || !makes || !places || typed.length !== 1 || !only) return [];
  const span = { start: only.index, end: only.index + only[0].length };
  const counts = [makes + places - has, (makes * places) / has];
  return counts
    .filter((n) => Number.isInteger(n) && n >= 1)
    .map((n) => ({ how: "count", edits: [{ span, newText: `${n}` }] }));
}
