import { say, sayings } from "../text/say";
import { works } from "./bind-joins";
import type { PatternContext } from "./context";
import { compare, isBlock, meshWidth, statedTotal, tally } from "./count";
import { type Instruction, type RowPlan, takesIn } from "./instructions";
import {
  isCounted,
  isLiteral,
  isMiscounted,
  isPlaceless,
  tellsStitches,
  withoutPlaces,
} from "./literal-rows";
import { otherWay } from "./other-way";
import {
  Leaves,
  leavingRest,
  type Outcome,
  plainState,
  type State,
  statedState,
  stateKey,
  unknownNoun,
} from "./outcome";
import { type Candidate, nearestToRight, type Path, pathsFrom } from "./paths";
import type { Piece, RowLine } from "./pattern";
import { type Dependence, sameState } from "./piece-run";
import {
  asTold,
  freeSideOf,
  keepOthers,
  onlySizes,
  placesOf,
  takesPlaces,
  unsureElsewhere,
} from "./row-states";
import { type Schedule, type ScheduledRow, workSchedule } from "./schedule";
import { type Ends, nothing } from "./starting";
import { whyUnknown } from "./unknown-words";
import type { Fabric, Fault, WorkedRow } from "./worked";
import { type WrongList, wrongList } from "./wrong-list";

/** What makes a row right that goes against the notes, and what it then leaves. */
interface AgainstNotes {
  readonly fault: Extract<Fault, { sort: "against-notes" }>;
  readonly after: State;
}

/** Before any row: nothing is worked on yet. */
export const start: Path = { state: null, outcome: null, previous: null, cost: 0, stated: null };

/** Works one line along every way of the piece that is still open, and tells whether it is right. */
export abstract class RowJudge {
  protected readonly done: WorkedRow[] = [];
  protected readonly history: (readonly Path[])[] = [];
  /** What the numbered rows of this piece left. */
  protected readonly leaves = new Map<number, State>();
  protected readonly dependences: Dependence[] = [];
  protected paths: readonly Path[] = [start];
  /** The line whose instructions a row number stands for. */
  protected readonly byNumber = new Map<number, RowLine>();
  protected readonly sizes: number;
  protected readonly turning: boolean;
  protected readonly goesRound: boolean;
  /** How rows were worked, for those that repeat them. */
  protected readonly readAs = new Map<RowPlan, readonly string[]>();
  /** What the last of the rows said that a line stands for. */
  protected copiedLast: RowPlan | null = null;
  /** Rows with a slip, and whether they fit: those that repeat them have none of their own. */
  protected readonly slipped = new Map<RowLine, "wrong-count" | "does-not-fit">();
  /** The rows that the line stands for. */
  protected copiedRows: readonly RowLine[] = [];
  /** The side of the starting chain that no row was worked on. */
  protected freeSide: State | null = null;
  /** The piece whose end the first row is tried on. */
  protected goesOnFrom: string | null = null;
  protected lastRow: RowLine | null = null;
  /** What a row that is not checked hands on was taken to be so, and no count has borne it out. */
  private isUnsure = false;

  constructor(
    protected readonly fabric: Fabric,
    protected readonly context: PatternContext,
    protected readonly piece: Piece,
    protected readonly ends: Ends,
  ) {
    this.sizes = context.sizes.length;
    this.turning = piece.rows.some((row) => row.plan?.turns);
    this.goesRound = piece.rows.some((row) => row.content.goesRound);
  }

  /** `Rows 3-8 (10)`, `sc in next 8 (10) sts` where there are three sizes. */
  protected wrongSizes({ head, headText, plan }: RowLine): WrongList | null {
    const numbers = (head?.to ?? head?.many)?.length ?? 1;
    return numbers > 1 && numbers !== this.sizes
      ? wrongList(headText, numbers, this.sizes)
      : (plan?.wrongList ?? null);
  }

