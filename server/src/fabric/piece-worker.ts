import { baseOf, pieceKey } from "../notation/piece-names";
import { keptBy } from "../text/kept-by";
import { RowsToCome } from "./apart-rows";
import type { Below } from "./below";
import { wrongList } from "./bind";
import { carriedChain, startHabit } from "./bind-start";
import type { PatternContext } from "./context";
import { type Copy, copyOf } from "./copies";
import { noHabits, openRows, settle, shownBy } from "./habits";
import { forSize, type Instruction, type RowPlan, takesIn, targetsOf } from "./instructions";
import { otherWay } from "./other-way";
import { type Outcome, plainState, type State, statedState, stateKey, turnedOver } from "./outcome";
import { type Candidate, nearestToRight, type Path, pathsFrom, survivors } from "./paths";
import type { Piece, RowLine } from "./pattern";
import { type Dependence, PieceRun, sameState } from "./piece-run";
import { rowsOfHead, type Schedule, type ScheduledRow, workSchedule } from "./schedule";
import { chainSide } from "./sources";
import { type Ends, foundationState, nothing, startState, withElsewhere } from "./starting";
import type { Steps } from "./steps";
import { countPlaces, plainStrip, runAt } from "./strip";
import { turnsFirst, turnsLast } from "./turns";
import { whyUnknown } from "./unknown-words";
import type { Fabric, Fault, WorkedRow } from "./worked";

const start: Path = { state: null, outcome: null, previous: null, cost: 0, stated: null };

/** Works the rows of one piece in order, along every way that is still open. */
export class PieceWorker {
  private readonly done: WorkedRow[] = [];
  private readonly history: (readonly Path[])[] = [];
  /** What the numbered rows of this piece left. */
  private readonly leaves = new Map<number, State>();
  private readonly dependences: Dependence[] = [];
  private paths: readonly Path[] = [start];
  /** The line whose instructions a row number stands for. */
  private readonly byNumber = new Map<number, RowLine>();
  private readonly sizes: number;
  private readonly turning: boolean;
  private readonly goesRound: boolean;
  /** The row before ended with the chain that opens this one. */
  private carried: RowPlan | null = null;
  private turnedLast = false;
  /** How rows were worked, for those that repeat them. */
  private readonly readAs = new Map<RowPlan, readonly string[]>();
  /** What the last of the rows said that a line stands for. */
  private copiedLast: RowPlan | null = null;
  /** The side of the starting chain that no row was worked on. */
  private freeSide: State | null = null;
  /** The piece whose end the first row is tried on. */
  private goesOnFrom: string | null = null;
  private lastRow: RowLine | null = null;
  /** The rows that say themselves what they do. */
  private readonly plains: RowLine[] = [];

