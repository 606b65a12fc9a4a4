import type { State } from "../../fabric/outcome";
import { isRight, reworking } from "../../fabric/rework";
import { countPlaces } from "../../fabric/strip";
import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { rewriteOn, rewriteOnToMake } from "../rewrite-row";
import type { Rewritten } from "../rewritten";
import { isRefusal, type Refusal } from "../row-trial";
import { rewriteInProportion } from "../scaled-row";
import { type DraftRow, isNew } from "./draft";
import { rowsOf } from "./silhouette";

/** How many increases a row gets on other places: as it goes on by itself, or as many as it has. */
export type Increases = "as-places-allow" | "as-many";

/**
 * The rows of a draft, each on what the row before it leaves, as the row was understood when the piece was right.
 * A row with openings gets them by so many times as wide. Rows that stand for others are left for when the whole
 * piece is worked.
 */
export function inLine(
  draft: readonly DraftRow[],
  piece: WorkedPiece,
  by: number,
  increases: Increases,
): DraftRow[] {
  const lining = new Lining(piece, by, increases);
  return draft.map((one) => (one.state === "gone" ? one : lining.next(one)));
}

/** Goes down the rows with what the last one left. */
class Lining {
  private left: State | null = null;
  private isMoved = false;
  /** The row before has openings that are wider now. */
  private hasOpenings = false;

  constructor(
    private readonly piece: WorkedPiece,
    private readonly by: number,
    private readonly increases: Increases,
  ) {}

  next(one: DraftRow): DraftRow {
    this.isMoved ||= isNew(one) || one.body !== one.row.line.text;
    const found = this.isMoved && this.left && one.state === "kept" ? this.onPlaces(one, this.left) : null;
    const done = found ? { ...one, body: found.text } : one;
    this.left = this.isMoved ? this.leftBy(done) : (one.row.outcome?.leaves.state ?? this.left);
    return done;
  }

  /** Null for a row that stands for others, or cannot follow. */
  private onPlaces({ row }: DraftRow, left: State): Rewritten | null {
    if (changesAsItGoes(row)) return null;
    const spaced = this.spaced(row, left);
    const isSpaced = !isRefusal(spaced) && !this.hasOpenings;
    const scaled = isSpaced ? null : rewriteInProportion(row, this.piece, left, this.by);
    this.hasOpenings = scaled !== null;
    return scaled ?? (isRefusal(spaced) ? null : spaced);
  }

  private spaced(row: WorkedRow, left: State): Rewritten | Refusal {
    const { has, makes } = row.outcome ?? {};
    const adds = (makes?.[0] ?? 0) - (has?.[0] ?? 0);
    const to = countPlaces(left[0]?.strip ?? []) + adds;
    const asMany =
      this.increases === "as-many" && adds !== 0 ? rewriteOnToMake(row, this.piece, left, to) : null;
    return asMany && !isRefusal(asMany) ? asMany : rewriteOn(row, this.piece, left);
  }

  private leftBy({ row, body, after }: DraftRow): State | null {
    if (after) return after;
    const worked = reworking(row, this.piece.context)(body, this.left ?? undefined).find(isRight);
    return worked?.leaves.state ?? this.left;
  }
}

/** A line for several rows that make more stitches each, or fewer: only the whole piece tells what it comes to. */
function changesAsItGoes(row: WorkedRow): boolean {
  return rowsOf(row) > 1 && row.outcome?.makes[0] !== row.outcome?.has[0];
}