  protected step(line: RowLine, schedule: Schedule, paths: readonly Path[]): void {
    const wrong = this.wrongSizes(line);
    if (wrong !== null) {
      this.unchecked(line, wrong.says, paths[0]?.state ?? null);
      return this.blame({ fault: { sort: "uneven-list", ...wrong } });
    }
    const { plan } = schedule.rows[0] as ScheduledRow;
    const [stuck] = schedule.rows.flatMap((row) => row.plan.unknown);
    const unknown = stuck && whyUnknown(stuck);
    const found = paths.flatMap((path) => this.candidates(line, schedule, path));
    // Along edges nobody knows what is below: what the row makes may be told all the same.
    const onEdges =
      found.length === 0 && isLiteral(plan) && (plan.outOfReach !== null || schedule.stated !== null);
    const all = onEdges ? this.candidates(line, schedule, this.anywhere) : found;
    const [first] = all;
    if (!first) {
      this.unchecked(line, plan.outOfReach ?? unknown ?? reasons("onNothing"));
      return this.blame({ fault: plan.onRow === null ? notClosed(line) : this.noSuchRow(plan.onRow) });
    }
    const within = all.filter((one) => one.outcome.outOfReach === null);
    if (within.length > 0 && !unknown)
      return onEdges ? this.judgeCount(line, schedule, within) : this.judge(line, schedule, within);
    if (all.every(({ outcome }) => isMiscounted(plan, outcome)))
      return this.wrong(line, schedule, withoutPlaces(nearestToRight(all)));
    const isRight = ({ outcome }: Candidate): boolean => isCounted(plan, outcome);
    const onAny = (): Candidate[] => (isLiteral(plan) ? this.candidates(line, schedule, this.anywhere) : []);
    const counted = schedule.stated && (all.find(isRight) ?? (onEdges ? undefined : onAny().find(isRight)));
    if (counted) return this.acceptCount(line, schedule, counted);
    const isCopy = plan !== line.plan && schedule.rows.some((row) => row.plan.openMark !== null);
    const why = isCopy ? reasons("repeatsOpen") : (first.outcome.outOfReach ?? (unknown as string));
    this.notRead(line, schedule, first, why);
  }

  /** On places of which there are as many as are wanted. */
  private get anywhere(): Path {
    return { ...start, state: Array(this.sizes).fill({ ...nothing, ring: true }) };
  }

  protected candidates(line: RowLine, schedule: Schedule, path: Path): Candidate[] {
    const { state } = path;
    if (state === null) return [];
    return workSchedule(this.fabric, schedule, onlySizes(state, line.sizes)).map((outcome) => {
      const own = outcome.leaves.state;
      const all = keepOthers(own, state, line.sizes);
      return { path, outcome: all === own ? outcome : { ...outcome, leaves: new Leaves(null, all) } };
    });
  }

  protected judge(line: RowLine, schedule: Schedule, all: readonly Candidate[]): void {
    const right = all.filter(
      ({ outcome }) => outcome.fits && outcome.counts && unknownNoun(outcome) === null,
    );
    if (right.length > 0) return this.accept(line, schedule, right);
    if (this.isTried) return this.judgeTried(line, schedule);
    const early = all.find(({ outcome }) => outcome.stopsEarly);
    const nearest = early ?? nearestToRight(all);
    const unsure = unsureElsewhere((schedule.rows[0] as ScheduledRow).plan, nearest.path.state);
    if (unsure !== null) return this.unchecked(line, unsure, nearest.path.state, nearest.outcome);
    if (early && line.plan?.turns && shaping.test(this.piece.name))
      return this.accept(
        line,
        schedule,
        [{ path: early.path, outcome: leavingRest(early.outcome) }],
        say`what is left at the end is meant to stay unworked`,
      );
    if (early) return this.early(line, schedule, early);
    this.wrong(line, schedule, nearest);
  }

  /** The first row is tried on places that nothing says are its own. */
  protected get isTried(): boolean {
    return this.done.length === 0 && this.goesOnFrom !== null;
  }

  protected accept(
    line: RowLine,
    schedule: Schedule,
    right: readonly Candidate[],
    assumed: string | null = null,
  ): void {
    const paths = pathsFrom(right);
    const outcome = paths[0]?.outcome ?? null;
    if (schedule.stated !== null) this.isUnsure = false;
    const { plan } = schedule.rows[0] as ScheduledRow;
    if (outcome) this.readAs.set(plan, outcome.assumptions);
    this.freeSide ??= freeSideOf(paths[0]?.previous?.state ?? null, outcome);
    const doubted = outcome?.counted.some((one) => one?.doubt) ?? false;
    const known = { result: doubted ? "ambiguous" : "ok", outcome, after: paths[0]?.stated ?? null } as const;
    const found = this.foundBy(schedule, (right[0] as Candidate).path);
    const isPlaced = outcome?.needs.some((n) => n !== null);
    const goesOn = this.isTried && isPlaced === true;
    const onward = goesOn ? [say`the work goes on from the end of ${this.goesOnFrom}`] : [];
    const assumptions = assumed === null ? onward : [...onward, assumed];
    this.finish(line, paths, { ...known, assumptions, goesOn, found, times: schedule.times }, paths);
  }