  constructor(
    private readonly fabric: Fabric,
    private readonly context: PatternContext,
    private readonly piece: Piece,
    private readonly ends: Ends,
  ) {
    this.sizes = context.sizes.length;
    this.turning = piece.rows.some((row) => row.plan?.turns);
    this.goesRound = piece.rows.some((row) => row.content.goesRound);
  }

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
      number: this.numberNow,
      freeSide: this.freeSide,
      name,
      fastened: talk.fastened,
    };
    return new PieceRun({
      worked: { piece: this.piece, rows, context: this.context, work: {} },
      dependences: this.dependences,
      lines: this.byNumber,
      leaves: this.leaves,
      end,
      open: openRows(rows, alive),
      shows: shownBy(rows, alive),
    });
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
    if (!copy) this.number(line, [line]);
    if (copy) this.copied(line, copy);
    else if (line.plan === null)
      this.unchecked(line, "it is longer or more deeply nested than any row can be");
    else this.plain(line, line.plan);
    this.lastRow = line;
    if (!copy) this.plains.push(line);
    const last = this.copiedLast ?? line.plan;
    this.turnedLast = last !== null && turnsLast(last);
  }

  /** Which line each row number of a head stands for, so that later rows can name it. */
  private number(line: RowLine, rows: readonly RowLine[]): void {
    const { from, to } = line.head ?? { from: null, to: null };
    if (from === null) return;
    const last = Math.max(from, ...(to ?? []).map((n) => n ?? from));
    for (let n = from; n <= Math.min(last, from + 2000); n++)
      this.byNumber.set(n, rows[(n - from) % rows.length] as RowLine);
  }

  private foundation(line: RowLine, i: number): void {
    const next = this.piece.rows.slice(i + 1).find((row) => row.kind !== "foundation");
    const state = foundationState(line, next && this.standingFor(next), this.sizes);
    const chains = state.map(
      (below) => below?.chain ?? (below?.ring ? null : countPlaces(below?.strip ?? [])),
    );
    this.lastRow = line;
    const reason = line.plan?.wrongList ?? null;
    const makes = chains.some((n) => n !== null) ? chains : null;
    this.finish(
      line,
      [{ ...start, state }],
      { result: reason === null ? "ok" : "unchecked", reason, makes },
      [],
    );
  }

  // Rows

  private plain(line: RowLine, own: RowPlan): void {
    const plan = this.onEdge(line, this.withCarried(own));
    this.carried = own.carried.length > 0 ? own : null;
    const paths = this.startsAfresh(plan)
      ? [{ ...start, state: this.startState(plan, line), previous: this.paths[0] ?? null }]
      : this.paths;
    const row = this.scheduled(line, plan);
    const schedule = { rows: [row], stated: plan.stated, ...rowsOfHead(line, this.sizes) };
    this.step(line, schedule, this.reaching(paths, plan));
  }

  /** A chain that opens a later row and is worked back along adds to its edge; the row then goes on along the row below. */
  private onEdge(line: RowLine, plan: RowPlan): RowPlan {
    const goesOn = this.lastRow?.kind === "row" && line.head?.from !== 1 && plan.onRow === null;
    return goesOn ? extended(plan) : plan;
  }

  private startsAfresh(plan: RowPlan): boolean {
    const further = plan.onRow !== null && plan.onRow !== this.lastRow?.head?.from;
    return plan.foundation !== null || further || this.paths.every((path) => path.state === null);
  }

  private startState(plan: RowPlan, line: RowLine): State | null {
    const isFirst = this.done.length === 0;
    const onRow = plan.onRow ?? (isFirst ? this.piece.talk.onRow : null);
    const own = onRow === null ? undefined : this.leaves.get(onRow);
    if (own) return own;
    return (
      this.found((ends) => startState(plan, line, isFirst, this.sizes, ends, onRow)) ??
      (isFirst && plan.stated !== null ? this.borrowed() : null)
    );
  }

  /** Nothing tells what the first row is worked on, and nobody cut the yarn: the work may go on. */
  private borrowed(): State | null {
    if (this.piece.talk.rejoined) return null;
    const last = (ends: Ends): Ends["last"] => (ends.last?.fastened === false ? ends.last : null);
    const from = last(this.ends);
    this.dependences.push((ends) => last(ends)?.name === from?.name);
    this.goesOnFrom = from && (from.name || "the piece before");
    return this.found((ends) => last(ends)?.state ?? null);
  }

  /** What the pieces before this one leave; kept in mind, since they may change. */
  private found(question: (ends: Ends) => State | null): State | null {
    const answer = question(this.ends);
    this.dependences.push((ends) => sameState(answer, question(ends)));
    return answer;
  }

  /** The ways so far, each with the other places that the row names. */
  private reaching(paths: readonly Path[], plan: RowPlan): readonly Path[] {
    const alongChain = plan.instructions.some((one) => one.op === "other-side");
    if (plan.onPiece.length === 0 && !alongChain) return paths;
    return paths.map((path) => {
      const named = new Map<string, State | null>();
      for (const key of plan.onPiece) {
        const end = this.endOf(key, path.state);
        if (end !== "own") named.set(key, end);
      }
      const free = alongChain && !isOnChain(path.state) ? this.freeSideNow() : null;
      if (free) named.set(chainSide, free);
      return named.size === 0 ? path : { ...path, state: withElsewhere(path.state, named, this.sizes) };
    });
  }

  /** The starting chain seen from below, where rows stand on it. */
  private freeSideNow(): State | null {
    return this.freeSide ?? this.found((ends) => ends.last?.freeSide ?? null);
  }

  /** A piece of which there are several is its own first leg. */
  private endOf(key: string, own: State | null): State | null | "own" {
    const ownKey = pieceKey(this.piece.name);
    if (own !== null && key === ownKey) return "own";
    if (own !== null && baseOf(key) === baseOf(ownKey) && baseOf(key) === ownKey) return own;
    return this.found((ends) => ends.like(key));
  }

  private scheduled(line: RowLine, plan: RowPlan): ScheduledRow {
    const setting = { flat: this.isFlat(line, plan), turned: turnsFirst(plan) || this.turnedLast };
    return { plan, setting, readAs: this.readAs.get(plan) ?? null };
  }

  /** Rounds have no end to stop short of; "row" alone does not prove that the work is flat. */
  private isFlat(line: RowLine, plan: RowPlan): boolean {
    const short = /^r\s*\d/i.test(line.headText);
    if (line.head?.word === "round") return short && this.turning;
    if (plan.joins && !this.turning) return false;
    return this.turning || !this.goesRound;
  }

  /** The chain at the end of the row before opens this one. */
  private withCarried(plan: RowPlan): RowPlan {
    const chain = this.carried?.carried[0];
    if (chain?.op !== "chain" || plan.instructions.some((one) => one.op === "start")) return plan;
    return opened(plan, this.carried as RowPlan, () => this.openedBy(chain, plan));
  }

  private openedBy(chain: Extract<Instruction, { op: "chain" }>, plan: RowPlan): RowPlan {
    const declared = this.carried?.carriedDeclared ?? null;
    const ways = carriedChain(chain.n, plan.instructions, declared, this.context);
    if (!ways) return plan;
    const habit = startHabit(chain.n[0] ?? 0, ways.options);
    const choices = [...plan.choices, { options: ways.says, costs: ways.costs, habit }];
    const opening = {
      op: "start" as const,
      n: chain.n,
      choice: plan.choices.length,
      options: ways.options,
      span: chain.span,
    };
    return { ...plan, choices, instructions: [opening, ...plan.instructions] };
  }

  /** `Rows 3-8 (10)`, `sc in next 8 (10) sts` where there are three sizes. */
  private wrongSizes({ head, headText, plan }: RowLine): string | null {
    const numbers = (head?.to ?? head?.many)?.length ?? 1;
    return numbers > 1 && numbers !== this.sizes
      ? wrongList(headText, numbers, this.sizes)
      : (plan?.wrongList ?? null);
  }

  private step(line: RowLine, schedule: Schedule, paths: readonly Path[]): void {
    const wrong = this.wrongSizes(line);
    if (wrong !== null) return this.unchecked(line, wrong, paths[0]?.state ?? null);
    const { plan } = schedule.rows[0] as ScheduledRow;
    const stuck = plan.unknown[0];
    const unknown = stuck && whyUnknown(stuck);
    const all = paths.flatMap((path) => this.candidates(line, schedule, path));
    const [first] = all;
    if (!first) {
      this.unchecked(line, unknown ?? plan.outOfReach ?? "nothing tells what this row is worked on");
      return this.blame({ fault: plan.onRow === null ? notClosed(line) : this.noSuchRow(plan.onRow) });
    }
    const within = all.filter((one) => one.outcome.outOfReach === null);
    if (unknown || within.length === 0)
      return this.notRead(line, schedule, first, unknown ?? (first.outcome.outOfReach as string));
    this.judge(line, schedule, within);
  }

  private candidates(line: RowLine, schedule: Schedule, path: Path): Candidate[] {
    const { state } = path;
    if (state === null) return [];
    return workSchedule(this.fabric, schedule, onlySizes(state, line.sizes)).map((outcome) => {
      const after = keepOthers(outcome.after, state, line.sizes);
      return { path, outcome: after === outcome.after ? outcome : { ...outcome, after } };
    });
  }

  private judge(line: RowLine, schedule: Schedule, all: readonly Candidate[]): void {
    const right = all.filter(
      ({ outcome }) => outcome.fits && outcome.counts && unknownNoun(outcome) === null,
    );
    if (right.length > 0) return this.accept(line, schedule, right);
    if (this.isTried) return this.unchecked(line, "nothing tells what this row is worked on");
    const early = all.find(({ outcome }) => outcome.stopsEarly);
    const nearest = early ?? nearestToRight(all);
    const unsure = unsureElsewhere((schedule.rows[0] as ScheduledRow).plan, nearest.path.state);
    if (unsure !== null) return this.unchecked(line, unsure, nearest.path.state, nearest.outcome);
    if (early && line.plan?.turns && shaping.test(this.piece.name))
      return this.accept(line, schedule, [early], "what is left at the end is meant to stay unworked");
    if (early) return this.early(line, schedule, early);
    this.wrong(line, schedule, nearest);
  }

  /** The first row is tried on places that nothing says are its own. */
  private get isTried(): boolean {
    return this.done.length === 0 && this.goesOnFrom !== null;
  }

  private accept(
    line: RowLine,
    schedule: Schedule,
    right: readonly Candidate[],
    assumed: string | null = null,
  ): void {
    const paths = pathsFrom(right);
    const outcome = paths[0]?.outcome ?? null;
    const { plan } = schedule.rows[0] as ScheduledRow;
    if (outcome) this.readAs.set(plan, outcome.assumptions);
    this.freeSide ??= freeSideOf(paths[0]?.previous?.state ?? null, outcome);
    const doubted = outcome?.counted.some((one) => one?.doubt) ?? false;
    const known = { result: doubted ? "ambiguous" : "ok", outcome, after: paths[0]?.stated ?? null } as const;
    const found = this.foundBy(schedule, (right[0] as Candidate).path);
    const onward = this.isTried ? [`the work goes on from the end of ${this.goesOnFrom}`] : [];
    const assumptions = assumed === null ? onward : [...onward, assumed];
    this.finish(line, paths, { ...known, assumptions, found, times: schedule.times }, paths);
  }

  private early(line: RowLine, schedule: Schedule, { path, outcome }: Candidate): void {
    const paths = [
      { state: outcome.after, outcome, previous: path, cost: path.cost + outcome.cost, stated: null },
    ];
    const found = this.foundBy(schedule, path);
    this.finish(line, paths, { result: "ambiguous", outcome, times: schedule.times, found }, []);
  }

  /** What marks that do not close leave open cannot be told wrong. */
  private notRead(line: RowLine, schedule: Schedule, { path, outcome }: Candidate, reason: string): void {
    const fault = notClosed(line);
    this.unchecked(line, fault ? "a bracket or an asterisk is not closed" : reason, path.state, outcome);
    if (fault) this.blame({ fault, found: this.foundBy(schedule, path) });
  }

  private wrong(line: RowLine, schedule: Schedule, nearest: Candidate): void {
    const { path, outcome } = nearest;
    const { plan } = schedule.rows[0] as ScheduledRow;
    if (notClosed(line)) return this.notRead(line, schedule, nearest, "");
    if (plan.foundation && this.lastRow?.kind === "row")
      return this.unchecked(line, "it begins with a chain that adds to the edge", path.state);
    if (outcome.supposed) return this.unchecked(line, outcome.supposed, path.state, outcome);
    const noun = unknownNoun(outcome);
    if (outcome.fits && noun !== null)
      return this.unchecked(
        line,
        `its count is in "${noun}", which nothing in it is called`,
        path.state,
        outcome,
      );
    const made: Path = {
      state: outcome.after,
      outcome,
      previous: path,
      cost: path.cost + outcome.cost,
      stated: null,
    };
    const stated = asTold(statedState({ ...plan, stated: schedule.stated }, outcome), schedule.stated);
    const other = stated && keepOthers(stated, path.state as State, line.sizes);
    const differs = other !== null && stateKey(other) !== stateKey(outcome.after);
    const result = outcome.fits ? "wrong-count" : "does-not-fit";
    const known = {
      result,
      outcome,
      times: schedule.times,
      after: path.stated,
      found: this.foundBy(schedule, path),
      fault: this.againstNotes(line, schedule, this.paths),
    } as const;
    this.finish(line, differs ? [made, { ...made, state: other, stated: line }] : [made], known, []);
  }

  /** Whether the row is right, on what was made or stated below, if its opening chain is what the pattern says it is not. */
  private againstNotes(line: RowLine, schedule: Schedule, paths: readonly Path[]): Fault | null {
    const [row] = schedule.rows as readonly [ScheduledRow];
    const other = otherWay(row.plan, line.text, this.context);
    if (!other || schedule.each.some((n) => n > 1)) return null;
    const turned = { ...schedule, rows: [{ ...row, plan: other.plan }] };
    const isRight = paths.some((path) => {
      // Of a row that fits, the count alone may be the slip.
      const fits = this.candidates(line, schedule, path).some(({ outcome }) => outcome.fits);
      return (!fits || other.skipsFirst) && this.candidates(line, turned, path).some(isRightOn);
    });
    return isRight ? { sort: "against-notes", chains: other.chains } : null;
  }

  private foundBy(schedule: Schedule, path: Path): WorkedRow["found"] {
    const { plan, setting } = schedule.rows[0] as ScheduledRow;
    const { stated } = schedule;
    return (
      path.state && { state: path.state, plan: stated === plan.stated ? plan : { ...plan, stated }, setting }
    );
  }

  /** A row that stays unchecked hands on the count it states, or what it makes where only its places are unknown. */
  private unchecked(
    line: RowLine,
    reason: string,
    state: State | null = null,
    outcome: Outcome | null = null,
  ): void {
    const { plan } = line;
    const [stated] = plan?.stated ?? [];
    const placeless = plan !== null && isPlaceless(plan) && outcome?.outOfReach === plan.outOfReach;
    const made = placeless && outcome?.steps.some((steps) => steps.length > 0) ? outcome : null;
    const before = state ?? plainState([0], this.sizes, null, "sc");
    const told = stated
      ? asTold(statedState(plan as RowPlan, { after: before }), plan?.stated ?? null)
      : null;
    // What is made tells more than what is stated, where the two agree.
    const after = (made?.counts ? made.after : told) ?? made?.after ?? null;
    const has = plan !== null && plan.outOfReach !== null && !takesPlaces(plan) ? null : placesOf(state);
    this.finish(line, [{ ...start, state: after }], { reason, has, makes: made?.makes ?? null }, []);
  }

  private finish(
    line: RowLine,
    paths: readonly Path[],
    known: Partial<WorkedRow>,
    history: readonly Path[],
  ): void {
    this.paths = paths;
    this.done.push({ ...blank(line), below: this.lastRow === line ? null : this.lastRow, ...known });
    this.history.push(history);
    const state = paths[0]?.state;
    const from = line.head?.from ?? null;
    if (!state || from === null) return;
    const last = Math.max(from, ...(line.head?.to ?? []).map((n) => n ?? 0));
    for (let n = from; n <= Math.min(last, from + 500); n++) this.leaves.set(n, state);
  }

  // Lines that stand for other rows

  private copied(line: RowLine, copy: Copy): void {
    if (copy.how === "each-end")
      return this.counted(
        line,
        copy.times.map((n) => n * copy.by),
        copy.rows,
      );
    if (copy.how === "each-end-until") return this.untilLeft(line, copy);
    if (copy.how === "even") return this.counted(line, [0], copy.times);
    const numbers = copy.how === "last" ? Array<null>(copy.rows).fill(null) : copy.rows;
    const lines = this.linesOf(copy);
    const last = copy.how === "last" ? this.plains.slice(-copy.rows) : [];
    const named = numbers.map((n, i) => (n === null ? (last[i] ?? null) : (lines.get(n) ?? null)));
    const missing = named.findIndex((row) => row?.plan == null);
    if (missing >= 0) return this.lacks(line, numbers[missing] ?? null, copy);
    this.number(line, named as RowLine[]);
    this.copiedLast = named.at(-1)?.plan ?? null;
    this.repeatRows(line, named as RowLine[], copy);
  }

  private lacks(line: RowLine, number: number | null, copy: Copy): void {
    const which = number === null ? "row before this one" : `row ${number}`;
    const isOwn = number !== null && copy.how === "rows" && !copy.ofOther && copy.of === null;
    const piece = copy.how === "rows" && copy.of !== null ? `"${copy.of}"` : "this piece";
    this.unchecked(line, `there is no ${which} in ${piece} to repeat`, this.paths[0]?.state ?? null);
    // A piece with numbers of its own from 1 on means those, not another piece's.
    if (isOwn && !this.byNumber.has(number))
      this.blame({ fault: this.byNumber.has(1) ? { sort: "no-such-row", number } : this.noSuchRow(number) });
  }

  /** A row that stands nowhere above. */
  private noSuchRow(number: number): Fault | null {
    if (this.byNumber.has(number)) return null;
    const elsewhere = this.found((ends) => ends.rows.get(number) ?? null);
    return elsewhere ? null : { sort: "no-such-row", number };
  }

  /** Tells what is wrong with the row that was done last. */
  private blame(known: Pick<WorkedRow, "fault"> & Partial<WorkedRow>): void {
    this.done.push({ ...(this.done.pop() as WorkedRow), ...known });
  }

  /** A line, or the first of the rows that it stands for. */
  private standingFor(line: RowLine): RowLine {
    const copy = copyOf(line.content);
    if (copy?.how !== "rows") return line;
    return this.linesOf(copy).get(copy.rows[0] ?? 0) ?? line;
  }

  /** The lines by number that a copy takes its rows from: this piece's, or another's. */
  private linesOf(copy: Copy): ReadonlyMap<number, RowLine> {
    const key = copy.how === "rows" ? copy.of : null;
    if (key === null || key === pieceKey(this.piece.name)) return this.byNumber;
    const found = this.ends.lines.get(key);
    this.dependences.push((ends) => sameLines(found, ends.lines.get(key)));
    return found ?? noLines;
  }

  /** `Dec 1 st at each end of every row until 3 sts rem`: as many rows as that takes. */
  private untilLeft(line: RowLine, { by, left, apart }: Extract<Copy, { how: "each-end-until" }>): void {
    const found = this.paths[0]?.state?.map((below) => below && countPlaces(below.strip)) ?? [];
    const times = found.map((n, size) => (n === null ? 0 : ((forSize(left, size) ?? 0) - n) / by));
    if (times.length === 0 || times.some((n) => n < 0 || !Number.isInteger(n)))
      return this.unchecked(line, "it does not come out at that number", this.paths[0]?.state ?? null);
    this.counted(
      line,
      times.map((n) => n * by),
      times.map((n) => n * apart),
    );
  }

  private repeatRows(line: RowLine, named: readonly RowLine[], copy: RowCopy): void {
    const rows = named.map((row) => this.scheduled(row, this.onEdge(line, row.plan as RowPlan)));
    const stated = line.plan?.stated ?? null;
    const byHead = line.head !== null && (line.head.to !== null || line.head.many !== null);
    const [first] = named as readonly [RowLine];
    const isFresh = this.paths.every((path) => path.state === null);
    const paths = isFresh ? [{ ...start, state: this.startState(first.plan as RowPlan, first) }] : this.paths;
    if (byHead) return this.step(line, { rows, stated, ...rowsOfHead(line, this.sizes) }, paths);
    const each = this.rowsOfCopy(first, rows.length, copy);
    if (each.some((n) => n < 1))
      return this.unchecked(line, "there are as many rows already", paths[0]?.state);
    const told = copy.times !== null || copy.until.rowsInAll !== null;
    const open = !told && /until|for .*(?:cm|in|")/i.test(line.text);
    this.step(line, { rows, stated, each, times: open ? null : each }, paths);
  }

  /** How many rows a copy is, one number a size: so many times, or until there are so many. */
  private rowsOfCopy(first: RowLine, cycle: number, { times, until }: RowCopy): number[] {
    const done = Math.max(0, ...this.byNumber.keys());
    const last = until.extra !== null && until.extra === first.head?.from ? 1 : 0;
    return [...Array(this.sizes).keys()].map((size) => {
      const inAll = until.rowsInAll && forSize(until.rowsInAll, size);
      return inAll === null ? (forSize(times ?? [1], size) ?? 1) * cycle + last : inAll - done;
    });
  }

  /** Rows told only by what they do to the count: "Dec 1 st each end of next 4 rows", "Work even". */
  private counted(line: RowLine, by: readonly number[], times: readonly number[] | null): void {
    const stated = line.plan?.stated ?? null;
    const candidates = this.paths.flatMap((path) =>
      path.state ? [{ path, outcome: countedOutcome(path.state, by, times, stated) }] : [],
    );
    if (candidates.length === 0) return this.unchecked(line, "nothing tells what these rows are worked on");
    const plan = { ...(line.plan as RowPlan), instructions: [] };
    const schedule: Schedule = {
      rows: [{ plan, setting: { flat: true, turned: false }, readAs: null }],
      each: [1],
      times,
      stated,
    };
    this.judge(line, schedule, candidates);
  }
}

