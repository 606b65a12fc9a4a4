import type { PatternLine } from "../notation/lines";
import { Lately } from "../text/lately";
import type { PatternContext } from "./context";
import { consistent } from "./habits";
import type { RowPlan } from "./instructions";
import { type Outcome, outcomesOf, type RowSetting, type State, stateKey } from "./outcome";
import type { Block, Pattern, Piece, RowLine } from "./pattern";
import type { PieceRun } from "./piece-run";
import { PieceWorker } from "./piece-worker";
import { Ends } from "./starting";
import type { Versions } from "./versions";
import type { WrongList } from "./wrong-list";

export type Result = "ok" | "does-not-fit" | "wrong-count" | "ambiguous" | "unchecked";

/** What is plainly wrong with the words of a row: a rule of its own tells it, and no other does. */
export type Fault =
  | { readonly sort: "no-such-row"; readonly number: number; readonly piece: string | null }
  | { readonly sort: "not-closed" }
  /** A count, and between a chain and a join or a turn nothing that makes a stitch. */
  | { readonly sort: "nothing-worked" }
  /** A list has more or fewer numbers than there are sizes; `says` tells which. */
  | ({ readonly sort: "uneven-list" } & WrongList)
  /** Right only if its opening chain is what the pattern says it is not. Not sure: the row fits, and its count alone may be the slip. */
  | { readonly sort: "against-notes"; readonly chains: number; readonly isSure: boolean };

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
  /** Places that an unchecked row leaves by the count it states; null where nothing tells. */
  readonly handsOn: readonly (number | null)[] | null;
  /** How often it is worked, one number a size or one for all; null for an open range. */
  readonly times: readonly number[] | null;
  /** The row whose slip this one was written for, or repeats. */
  readonly after: RowLine | null;
  /** The row that left the places. */
  readonly below: RowLine | null;
  readonly assumptions: readonly string[];
  /** It was taken to go on from the end of the piece before. */
  readonly goesOn?: boolean;
  readonly fault: Fault | null;
  /** The places it found, and how it was worked on them: to work a mended row again. */
  readonly found: { readonly state: State; readonly plan: RowPlan; readonly setting: RowSetting } | null;
}

export interface WorkedPiece {
  readonly piece: Piece;
  readonly rows: readonly WorkedRow[];
  /** What its rows were read in: sizes, terms, definitions. */
  readonly context: PatternContext;
  /** The same object wherever the piece stands, as long as nothing else of it changes. */
  readonly work: object;
}

/** A whole pattern once its rows are worked. */
export interface WorkedPattern {
  readonly text: string;
  /** Every line, in order; `start` and `end` are offsets of `text`. */
  readonly lines: readonly PatternLine[];
  readonly context: PatternContext;
  readonly blocks: readonly Block[];
  /** One for each block that has a piece. */
  readonly pieces: readonly WorkedPiece[];
  /** Where copies with changes in them are worked, from what is known of this version on. */
  copies(): Versions;
}

/** Of one plan: a row behind an edit finds new places again and again, and those of before when it is taken back. */
const statesKept = 12;

/**
 * Works patterns piece by piece, one version after another. What it worked is kept, by what a row
 * says and finds; a piece that an edit left alone is taken over whole.
 */
export class Fabric {
  private runs: readonly PieceRun[] = [];
  private base = "";
  /** Rows worked afresh since the fabric was made. */
  rowsWorked = 0;

  constructor(
    /** By plan, then by the places found and the setting. */
    private readonly kept = new WeakMap<RowPlan, Lately<readonly Outcome[]>>(),
  ) {}

  work({ context, pieces }: Pattern): WorkedPiece[] {
    if (context.base !== this.base) this.runs = [];
    this.base = context.base;
    const ends = new Ends();
    const grown = pieces.length - this.runs.length;
    this.runs = pieces.map((piece, i) => {
      const run = [this.runs[i], this.runs[i - grown]].find((one) => one?.holdsFor(piece, ends));
      return (run ?? new PieceWorker(this, context, piece, ends).work()).at(piece, ends, context);
    });
    const habits = consistent(this.runs.flatMap(({ shows }) => shows));
    return this.runs.map((run) => run.workedBy(habits));
  }

  /** One that has worked what this one has, and goes on by itself. */
  apart(): Fabric {
    const other = new Fabric(this.kept);
    other.runs = this.runs;
    other.base = this.base;
    return other;
  }

  /** Every usual way to work a row on what it finds. */
  outcomes(plan: RowPlan, state: State, setting: RowSetting): readonly Outcome[] {
    const ofPlan = this.kept.get(plan) ?? new Lately<readonly Outcome[]>(statesKept);
    this.kept.set(plan, ofPlan);
    const key = `${setting.flat ? "f" : "r"}${setting.turned ? "t" : ""} ${stateKey(state)}`;
    let found = ofPlan.get(key);
    if (!found) {
      this.rowsWorked++;
      found = outcomesOf(plan, state, setting);
      ofPlan.set(key, found);
    }
    return found;
  }
}