  /** It is not worked on the end of the piece before, so nothing tells on what. */
  private judgeTried(line: RowLine, schedule: Schedule): void {
    const isTold = tellsStitches(schedule.stated) && isLiteral((schedule.rows[0] as ScheduledRow).plan);
    const all = isTold ? this.candidates(line, schedule, this.anywhere) : [];
    const within = all.filter(({ outcome }) => outcome.outOfReach === null);
    if (within.length === 0 || within.some(({ outcome }) => outcome.counts))
      return this.unchecked(line, reasons("onNothing"));
    this.wrong(line, schedule, withoutPlaces(nearestToRight(within)));
  }

  /** Nothing tells what it is worked on: only its count can be checked. */
  private judgeCount(line: RowLine, schedule: Schedule, all: readonly Candidate[]): void {
    const right = all.find(({ outcome }) => outcome.counts && unknownNoun(outcome) === null);
    if (!right && !tellsStitches(schedule.stated)) return this.unchecked(line, reasons("onNothing"));
    if (!right) return this.wrong(line, schedule, withoutPlaces(nearestToRight(all)));
    this.accept(
      line,
      schedule,
      [withoutPlaces(right)],
      say`${reasons("onNothing")}, and only its count is checked`,
    );
  }

  /** Its places are not known, and it comes to the number that it states. */
  private acceptCount(line: RowLine, schedule: Schedule, candidate: Candidate): void {
    const { plan } = schedule.rows[0] as ScheduledRow;
    const isOpen = takesIn(plan.instructions).some(({ how }) => how === "nowhere");
    const right = isOpen ? withoutPlaces(candidate) : candidate;
    this.accept(line, schedule, [right], say`${plan.outOfReach}, and only its count is checked`);
  }

  protected early(line: RowLine, schedule: Schedule, { path, outcome }: Candidate): void {
    const paths = [
      { state: outcome.leaves.state, outcome, previous: path, cost: path.cost + outcome.cost, stated: null },
    ];
    const found = this.foundBy(schedule, path);
    this.finish(line, paths, { result: "ambiguous", outcome, times: schedule.times, found }, []);
  }

  /** What marks that do not close leave open cannot be told wrong. */
  protected notRead(line: RowLine, schedule: Schedule, { path, outcome }: Candidate, reason: string): void {
    const fault = notClosed(line);
    this.unchecked(line, fault ? say`a bracket or an asterisk is not closed` : reason, path.state, outcome);
    if (fault) this.blame({ fault, found: this.foundBy(schedule, path) });
  }

  protected wrong(line: RowLine, schedule: Schedule, nearest: Candidate): void {
    const { path, outcome } = nearest;
    const { plan } = schedule.rows[0] as ScheduledRow;
    if (notClosed(line)) return this.notRead(line, schedule, nearest, "");
    if (isEmpty(plan) && (isRow(this.lastRow) || (statedTotal(plan.stated ?? [], 0) ?? 0) > longestOpening)) {
      this.unchecked(line, reasons("worksNothing"), path.state);
      return this.blame({ fault: { sort: "nothing-worked" } });
    }
    const hangs = plan.instructions[0]?.op === "extend" && plan.instructions.at(-1)?.op === "slip";
    if (hangs || (plan.foundation && this.lastRow?.kind === "row"))
      return this.unchecked(line, say`it begins with a chain that adds to the edge`, path.state);
    const noun = unknownNoun(outcome);
    const inBlocks = noun !== null && isBlock(noun) ? this.countedInBlocks(schedule, outcome) : null;
    if (inBlocks) return this.wrong(line, schedule, { path, outcome: inBlocks });
    if (outcome.fits && noun !== null)
      return this.unchecked(
        line,
        say`its count is in "${noun}", which nothing in it is called`,
        path.state,
        outcome,
      );
    // Rows that only change the count (`inc 1 st at each end of next 4 rows`) are told by it.
    if (takesIn(plan.instructions).length === 0 && outcome.worked.length > 0)
      return this.unchecked(line, reasons("worksNothing"), path.state);
    if (this.isUnsure)
      return this.unchecked(
        line,
        say`a row before it is not checked, and nothing else tells what it is worked on`,
      );
    if (outcome.supposed) return this.unchecked(line, outcome.supposed, path.state, outcome);
    const repeated = this.copiedRows.find((row) => this.slipped.has(row));
    if (repeated) return this.repeatsSlip(line, repeated);
    const made: Path = {
      state: outcome.leaves.state,
      outcome,
      previous: path,
      cost: path.cost + outcome.cost,
      stated: null,
    };
    const stated = asTold(
      statedState({ ...plan, stated: schedule.stated }, outcome.leaves.state),
      schedule.stated,
    );
    const against = this.againstNotes(line, schedule, this.paths);
    const told = against?.after ?? stated;
    const other = told && keepOthers(told, path.state as State, line.sizes);
    const differs = other !== null && stateKey(other) !== stateKey(outcome.leaves.state);
    const result = outcome.fits ? "wrong-count" : "does-not-fit";
    this.slipped.set(line, result);
    const known = {
      result,
      outcome,
      times: schedule.times,
      after: path.stated,
      found: this.foundBy(schedule, path),
      fault: against?.fault ?? null,
    } as const;
    this.finish(line, differs ? [made, { ...made, state: other, stated: line }] : [made], known, []);
  }