const openings = new WeakMap<RowPlan, WeakMap<RowPlan, RowPlan>>();

/** A plan opened by the chain that another ends with; the same object for the same two. */
function opened(plan: RowPlan, by: RowPlan, open: () => RowPlan): RowPlan {
  const ofPlan = openings.get(plan) ?? new WeakMap<RowPlan, RowPlan>();
  openings.set(plan, ofPlan);
  const known = ofPlan.get(by) ?? open();
  ofPlan.set(by, known);
  return known;
}

function isRightOn({ outcome }: Candidate): boolean {
  return outcome.fits && outcome.counts && outcome.outOfReach === null;
}

function notClosed({ plan }: RowLine): Fault | null {
  return plan?.openMark ? { sort: "not-closed" } : null;
}

/** The row with the chain that it begins with at its edge; the same row where it works nothing else. */
const extended = keptBy((plan: RowPlan): RowPlan => {
  const { foundation } = plan;
  if (foundation === null || !plan.instructions.some(leavesChain)) return plan;
  const span = plan.instructions[0]?.span ?? { start: 0, end: 0 };
  return {
    ...plan,
    foundation: null,
    instructions: [{ op: "extend", n: foundation, span }, ...plan.instructions],
  };
});

/** Whether an instruction takes places that no chain has. */
function leavesChain(instruction: Instruction): boolean {
  if (instruction.op === "repeat") return instruction.body.some(leavesChain);
  if (!("takes" in instruction)) return false;
  return instruction.takes.some((take) => {
    if (take.how === "each") return take.of.every(({ sort }) => sort !== "chain");
    return (take.how === "next" || take.how === "last") && take.of.sort !== "chain";
  });
}

