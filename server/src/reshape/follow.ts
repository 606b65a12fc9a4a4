import type { State } from "../fabric/outcome";
import { PatternReader } from "../fabric/pattern";
import { isWorkedOnce } from "../fabric/rework";
import { Fabric, type WorkedPiece, type WorkedRow } from "../fabric/worked";
import { withoutAsMeant } from "../notation/as-meant";
import { shift, type TextEdit, withEdits } from "../text/span";
import { type Rewritten, rewriteOn } from "./rewrite-row";
import { countEdits, isRefusal, type Refusal } from "./row-trial";

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

/**
 * What the rows from one on have to become after `first` edits of rows above them. Each is read and worked again
 * where it stands, with all that was changed before it.
 */
export function follow(text: string, from: RowAddress, first: readonly TextEdit[]): Following {
  const quick = new Desk(text, from.piece, first, "by-rows", from.row);
  const following = followOn(quick, from.row);
  return quick.isRight(from.row, following)
    ? following
    : followOn(new Desk(text, from.piece, first, "by-piece", from.row), from.row);
}

function followOn(desk: Desk, from: number): Following {
  const changed: Followed[] = [];
  let asWritten = 0;
  for (let i = from; i < desk.length; i++) {
    const done = desk.follow(i);
    if (done === "as-written") asWritten++;
    else if ("why" in done) return { changed, asWritten, stopped: { ...done, row: desk.before(i) } };
    else changed.push(done);
  }
  return { changed, asWritten, stopped: null };
}

/**
 * A text that is changed row after row. The whole piece is worked again after each change, or, `by-rows`, only where
 * a row stands for others: else a row is tried on what the row before it left.
 */
class Desk {
  private readonly reader = new PatternReader();
  private readonly fabric = new Fabric();
  private readonly original: WorkedPiece | undefined;
  private edits: readonly TextEdit[];
  private now: WorkedPiece | undefined;
  /** What the row before leaves; null where the piece has to be worked to know. */
  private left: State | null = null;
  private isStale = false;

  constructor(
    private readonly text: string,
    private readonly piece: number,
    first: readonly TextEdit[],
    private readonly way: "by-rows" | "by-piece",
    from: number,
  ) {
    this.original = this.worked([]);
    this.edits = first;
    this.now = this.worked(first);
    const changed = this.now?.rows[from - 1];
    this.left = changed?.result === "ok" ? (changed.outcome?.after ?? null) : null;
  }

  get length(): number {
    return this.now?.rows.length === this.original?.rows.length ? (this.now?.rows.length ?? 0) : 0;
  }

  before(i: number): WorkedRow {
    return this.original?.rows[i] as WorkedRow;
  }

  /** Whether all rows that were followed come out right where they stand. */
  isRight(from: number, { stopped }: Following): boolean {
    this.catchUp();
    const to = stopped ? this.original?.rows.indexOf(stopped.row) : undefined;
    return this.now?.rows.slice(from, to).every(({ result }) => result === "ok") === true;
  }

  follow(i: number): Followed | Refusal | "as-written" {
    const quick = this.quickly(i);
    if (quick) return quick;
    this.catchUp();
    const done = this.inPiece(i);
    this.left = this.now?.rows[i]?.outcome?.after ?? null;
    return done;
  }

  private catchUp(): void {
    if (this.isStale) this.now = this.worked(this.edits);
    this.isStale = false;
  }

  private quickly(i: number): Followed | "as-written" | null {
    const row = this.before(i);
    const isPlain = row.result === "ok" && row.line.kind === "row" && isWorkedOnce(row);
    if (this.way === "by-piece" || !this.left || !this.original || !isPlain) return null;
    const found = rewriteOn(row, this.original, this.left);
    if (isRefusal(found)) return null;
    this.left = found.after;
    if (found.edits.length === 0) return "as-written";
    const edits = this.placed(i, found.edits);
    this.edits = [...this.edits, ...edits];
    this.isStale = true;
    return { row, how: found.how, edits, makes: found.makes };
  }

  private inPiece(i: number): Followed | Refusal | "as-written" {
    const [row, piece] = [this.now?.rows[i], this.now];
    if (!row || !piece) return { why: "it is gone" };
    if (row.result === "ok" || row.line.kind === "foundation") return "as-written";
    if (row.result === "unchecked") return { why: row.reason ?? "it is not understood" };
    const changes = [countOnly(row, piece), onItsPlaces(row, piece)] as const;
    for (const change of changes) {
      const done = isRefusal(change) ? null : this.keep(i, change);
      if (done) return done;
    }
    const [, refused] = changes;
    return isRefusal(refused) ? refused : { why: "it does not come out right" };
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
    return this.fabric.work(this.reader.read(withoutAsMeant(withEdits(this.text, edits))))[this.piece];
  }
}

type Change = Pick<Rewritten, "edits" | "how">;

function countOnly({ result, outcome, line }: WorkedRow, { context }: WorkedPiece): Change | Refusal {
  const edits = result === "wrong-count" && outcome ? countEdits(context, line.plan, outcome) : [];
  return edits.length > 0 ? { edits, how: "count" } : { why: "its count is right" };
}

function onItsPlaces(row: WorkedRow, piece: WorkedPiece): Change | Refusal {
  return row.found ? rewriteOn(row, piece, row.found.state) : { why: "it is not worked on stitches" };
}
