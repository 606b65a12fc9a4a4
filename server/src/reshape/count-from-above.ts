import { isWorkedOnce } from "../fabric/rework";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { shift, type TextEdit } from "../text/span";
import { addressOf, type Following, follow, type RowAddress, type WorkedText } from "./follow";
import { nearestCounts } from "./nearest-counts";
import { rewriteToMake } from "./rewrite-row";
import type { Rewritten } from "./rewritten";
import { isRefusal, type Refusal, trialOf } from "./row-trial";

/** A row that comes to another count because a row above it, which sets the count, is written anew. */
export interface FromAbove {
  /** The row that is written anew; those between follow. */
  readonly setter: WorkedRow;
  readonly rewritten: Rewritten;
  /** What the row that was asked for makes then. */
  readonly makes: number;
  /** What becomes of the rows below the setter. */
  readonly following: Following;
}

/** Rows above looked at, and those of them that could be written anew and yet did not do. */
const lookedAtMost = 40;
const triedAtMost = 3;

/** A row that has no count of its own, since it goes on as the row below allows, is set from there. */
export function rewriteFromAbove(
  pattern: WorkedText,
  row: WorkedRow,
  piece: WorkedPiece,
  makes: number,
): FromAbove | Refusal {
  let tried = 0;
  for (const setter of settersOf(row, piece)) {
    const setting = new Setting(pattern, row, piece, setter);
    const found = setting.toMake(makes);
    if (found) return found;
    if (setting.wasChanged && ++tried === triedAtMost) break;
  }
  return { why: say`no row above it can be changed so that it makes ${makes}` };
}

/** The nearest counts on either side that a row comes to so, where what follows suits too. */
export function nearestFromAbove(
  pattern: WorkedText,
  row: WorkedRow,
  piece: WorkedPiece,
  from: number,
  suitsAll: (found: FromAbove) => boolean,
): NearestFromAbove {
  let tried = 0;
  for (const setter of settersOf(row, piece)) {
    const setting = new Setting(pattern, row, piece, setter);
    const found = setting.nearest(from, suitsAll);
    if (found.below || found.above) return found;
    if (setting.wasChanged && ++tried === triedAtMost) break;
  }
  return { below: null, above: null };
}

interface NearestFromAbove {
  readonly below: FromAbove | null;
  readonly above: FromAbove | null;
}

/** Why no count can be asked for of a row, however it is come to. */
export function whyNoCount({ result, reason, line, outcome }: WorkedRow, piece: WorkedPiece): Refusal | null {
  if (result === "unchecked") return { why: reason ?? say`it is not understood` };
  if (result === "ambiguous") return { why: say`it can be read in more than one way` };
  if (line.kind === "foundation" || outcome?.makes[0] == null)
    return { why: say`it is not worked on stitches` };
  return piece.context.sizes.length > 1
    ? { why: say`it is written for several sizes. Change its numbers in the grading sheet` }
    : null;
}

/** The rows above that can be written for another count, the nearest first. */
function settersOf(row: WorkedRow, piece: WorkedPiece): WorkedRow[] {
  const at = piece.rows.indexOf(row);
  const above = piece.rows.slice(Math.max(at - lookedAtMost, 0), Math.max(at, 0)).reverse();
  const canBe = (one: WorkedRow): boolean =>
    one.result === "ok" && isWorkedOnce(one) && !isRefusal(trialOf(one, piece));
  return above.filter(canBe);
}

/** One row set by another. */
class Setting {
  private readonly address: RowAddress | null;
  private readonly next: RowAddress | null;
  private readonly now: number;
  private readonly set: number;
  private readonly known = new Map<Rewritten, FromAbove | null>();

  constructor(
    private readonly pattern: WorkedText,
    row: WorkedRow,
    private readonly piece: WorkedPiece,
    private readonly setter: WorkedRow,
  ) {
    this.address = addressOf(pattern.pieces, row);
    const above = addressOf(pattern.pieces, setter);
    this.next = above && { ...above, row: above.row + 1 };
    this.now = row.outcome?.makes[0] ?? 0;
    this.set = setter.outcome?.makes[0] ?? 0;
  }

  /** Whether the setter could be written for any other count. */
  get wasChanged(): boolean {
    return this.known.size > 0;
  }

  toMake(makes: number): FromAbove | null {
    const guesses = [Math.round((makes * this.set) / this.now), this.set + makes - this.now];
    let other: FromAbove | null = null;
    for (const guess of guesses) {
      const found = this.at(guess);
      if (found?.makes === makes) return found;
      if (found?.makes !== this.now) other ??= found;
    }
    return this.inLine(makes, other);
  }

  nearest(from: number, suitsAll: (found: FromAbove) => boolean): NearestFromAbove {
    const around = Math.round((from * this.set) / this.now);
    const { below, above } = nearestCounts(this.setter, this.piece, around, (one) => {
      const found = this.fromAbove(one);
      return found !== null && found.makes !== from && suitsAll(found);
    });
    return { below: below && this.fromAbove(below), above: above && this.fromAbove(above) };
  }

  /** Two counts that can be had tell what one more at the setter does to the row: from that the one that is wanted. */
  private inLine(makes: number, known: FromAbove | null): FromAbove | null {
    const near = known ? null : this.nearest(this.now, () => true);
    const other = known ?? near?.above ?? near?.below ?? null;
    if (!other || other.makes === makes) return other;
    const each = (other.makes - this.now) / (other.rewritten.makes - this.set);
    const wanted = this.set + (makes - this.now) / each;
    const found = Number.isInteger(wanted) && wanted >= 1 ? this.at(wanted) : null;
    return found?.makes === makes ? found : null;
  }

  private at(count: number): FromAbove | null {
    if (count < 1 || count === this.set) return null;
    const found = rewriteToMake(this.setter, this.piece, count);
    return isRefusal(found) ? null : this.fromAbove(found);
  }

  /** Null where the row, or one between, cannot follow once the setter is written anew. */
  private fromAbove(rewritten: Rewritten): FromAbove | null {
    const known = this.known.get(rewritten);
    if (known !== undefined) return known;
    const found = this.followed(rewritten);
    this.known.set(rewritten, found);
    return found;
  }

  private followed(rewritten: Rewritten): FromAbove | null {
    const { pattern, next, address, setter } = this;
    if (!next || !address) return null;
    const edits = placedEdits(setter, rewritten);
    const following = follow(pattern, next, { edits, left: rewritten.after });
    const makes = following.makes[address.row - next.row] ?? null;
    return makes === null ? null : { setter, rewritten, makes, following };
  }
}

/** Changes of a row, in offsets of the whole text, together with those of its starting chain. */
export function placedEdits({ line, below }: WorkedRow, { edits, chainEdits }: Rewritten): TextEdit[] {
  const own = edits.map(({ span, newText }) => ({ span: shift(span, line.start), newText }));
  const chain = chainEdits.map(({ span, newText }) => ({ span: shift(span, below?.start ?? 0), newText }));
  return [...chain, ...own];
}