function blank(line: RowLine): WorkedRow {
  const nothing = {
    outcome: null,
    reason: null,
    has: null,
    makes: null,
    after: null,
    below: null,
    found: null,
    fault: null,
  };
  return { line, result: "unchecked", others: [], times: [1], assumptions: [], ...nothing };
}

type RowCopy = Extract<Copy, { how: "rows" | "last" }>;

/** Only the places are out of reach, and how many stitches go there is told. */
function isPlaceless({ outOfReach, unknown, instructions }: RowPlan): boolean {
  const told = takesIn(instructions).every((take) => take.how !== "unknown");
  return outOfReach !== null && unknown.length === 0 && told;
}

/** The places below with those that were left at the end of the round before them. */
function withRest(below: Below, last: Steps | undefined): Below {
  if (!last || !("kind" in last) || last.kind !== "skip") return below;
  return { ...below, strip: [...plainStrip(kindOf(below), last.n), ...below.strip] };
}

/** Headings under which rows stop short of the end on purpose. */
const shaping = /\b(?:shap\w*|shoulders?|neck\w*|armholes?)\b/i;

const noLines: ReadonlyMap<number, RowLine> = new Map();

function sameLines(
  a: ReadonlyMap<number, RowLine> | undefined,
  b: ReadonlyMap<number, RowLine> | undefined,
): boolean {
  if (a === b || !a || !b) return a === b;
  return a.size === b.size && [...a].every(([n, line]) => b.get(n)?.content === line.content);
}

