import { PatternReader } from "../fabric/pattern";
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
  const desk = new Desk(text, from.piece, first);
  const changed: Followed[] = [];
  let asWritten = 0;
  for (let i = from.row; i < desk.length; i++) {
    const done = desk.follow(i);
    if (done === "as-written") asWritten++;
    else if ("why" in done) return { changed, asWritten, stopped: { ...done, row: desk.before(i) } };
    else changed.push(done);
  }
  return { changed, asWritten, stopped: null };
}

/** A text that is changed row after row, and worked again each time. */
class Desk {
  private readonly reader = new PatternReader();
  private readonly fabric = new Fabric();
  private readonly original: WorkedPiece | undefined;
  private edits: readonly TextEdit[];
  private now: WorkedPiece | undefined;

  constructor(
    private readonly text: string,
    private readonly piece: number,
    first: readonly TextEdit[],
  ) {
    this.original = this.worked([]);
    this.edits = first;
    this.now = this.worked(first);
  }

  get length(): number {
    return this.now?.rows.length === this.original?.rows.length ? (this.now?.rows.length ?? 0) : 0;
  }

  before(i: number): WorkedRow {
    return this.original?.rows[i] as WorkedRow;
  }

  follow(i: number): Followed | Refusal | "as-written" {
    const [row, piece] = [this.now?.rows[i], this.now];
    if (!row || !piece) return { why: "it is gone" };
    if (row.result === "ok" || row.line.kind === "foundation") return "as-written";
    if (row.result === "unchecked") return { why: row.reason ?? "it is not understood" };
    for (const change of [countOnly(row, piece), onItsPlaces(row, piece)]) {
      if (isRefusal(change)) continue;
      const done = this.keep(i, change);
      if (done) return done;
    }
    const refused = onItsPlaces(row, piece);
    return isRefusal(refused) ? refused : { why: "it does not come out right" };
  }

  /** The change, if the row is right with it where it stands. */
  private keep(i: number, { edits: own, how }: Change): Followed | null {
    const edits = own.map(({ span, newText }) => ({ span: shift(span, this.before(i).line.start), newText }));
    const all = [...this.edits, ...edits];
    const piece = this.worked(all);
    const row = piece?.rows[i];
    if (row?.result !== "ok") return null;
    this.edits = all;
    this.now = piece;
    return { row: this.before(i), how, edits, makes: row.outcome?.makes[0] ?? null };
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
