import type { PatternContext } from "./context";
import type { RowPlan } from "./instructions";
import { type Outcome, outcomesOf, type RowSetting, type State, stateKey } from "./outcome";
import type { Pattern, Piece, RowLine } from "./pattern";
import { PieceWorker } from "./piece-worker";

export type Result = "ok" | "does-not-fit" | "wrong-count" | "ambiguous" | "unchecked";

/** What is known of one row once its piece is worked. */
export interface WorkedRow {
  readonly line: RowLine;
  readonly result: Result;
  readonly outcome: Outcome | null;
  /** Of an ambiguous row: all ways to understand it that nothing ruled out. */
  readonly others: readonly Outcome[];
  /** Why it is unchecked. */
  readonly reason: string | null;
  /** Places and stitches known although the row is not checked. */
  readonly has: readonly (number | null)[] | null;
  readonly makes: readonly (number | null)[] | null;
  /** How often it is worked, one number a size or one for all; null for an open range. */
  readonly times: readonly number[] | null;
  /** The row whose slip this one was written for. */
  readonly after: RowLine | null;
  /** The row that left the places. */
  readonly below: RowLine | null;
  readonly assumptions: readonly string[];
  /** The places it found, and how it was worked on them: to work a mended row again. */
  readonly found: { readonly state: State; readonly plan: RowPlan; readonly setting: RowSetting } | null;
}

export interface WorkedPiece {
  readonly piece: Piece;
  readonly rows: readonly WorkedRow[];
  /** What its rows were read in: sizes, terms, definitions. */
  readonly context: PatternContext;
}

const keptAtMost = 20_000;

/** Works patterns piece by piece; keeps what it worked, by what a row says and finds. */
export class Fabric {
  private readonly kept = new Map<string, readonly Outcome[]>();
  private contextKey = "";
  /** Rows worked afresh since the fabric was made. */
  rowsWorked = 0;

  work(pattern: Pattern): WorkedPiece[] {
    if (pattern.context.key !== this.contextKey) this.kept.clear();
    this.contextKey = pattern.context.key;
    const ends = { pieces: new Map<string, State>(), rows: new Map<number, State>(), last: null };
    return pattern.pieces.map((piece) => new PieceWorker(this, pattern.context, piece, ends).work());
  }

  /** Every usual way to work a row on what it finds. `key` is equal for equal plans. */
  outcomes(plan: RowPlan, key: string, state: State, setting: RowSetting): readonly Outcome[] {
    const full = `${setting.flat ? "f" : "r"}${setting.turned ? "t" : ""}\n${key}\n${stateKey(state)}`;
    let found = this.kept.get(full);
    if (!found) {
      if (this.kept.size >= keptAtMost) this.kept.clear();
      this.rowsWorked++;
      found = outcomesOf(plan, state, setting);
      this.kept.set(full, found);
    }
    return found;
  }
}