function unknownNoun(outcome: Outcome): string | null {
  return outcome.counted.find((one) => one?.unknownNoun)?.unknownNoun ?? null;
}

function asTold(state: State | null, stated: RowPlan["stated"]): State | null {
  const told = stated?.some(({ sort }) => sort === "space") ? "spaces" : "stitches";
  return state?.map((below) => below && { ...below, told }) ?? null;
}

function changed(below: Below, by: number): Below {
  const kind = kindOf(below);
  const stitches = countPlaces(below.strip, (run) => run.sort !== "space");
  return { ...below, strip: plainStrip(kind, Math.max(stitches + by, 0)), told: "stitches" };
}

function kindOf(below: Below | null): string {
  return (below && runAt(below.strip, 0)?.kind) ?? "sc";
}

/** Only where all rows are alike is it known what they make together. */
function evenly(makes: Outcome["makes"], isEven: boolean, times: readonly number[] | null): Outcome["inAll"] {
  const rows = isEven && times !== null ? times[0] : null;
  return makes.map((n) => (n === null || rows == null ? null : n * rows));
}

/** What rows come to that are told only by how many stitches more or fewer they make. */
function countedOutcome(
  state: State,
  by: readonly number[],
  times: readonly number[] | null,
  stated: RowPlan["stated"],
): Outcome {
  const before = state.map((below) => (below === null ? null : countPlaces(below.strip)));
  const isEven = by.every((n) => n === 0);
  const after = isEven ? state : state.map((below, size) => below && changed(below, forSize(by, size) ?? 0));
  const makes = after.map((below) => (below === null ? null : countPlaces(below.strip)));
  const counts = makes.every((n, size) => n === null || !stated?.[0] || n === forSize(stated[0].n, size));
  return { ...plainOutcome(before, after, makes, counts), inAll: evenly(makes, isEven, times) };
}

