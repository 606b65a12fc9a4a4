import { pieceKey } from "../notation/piece-names";
import { say } from "../text/say";
import { RowsToCome } from "./apart-rows";
import { CopiedRows } from "./copied-rows";
import { copyOf } from "./copies";
import { noHabits, openRows, settle, shownBy } from "./habits";
import { type State, turnedOver } from "./outcome";
import { survivors } from "./paths";
import type { RowLine } from "./pattern";
import { PieceRun } from "./piece-run";
import { start } from "./row-judge";
import { withRest } from "./row-states";
import { foundationState } from "./starting";
import { countPlaces } from "./strip";
import { turnsLast } from "./turns";

/** Works the rows of one piece in order, along every way that is still open. */
export class PieceWorker extends CopiedRows {
  work(): PieceRun {
    const toCome = new RowsToCome(this.piece.rows);
    for (const [i, line] of this.piece.rows.entries())
      for (let row: RowLine | null = toCome.first(line); row; row = toCome.next(this.numberNow))
        this.row(row, i);
    const ways = survivors(this.history);
    const worked = toCome.byLine(
      this.done.map((row, i) => ({ row: settle(row, ways[i] ?? [], noHabits), ways: ways[i] ?? [] })),
    );
    const state = this.paths[0]?.state ?? null;
    const [rows, alive] = [worked.map(({ row }) => row), worked.map((one) => one.ways)];
    const { name, talk } = this.piece;
    const end = state && {
      state: this.turnedLast ? state.map((below) => below && turnedOver(below)) : this.wholeEdge(state),
      told: this.paths[0]?.stated ? null : (this.paths.find(({ stated }) => stated !== null)?.state ?? null),
      number: this.numberNow,
      freeSide: this.freeSide,
      name,
      fastened: talk.fastened,
      turned: this.turnedLast,
      carried: this.carried,
      rowEnds: this.rowEnds,
    };
    const run = {
      worked: { piece: this.piece, rows, context: this.context, work: {} },
      ...this.allLines,
      dependences: this.dependences,
      key: pieceKey(name),
      first: rows.find(({ line }) => line.kind !== "foundation")?.found?.state ?? null,
      leaves: this.leaves,
      readings: this.readAs,
      end,
      open: openRows(rows, alive),
      shows: shownBy(rows, alive),
    };
    return new PieceRun(run, this.piece, this.context);
  }

  /** `sc in next 4 sts, leave rem sts unworked` in a spiral: those left are still on the edge of the piece. */
  private wholeEdge(state: State): State {
    const steps = this.turning || !this.goesRound ? null : this.paths[0]?.outcome?.steps;
    return steps ? state.map((below, size) => below && withRest(below, steps[size]?.at(-1))) : state;
  }

  /** The number of the row that was worked last; 0 for one without. */
  private get numberNow(): number {
    const head = this.lastRow?.head;
    return Math.max(head?.from ?? 0, ...(head?.to ?? []).map((n) => n ?? 0));
  }

  private row(line: RowLine, i: number): void {
    if (line.kind === "foundation") return this.foundation(line, i);
    const copy = copyOf(line.content);
    this.copiedLast = null;
    this.copiedRows = [];
    if (!copy) this.number(line, [line]);
    if (copy) this.copied(line, copy);
    else if (line.plan === null)
      this.unchecked(line, say`it is longer or more deeply nested than any row can be`);
    else this.plain(line, line.plan);
    this.lastRow = line;
    if (!copy) this.plains.push(...Array<RowLine>(rowsIn(line.head)).fill(line));
    const last = this.copiedLast ?? line.plan;
    this.turnedLast = last !== null && turnsLast(last);
  }

  private foundation(line: RowLine, i: number): void {
    const next = this.piece.rows.slice(i + 1).find((row) => row.kind !== "foundation");
    const state = foundationState(line, next && this.standingFor(next), this.sizes);
    const chains = state.map(
      (below) => below?.chain ?? (below?.ring ? null : countPlaces(below?.strip ?? [])),
    );
    this.lastRow = line;
    const wrong = line.plan?.wrongList ?? null;
    const makes = chains.some((n) => n !== null) ? chains : null;
    this.finish(
      line,
      [{ ...start, state }],
      { result: wrong === null ? "ok" : "unchecked", reason: wrong?.says ?? null, makes },
      [],
    );
    if (wrong !== null) this.blame({ fault: { sort: "uneven-list", ...wrong } });
  }
}

/** Rows that a line stands for, as far as "the last rows" may go back. */
function rowsIn(head: RowLine["head"]): number {
  const from = head?.from ?? 1;
  const last = head?.to?.[0] ?? (head?.many?.[0] ?? 1) + from - 1;
  return Math.min(Math.max(last - from + 1, 1), 50);
}