  /** Its blocks by how wide the meshes of other rows are; null where no row has any. */
  private countedInBlocks({ stated }: Schedule, outcome: Outcome): Outcome | null {
    const width = meshWidth(this.piece.rows.map(({ plan }) => plan));
    if (width === null) return null;
    const counted = outcome.steps.map((steps, size) => compare(stated, tally(steps), size, [], width));
    const makes = counted.map((one) => one.makes);
    return counted.some((one) => one.unknownNoun) ? null : { ...outcome, counted, makes };
  }

  /** A slip is told where it stands, and not of the rows that repeat it. */
  protected repeatsSlip(line: RowLine, row: RowLine): void {
    if (!this.leavesAsMany) this.copiedLast = null;
    this.unchecked(line, say`it repeats ${row.headText}, which is not right`, this.paths[0]?.state);
    this.blame({ fault: null, after: row });
  }

  /** The rows that are repeated were written to end on as many as they began on. */
  private get leavesAsMany(): boolean {
    const first = this.done.find(({ line }) => line === this.copiedRows[0]);
    const [has, stated] = [first?.outcome?.has ?? first?.has, this.copiedLast?.stated];
    return !!has && !!stated && has.every((n, size) => n === null || n === statedTotal(stated, size));
  }

  /** Whether the row is right, on what was made or stated below, if its opening chain is what the pattern says it is not. */
  protected againstNotes(line: RowLine, schedule: Schedule, paths: readonly Path[]): AgainstNotes | null {
    const others = schedule.rows.map(({ plan }) => otherWay(plan, line.text, this.context));
    const other = others.find((one) => one !== null);
    if (!other) return null;
    const rows = schedule.rows.map((row, i) => ({ ...row, plan: others[i]?.plan ?? row.plan }));
    const found = paths.flatMap((path): AgainstNotes[] => {
      const right = this.candidates(line, { ...schedule, rows }, path).find(isRightOn);
      if (!right) return [];
      const fits = this.candidates(line, schedule, path).some(({ outcome }) => outcome.fits);
      const isSure = !fits || other.skipsFirst;
      const fault = { sort: "against-notes", chains: other.chains, isSure } as const;
      return [{ fault, after: right.outcome.leaves.state }];
    });
    return found.find(({ fault }) => fault.isSure) ?? found[0] ?? null;
  }

  protected foundBy(schedule: Schedule, path: Path): WorkedRow["found"] {
    const { plan, setting } = schedule.rows[0] as ScheduledRow;
    const { stated } = schedule;
    return (
      path.state && { state: path.state, plan: stated === plan.stated ? plan : { ...plan, stated }, setting }
    );
  }

  /** A row that stays unchecked hands on the count it states, or what it makes where only its places are unknown. */
  protected unchecked(
    line: RowLine,
    reason: string,
    state: State | null = null,
    outcome: Outcome | null = null,
  ): void {
    const { plan } = line;
    // A line that states nothing comes to what the last of its rows states.
    const stated = plan?.stated ?? this.copiedLast?.stated ?? null;
    const made = plan !== null && outcome !== null && isPlaceless(plan, outcome) ? outcome : null;
    // A row that fits, with a count in a unit nobody explains, hands on what it makes.
    const counted = outcome?.fits && unknownNoun(outcome) !== null ? outcome.leaves.state : null;
    this.isUnsure = counted !== null;
    const before = state ?? plainState([0], this.sizes, null, "sc");
    // So many shells are not so many stitches.
    const isCount = stated?.every(({ sort, noun }) => sort !== "unit" || isOneStitch.test(noun)) === true;
    const told = isCount && plan ? asTold(statedState({ ...plan, stated }, before), stated) : null;
    // What is made tells more than what is stated, where the two agree.
    const after =
      counted ??
      (made?.counts ? made.leaves.state : told) ??
      made?.leaves.state ??
      (isSeam(plan) ? state : null);
    const has = plan !== null && plan.outOfReach !== null && !takesPlaces(plan) ? null : placesOf(state);
    this.finish(
      line,
      [{ ...start, state: after }],
      { reason, has, makes: made?.makes ?? null, handsOn: placesOf(after) },
      [],
    );
  }