function plainOutcome(
  before: readonly (number | null)[],
  after: State,
  makes: readonly (number | null)[],
  counts: boolean,
): Omit<Outcome, "inAll"> {
  const counted = makes.map((n, size) => {
    if (n === null) return null;
    const kinds = new Map([[kindOf(after[size] ?? null), n]]);
    return { matches: counts, makes: n, kinds, chainsCounted: false, unknownNoun: null, doubt: null };
  });
  const steps = makes.map(() => []);
  const plainly = {
    worked: [],
    fits: true,
    stopsEarly: false,
    cost: 0,
    reading: [],
    assumptions: [],
    meant: [],
    outOfReach: null,
    supposed: null,
  };
  return { needs: before, has: before, makes, counted, steps, after, counts, ...plainly };
}

function onlySizes(state: State, sizes: readonly number[] | null): State {
  return sizes === null ? state : state.map((below, size) => (sizes.includes(size) ? below : null));
}

/** Sizes that do not work a row keep what they had. */
function keepOthers(after: State, before: State, sizes: readonly number[] | null): State {
  if (sizes === null && !after.includes(null)) return after;
  return after.map(
    (below, size) => (sizes === null || sizes.includes(size) ? below : null) ?? before[size] ?? null,
  );
}

function placesOf(state: State | null): readonly (number | null)[] | null {
  if (state === null || state.some((below) => below?.ring || below?.elsewhere)) return null;
  return state.map(
    (below) => below && (below.chain ?? countPlaces(below.strip, (run) => run.sort !== "space")),
  );
}

