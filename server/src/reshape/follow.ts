import type { State } from "../fabric/outcome";
import { isWorkedOnce } from "../fabric/rework";
import { countPlaces } from "../fabric/strip";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { shift, type TextEdit, withEdits } from "../text/span";
import { Copies } from "./copies";
import { hasRepeat, type Rewritten, rewriteOn } from "./rewrite-row";
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
 * What the rows from one on have to become after `first` edits of rows above them, and rows of other pieces that are
 * worked on theirs, or as they are. Each is read and worked again where it stands, with all that was changed before it.
 */
export function follow(
  text: string,
  from: RowAddress,
  first: readonly TextEdit[],
  copies: Copies = new Copies(),
): Following {
  const original = { text, before: copies.work(text), copies };
  const own = inPiece(original, from, first);
  return own.stopped ? own : inOtherPieces(original, from.piece, first, own);
}

/** The same of one piece alone. */
export function followInPiece(text: string, from: RowAddress, copies: Copies): Following {
  return inPiece({ text, before: copies.work(text), copies }, from, []);
}

/** A pattern as it was, with copies of it to be changed. */
interface Original {
  readonly text: string;
  readonly before: readonly WorkedPiece[];
  readonly copies: Copies;
}

function inPiece(original: Original, from: RowAddress, first: readonly TextEdit[]): Following {
  const quick = new Desk(original, from, first, "by-rows");
  const following = followOn(quick, from.row);
  return quick.isRight(from.row, following)
    ? following
    : followOn(new Desk(original, from, first, "by-piece"), from.row);
}

/** Legs that a body is joined from, and rounds that are worked as those of another piece. */
function inOtherPieces(
  original: Original,
  piece: number,
  first: readonly TextEdit[],
  own: Following,
): Following {
  let all = own;
  for (let other = 0; original.before.length > 1 && other < original.before.length; other++) {
    const edits = [...first, ...all.changed.flatMap((one) => one.edits)];
    const row = other === piece ? -1 : firstWrong(original, other, edits);
    if (row < 0) continue;
    const { changed, asWritten, stopped } = inPiece(original, { piece: other, row }, edits);
    all = { changed: [...all.changed, ...changed], asWritten: all.asWritten + asWritten, stopped };
    if (stopped) return all;
  }
  return all;
}

function firstWrong({ text, before, copies }: Original, piece: number, edits: readonly TextEdit[]): number {
  const now = copies.work(withEdits(text, edits))[piece]?.rows ?? [];
  const rows = before[piece]?.rows ?? [];
  return now.length === rows.length
    ? now.findIndex(({ result }, i) => result !== "ok" && rows[i]?.result === "ok")
    : -1;
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
  private readonly text: string;
  private readonly piece: number;
  private readonly copies: Copies;
  private readonly original: WorkedPiece | undefined;
  private edits: readonly TextEdit[];
  private now: WorkedPiece | undefined;
  /** What the row before leaves; null where the piece has to be worked to know. */
  private left: State | null = null;
  private isStale = false;
  /** By how much the openings of a row are wider now: what is worked into them is, too. */
  private wider: number | null = null;

  constructor(
    { text, before, copies }: Original,
    from: RowAddress,
    first: readonly TextEdit[],
    private readonly way: "by-rows" | "by-piece",
  ) {
    this.text = text;
    this.piece = from.piece;
    this.copies = copies;
    this.original = before[from.piece];
    this.edits = first;
    this.now = this.worked(first);
    const changed = this.now?.rows[from.row - 1];
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
    const found = this.onPlaces(row, this.left);
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
    const before = this.before(i);
    const changes = [countOnly(row, piece), this.onItsPlaces(before, row), ...countsTold(before, row)];
    for (const change of changes) {
      const done = isRefusal(change) ? null : this.keep(i, change);
      if (done) return done;
    }
    if (row.result === "unchecked") return { why: row.reason ?? "it is not understood" };
    const [, refused] = changes;
    return refused && isRefusal(refused) ? refused : { why: "it does not come out right" };
  }

  /** As the row was understood when it was right, on what it finds now. */
  private onItsPlaces(before: WorkedRow, { found }: WorkedRow): Change | Refusal {
    return found ? this.onPlaces(before, found.state) : { why: "it is not worked on stitches" };
  }

  /** In its own way; a row with openings gets them by so many times as wide as there are more stitches. */
  private onPlaces(row: WorkedRow, on: State): Rewritten | Refusal {
    if (!this.original) return { why: "it is gone" };
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
    return this.copies.work(withEdits(this.text, edits))[this.piece];
  }
}

type Change = Pick<Rewritten, "edits" | "how">;

function countOnly({ result, outcome, line }: WorkedRow, { context }: WorkedPiece): Change | Refusal {
  const edits = result === "wrong-count" && outcome ? countEdits(context, line.plan, outcome) : [];
  return edits.length > 0 ? { edits, how: "count" } : { why: "its count is right" };
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