  protected finish(
    line: RowLine,
    paths: readonly Path[],
    known: Partial<WorkedRow>,
    history: readonly Path[],
  ): void {
    this.paths = paths;
    this.done.push(rowWith(line, this.lastRow === line ? null : this.lastRow, known));
    this.history.push(history);
    const state = paths[0]?.state;
    const from = line.head?.from ?? null;
    if (!state || from === null) return;
    const last = Math.max(from, ...(line.head?.to ?? []).map((n) => n ?? 0));
    for (let n = from; n <= Math.min(last, from + 500); n++) this.leaves.set(n, state);
  }

  /** What the pieces before this one leave; kept in mind, since they may change. */
  protected found(question: (ends: Ends) => State | null): State | null {
    const answer = question(this.ends);
    this.dependences.push((ends) => sameState(answer, question(ends)));
    return answer;
  }

  /** A row that stands nowhere above. */
  protected noSuchRow(number: number): Fault | null {
    if (this.byNumber.has(number)) return null;
    const elsewhere = this.found((ends) => ends.row(number));
    return elsewhere ? null : { sort: "no-such-row", number, piece: null };
  }

  /** Tells what is wrong with the row that was done last. */
  protected blame(known: Pick<WorkedRow, "fault"> & Partial<WorkedRow>): void {
    this.done.push({ ...(this.done.pop() as WorkedRow), ...known });
  }
}

function isRightOn({ outcome }: Candidate): boolean {
  return outcome.fits && outcome.counts && outcome.outOfReach === null;
}

function notClosed({ plan }: RowLine): Fault | null {
  return plan?.openMark ? { sort: "not-closed" } : null;
}

function isRow(line: RowLine | null): boolean {
  return line !== null && line.kind !== "foundation";
}

/** Chains that are no work of their own. A first row may well count those that it makes a ring of. */
const longestOpening = 4;

/** `Ch 1, join. (24)`: all of it is understood, and makes no stitch. A longer chain may be the row. */
function isEmpty(plan: RowPlan): boolean {
  const { instructions, foundation, stated, unknown, outOfReach } = plan;
  const isWhole = unknown.length === 0 && outOfReach === null && (plan.turns || plan.joins || plan.joinsAnew);
  const isShort = (foundation?.[0] ?? 0) <= longestOpening;
  return isWhole && isShort && stated !== null && instructions.length > 0 && instructions.every(isOpening);
}

function isOpening(one: Instruction): boolean {
  return (
    one.op === "turn" || ((one.op === "chain" || one.op === "start") && (one.n[0] ?? 0) <= longestOpening)
  );
}

/** Field by field: an object that begins with a spread is one of a kind to the engine, which makes it large and slow. */
function rowWith(line: RowLine, lastRow: RowLine | null, known: Partial<WorkedRow>): WorkedRow {
  return {
    line,
    result: known.result ?? "unchecked",
    others: known.others ?? [],
    times: known.times === undefined ? [1] : known.times,
    assumptions: known.assumptions ?? [],
    outcome: known.outcome ?? null,
    reason: known.reason ?? null,
    has: known.has ?? null,
    makes: known.makes ?? null,
    handsOn: known.handsOn ?? null,
    after: known.after ?? null,
    below: known.below === undefined ? lastRow : known.below,
    found: known.found ?? null,
    fault: known.fault ?? null,
    goesOn: known.goesOn ?? false,
  };
}

/** `Joining row: Hold first and last rows together and sl st through both thicknesses`: nothing is worked on. */
function isSeam(plan: RowPlan | null): boolean {
  const sews = plan !== null && /\b(?:sl sts?|slip stitch|ss|sew|seam|whipstitch)\b/i.test(plan.text);
  return sews && plan.stated === null && !plan.instructions.some(works);
}

const isOneStitch = /cluster|\bcls?\b|bobble|puff|popcorn|\bpc\b|picot|loop|arch/i;
const reasons = sayings({
  worksNothing: "nothing in it says in a known way what is worked",
  onNothing: "nothing tells what this row is worked on",
  repeatsOpen: "a bracket or an asterisk is not closed in a row that is repeated",
});

/** Headings under which rows stop short of the end on purpose. */
const shaping = /\b(?:shap\w*|shoulders?|neck\w*|armholes?)\b/i;