function takesPlaces(plan: RowPlan): boolean {
  return plan.instructions.some((one) => "takes" in one && one.takes.some((take) => take.how !== "nowhere"));
}

function isOnChain(state: State | null): boolean {
  return state?.some((below) => below?.chain != null) ?? false;
}

/** After the first row on a starting chain: as many chains on its other side. */
function freeSideOf(found: State | null, outcome: Outcome | null): State | null {
  if (!outcome || !isOnChain(found)) return null;
  return outcome.has.map((n) => (n === null ? null : { ...nothing, strip: plainStrip("ch", n, "chain") }));
}

/** Why a row that does not come out right on other places may be right all the same. */
function unsureElsewhere({ onPiece, instructions }: RowPlan, state: State | null): string | null {
  if (state?.some((below) => below?.elsewhere?.has(chainSide)))
    return "it is worked along a chain that other rows stand on";
  // `sc evenly around` and a count: as many as the maker sees fit.
  const unsaid = takesIn(instructions).find((take) => take.how === "unknown");
  if (unsaid?.how === "unknown") return unsaid.why;
  const [piece, second] = onPiece;
  if (piece === undefined || second !== undefined || !worksOnlyOn(piece, instructions)) return null;
  return `it is worked on a part of "${piece}", and nothing tells on how much of it`;
}

function worksOnlyOn(piece: string, list: readonly Instruction[]): boolean {
  return takesIn(list).every((take) => targetsOf(take).every((target) => target.piece === piece));
}
