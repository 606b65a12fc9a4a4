import type { Sized } from "../notation/words";
import { carriedChain } from "./bind-start";
import type { PatternContext } from "./context";
import { type Copy, readCopy } from "./copies";
import { type Counted, compare, tally } from "./count";
import { forSize, type Instruction, type RowPlan } from "./instructions";
import { type Outcome, outcomesOf, type RowSetting, type State, statedState, stateKey } from "./outcome";
import type { Pattern, Piece, RowLine } from "./pattern";
import { countPlaces, plainStrip } from "./strip";
import type { Below } from "./walker";

export type Result = "ok" | "does-not-fit" | "wrong-count" | "ambiguous" | "unchecked";

/** What is known of one row once its piece is worked. */
export interface WorkedRow {
  readonly line: RowLine;
  readonly result: Result;
  readonly outcome: Outcome | null;
  /** Other ways to understand it that nothing ruled out. */
  readonly others: readonly Outcome[];
  readonly reason: string | null;
  /** Places known although the row is not checked. */
  readonly has: readonly (number | null)[] | null;
  readonly makes: readonly (number | null)[] | null;
  readonly times: readonly number[] | null;
  /** The row whose slip this one was written for. */
  readonly after: RowLine | null;
  /** The row that left the places, for messages. */
  readonly below: RowLine | null;
  readonly assumptions: readonly string[];
  readonly flat: boolean;
  /** The places it found, and how it was worked on them; null where nothing was below. */
  readonly found: { readonly state: State; readonly plan: RowPlan; readonly setting: RowSetting } | null;
}

export interface WorkedPiece {
  readonly piece: Piece;
  readonly rows: readonly WorkedRow[];
}

/** One way the piece may have gone so far. */
interface Path {
  readonly state: State | null;
  readonly outcome: Outcome | null;
  readonly previous: Path | null;
  readonly stated: RowLine | null;
}

const pathsAtMost = 8;

/** Works pattern pieces row by row; keeps what it worked, by what the row says and finds. */
export class Fabric {
  private kept = new Map<string, readonly Outcome[]>();
  private contextKey = "";
  /** Rows worked afresh since the fabric was made. */
  rowsWorked = 0;

  work(pattern: Pattern): WorkedPiece[] {
    if (pattern.context.key !== this.contextKey) this.kept.clear();
    this.contextKey = pattern.context.key;
    const ends = new Map<string, State>();
    const rowEnds = new Map<string, State>();
    const pieces: WorkedPiece[] = [];
    for (const piece of pattern.pieces) {
      const worked = new PieceWorker(this, pattern.context, piece, ends, rowEnds).work();
      pieces.push(worked);
    }
    return pieces;
  }

  outcomes(plan: RowPlan, planKey: string, state: State, setting: RowSetting): readonly Outcome[] {
    const key = `${setting.flat ? "f" : "r"}${setting.turned ? "t" : ""}\n${planKey}\n${stateKey(state)}`;
    let found = this.kept.get(key);
    if (!found) {
      if (this.kept.size > 20_000) this.kept.clear();
      this.rowsWorked++;
      found = outcomesOf(plan, state, setting);
      this.kept.set(key, found);
    }
    return found;
  }
}

class PieceWorker {
  private readonly done: WorkedRow[] = [];
  private paths: Path[] = [{ state: null, outcome: null, previous: null, stated: null }];
  private readonly byNumber = new Map<number, RowLine>();
  private readonly statesAfter = new Map<number, State>();
  private readonly sizes: number;
  private readonly turning: boolean;
  private readonly history: { row: number; paths: Path[] }[] = [];
  private carried: RowPlan | null = null;
  private turnedLast = false;
  private lastRow: RowLine | null = null;
  private lastPlain: RowLine | null = null;

  constructor(
    private readonly fabric: Fabric,
    private readonly context: PatternContext,
    private readonly piece: Piece,
    private readonly ends: Map<string, State>,
    private readonly rowEnds: Map<string, State>,
  ) {
    this.sizes = context.sizes.length;
    this.turning = piece.rows.some((row) => row.plan?.turns);
  }

  work(): WorkedPiece {
    this.piece.rows.forEach((line, i) => {
      this.row(line, i);
    });
    const rows = this.settle();
    const end = this.paths[0]?.state;
    if (end) this.ends.set(this.piece.name.toLowerCase(), end);
    return { piece: this.piece, rows };
  }

  private row(line: RowLine, i: number): void {
    if (line.kind === "foundation") return this.foundation(line, i);
    this.number(line, [line]);
    const copy = readCopy(line);
    if (copy) this.copied(line, copy);
    else if (line.plan === null)
      this.unchecked(line, "the row is longer or more deeply nested than any pattern's", null);
    else this.plain(line, line.plan);
    this.lastRow = line;
    if (!copy) this.lastPlain = line;
    this.turnedLast = line.plan !== null && turnsLast(line.plan);
  }

  // Starting

  private foundation(line: RowLine, i: number): void {
    const next = this.piece.rows.slice(i + 1).find((row) => row.kind !== "foundation");
    const state = foundationState(line, next, this.sizes);
    this.paths = [{ state, outcome: null, previous: null, stated: null }];
    this.lastRow = line;
    const chains = state.map(
      (below) => below?.chain ?? (below && !below.ring ? countPlaces(below.strip) : null),
    );
    this.done.push({
      ...blank(line, false),
      result: "ok",
      makes: chains.some((n) => n !== null) ? chains : null,
    });
    this.history.push({ row: this.done.length - 1, paths: [] });
  }

  /** What a row finds that has nothing below it. */
  private firstState(plan: RowPlan, line: RowLine): State | null {
    const each = (below: (size: number) => Below | null): State => [...Array(this.sizes).keys()].map(below);
    if (plan.foundation) {
      const { foundation } = plan;
      return each((size) => ({
        strip: [],
        chain: forSize(foundation, size) ?? 0,
        ring: false,
        marked: null,
      }));
    }
    if (plan.onRow !== null) {
      const named = this.statesAfter.get(plan.onRow) ?? this.rowEnds.get(`${plan.onRow}`);
      if (named) return named;
    }
    const over = this.overPieces(line);
    if (over) return over;
    return standsOnNothing(plan.instructions)
      ? each(() => ({ strip: [], chain: null, ring: true, marked: null }))
      : null;
  }

  /** `sc in each of the 12 sts of Tube A`: the last rows of other pieces, in the order they are named. */
  private overPieces(line: RowLine): State | null {
    const text = line.text.toLowerCase();
    const named = [...this.ends]
      .map(([name, state]) => ({
        name,
        state,
        at: name.length > 1 ? text.search(new RegExp(`\\bof (?:the )?${escape(name)}\\b`)) : -1,
      }))
      .filter((one) => one.at >= 0)
      .sort((a, b) => a.at - b.at);
    if (named.length === 0) return null;
    const chains = /ch(?:ain)?\s*(\d+)/.exec(text)?.[1];
    const into =
      chains !== undefined && /in (?:each of (?:the )?)?\d+ ch|other side/.test(text) ? Number(chains) : 0;
    return [...Array(this.sizes).keys()].map((size) => {
      const strip = named.flatMap((one) => [
        ...(one.state[size]?.strip ?? []),
        ...plainStrip("ch", into, "chain"),
      ]);
      return { strip, chain: null, ring: false, marked: null };
    });
  }

  // Rows

  private setting(line: RowLine, plan: RowPlan): RowSetting {
    return { flat: this.flat(line, plan), turned: turnsFirst(plan) || this.turnedLast };
  }

  private flat(line: RowLine, plan: RowPlan): boolean {
    if (line.head?.word === "round" && !/^rw/i.test(line.headText))
      return /^r\s*\d/i.test(line.headText) && this.turning;
    if (plan.joins && !this.turning) return false;
    const round = /\b(?:magic|ring|around|mr)\b/i.test(this.piece.rows.map((row) => row.text).join(" "));
    return this.turning || !round;
  }

  private plain(line: RowLine, own: RowPlan): void {
    const plan = this.withCarried(own);
    const flat = this.setting(line, plan);
    const repeats = timesOfHead(line, this.sizes);
    this.carried = own.carried.length > 0 ? own : null;
    const paths =
      plan.foundation || plan.onRow !== null || (this.paths.length === 1 && this.paths[0]?.state === null)
        ? this.startPaths(plan, line)
        : this.paths;
    this.step(line, plan, planKey(line, plan), paths, flat, repeats);
  }

  private startPaths(plan: RowPlan, line: RowLine): Path[] {
    const state = this.firstState(plan, line);
    return [{ state: state ?? null, outcome: null, previous: this.paths[0] ?? null, stated: null }];
  }

  private withCarried(plan: RowPlan): RowPlan {
    const before = this.carried;
    if (!before) return plan;
    const chain = before.carried[0];
    if (chain?.op !== "chain" || plan.instructions.some((instruction) => instruction.op === "start"))
      return plan;
    const option = carriedChain(chain.n, plan.instructions, before.carriedDeclared, this.context);
    if (!option) return plan;
    const choices = [...plan.choices, { options: option.says, costs: option.costs }];
    return {
      ...plan,
      choices,
      instructions: [
        { op: "start", n: chain.n, choice: choices.length - 1, options: option.options, span: chain.span },
        ...plan.instructions,
      ],
    };
  }

  private step(
    line: RowLine,
    plan: RowPlan,
    key: string,
    paths: readonly Path[],
    flat: RowSetting,
    repeats: Repeats,
  ): void {
    const below = this.lastRow;
    if (paths.every((path) => path.state === null)) return this.onNothing(line, plan, key, flat);
    const stuck = plan.unknown[0];
    const candidates = paths.flatMap((path) =>
      path.state ? this.tries(line, plan, key, path, flat, repeats) : [],
    );
    const reach = candidates.filter((one) => one.outcome.outOfReach === null);
    if (stuck || reach.length === 0) {
      const reason = stuck
        ? `"${stuck.text}" is not explained in this pattern`
        : (candidates[0]?.outcome.outOfReach ?? "the row could not be worked");
      return this.unchecked(line, reason, paths[0]?.state ?? null, candidates[0]?.outcome ?? null);
    }
    const right = reach.filter((one) => one.outcome.fits && one.outcome.counts);
    const known = right.filter((one) =>
      one.outcome.counted.every((counted) => counted === null || counted.unknownNoun === null),
    );
    if (known.length > 0) return this.accept(line, known, flat, repeats, below);
    const early = reach.filter((one) => one.outcome.stopsEarly);
    if (early.length > 0) return this.early(line, early[0] as Candidate, flat, repeats, below);
    this.wrong(line, plan, reach, flat, repeats, below);
  }

  private tries(
    line: RowLine,
    plan: RowPlan,
    key: string,
    path: Path,
    flat: RowSetting,
    repeats: Repeats,
  ): Candidate[] {
    const state = onlySizes(path.state as State, line.sizes);
    const first = this.fabric.outcomes(
      repeats.most > 1 ? { ...plan, stated: null } : plan,
      repeats.most > 1 ? `${key}\nuncounted` : key,
      state,
      flat,
    );
    return first.map((outcome) => {
      const last =
        repeats.most > 1 ? this.again(outcome, plan, key, flat, repeats, line, path.state as State) : outcome;
      return { path, outcome: { ...last, after: keepOthers(last.after, path.state as State, line.sizes) } };
    });
  }

  /** A range works its row on what it leaves, once a row. */
  private again(
    first: Outcome,
    plan: RowPlan,
    key: string,
    flat: RowSetting,
    repeats: Repeats,
    line: RowLine,
    _before: State,
  ): Outcome {
    let state = first.after;
    let last = first;
    let fits = first.fits;
    const bare = { ...plan, stated: null };
    for (let pass = 1; pass < repeats.most && pass < 400; pass++) {
      const same =
        stateKey(last.after) === stateKey(state) &&
        pass > 1 &&
        stateKey(state) === stateKey(this.best(bare, `${key}\nuncounted`, state, flat).after);
      if (same && repeats.even) break;
      const next = this.best(bare, `${key}\nuncounted`, state, flat);
      fits &&= next.fits;
      const limited = next.after.map((below, size) =>
        pass < (repeats.each[size] ?? repeats.most) ? below : (state[size] ?? null),
      );
      last = { ...next, after: limited };
      state = limited;
    }
    void line;
    return recount(
      {
        ...last,
        needs: first.needs,
        has: first.has,
        fits,
        cost: first.cost,
        assumptions: first.assumptions,
        outOfReach: last.outOfReach ?? first.outOfReach,
      },
      plan,
    );
  }

  private best(plan: RowPlan, key: string, state: State, flat: RowSetting): Outcome {
    const all = this.fabric.outcomes(plan, key, state, flat);
    return all.find((one) => one.fits && one.outOfReach === null) ?? (all[0] as Outcome);
  }

  private accept(
    line: RowLine,
    right: readonly Candidate[],
    flat: RowSetting,
    repeats: Repeats,
    below: RowLine | null,
  ): void {
    const onMade = right.filter((one) => one.path.stated === null);
    const chosen = onMade.length > 0 ? onMade : right;
    const kept: Path[] = [];
    const seen = new Set<string>();
    const others: Outcome[] = [];
    for (const one of [...chosen].sort((a, b) => a.outcome.cost - b.outcome.cost)) {
      const key = `${stateKey(one.outcome.after)} ${one.outcome.makes} ${one.outcome.needs}`;
      if (seen.has(key)) continue;
      seen.add(key);
      if (kept.length < pathsAtMost)
        kept.push({
          state: one.outcome.after,
          outcome: one.outcome,
          previous: one.path,
          stated: one.path.stated,
        });
      others.push(one.outcome);
    }
    if (onMade.length > 0) this.keepStated(right, kept);
    const first = chosen[0] as Candidate;
    this.paths = kept;
    const counted = first.outcome.counted.find((one) => one?.doubt);
    this.done.push({
      ...blank(line, flat.flat),
      result: counted ? "ambiguous" : "ok",
      outcome: kept[0]?.outcome ?? first.outcome,
      others: [],
      times: repeats.times,
      after: first.path.stated,
      below,
    });
    this.remember(line);
    this.history.push({ row: this.done.length - 1, paths: kept });
  }

  /** After a slip both the made and the stated count live on until a count decides. */
  private keepStated(right: readonly Candidate[], kept: Path[]): void {
    const stated = right.find((one) => one.path.stated !== null);
    if (stated && right.some((one) => one.path.stated === null))
      kept.push({
        state: stated.outcome.after,
        outcome: stated.outcome,
        previous: stated.path,
        stated: stated.path.stated,
      });
  }

  private early(
    line: RowLine,
    one: Candidate,
    flat: RowSetting,
    repeats: Repeats,
    below: RowLine | null,
  ): void {
    this.paths = [{ state: one.outcome.after, outcome: one.outcome, previous: one.path, stated: null }];
    this.done.push({
      ...blank(line, flat.flat),
      result: "ambiguous",
      outcome: one.outcome,
      times: repeats.times,
      below,
    });
    this.remember(line);
    this.history.push({ row: this.done.length - 1, paths: [] });
  }

  private wrong(
    line: RowLine,
    plan: RowPlan,
    all: readonly Candidate[],
    flat: RowSetting,
    repeats: Repeats,
    below: RowLine | null,
  ): void {
    const ranked = [...all].sort((a, b) => blame(a) - blame(b));
    const one = ranked[0] as Candidate;
    const { outcome } = one;
    if (plan.foundation && this.lastRow?.kind === "row")
      return this.unchecked(line, "it begins with a chain that adds to the edge", one.path.state, null);
    const unknownNoun = outcome.counted.find((counted) => counted?.unknownNoun)?.unknownNoun;
    if (outcome.fits && unknownNoun) {
      this.unchecked(
        line,
        `the count is in "${unknownNoun}", which nothing in the row is called`,
        one.path.state,
        outcome,
      );
      return;
    }
    const stated = statedState(plan, outcome);
    const made: Path = { state: outcome.after, outcome, previous: one.path, stated: null };
    this.paths =
      stated && stateKey(stated) !== stateKey(outcome.after)
        ? [made, { ...made, state: keepOthers(stated, one.path.state as State, line.sizes), stated: line }]
        : [made];
    const found = { state: one.path.state as State, plan, setting: flat };
    this.done.push({
      ...blank(line, flat.flat),
      found,
      result: outcome.fits ? "wrong-count" : "does-not-fit",
      outcome,
      times: repeats.times,
      after: one.path.stated,
      below,
    });
    this.remember(line);
    this.history.push({ row: this.done.length - 1, paths: [] });
  }

  // Rows that stay unchecked

  private onNothing(line: RowLine, plan: RowPlan, key: string, flat: RowSetting): void {
    void key;
    void flat;
    const reason = plan.unknown[0]
      ? `"${plan.unknown[0].text}" is not explained in this pattern`
      : (plan.outOfReach ?? "nothing tells what this row is worked on");
    this.unchecked(line, reason, null);
  }

  private unchecked(
    line: RowLine,
    reason: string,
    state: State | null,
    outcome: Outcome | null = null,
  ): void {
    const stated = line.plan?.stated ?? null;
    const evenly =
      outcome !== null &&
      outcome.steps.some((steps) => steps.length > 0) &&
      line.plan?.outOfReach !== null &&
      line.plan?.unknown.length === 0;
    const after = stated
      ? plainState(stated[0]?.n ?? null, this.sizes, state, stated[0]?.noun || "sc")
      : evenly
        ? (outcome as Outcome).after
        : null;
    this.paths = [{ state: after, outcome: null, previous: null, stated: null }];
    const has =
      state && !state.some((below) => below?.ring)
        ? state.map((below) =>
            below === null ? null : (below.chain ?? countPlaces(below.strip, (run) => run.sort !== "space")),
          )
        : null;
    this.done.push({
      ...blank(line, false),
      reason,
      has: line.plan?.outOfReach && !hasTakes(line.plan) ? null : has,
      makes: evenly ? (outcome as Outcome).makes : null,
    });
    this.remember(line);
    this.history.push({ row: this.done.length - 1, paths: [] });
  }

  private remember(line: RowLine): void {
    const state = this.paths[0]?.state;
    const from = line.head?.from;
    if (!state || from === null || from === undefined) return;
    const last = Math.max(from, ...(line.head?.to ?? []).map((n) => n ?? 0));
    for (let n = from; n <= Math.min(last, from + 500); n++) {
      this.statesAfter.set(n, state);
      this.rowEnds.set(`${n}`, state);
    }
  }

  // Rows that stand for others

  private copied(line: RowLine, copy: Copy): void {
    if (copy.how === "each-end") return this.eachEnd(line, copy);
    if (copy.how === "even") return this.even(line, copy.times);
    const numbers = copy.how === "last" ? [null] : copy.rows;
    const named = numbers.map((n) => (n === null ? this.lastPlain : (this.byNumber.get(n) ?? null)));
    const missing = named.findIndex((row) => row === null || row.plan === null);
    if (missing >= 0)
      return this.unchecked(
        line,
        `there is no row ${numbers[missing] ?? "before this one"} in this piece to repeat`,
        this.paths[0]?.state ?? null,
      );
    this.number(line, named as RowLine[]);
    this.repeatRows(line, named as RowLine[], copy.times);
  }

  /** Which line each row number of a head stands for, so that later rows can name it. */
  private number(line: RowLine, rows: readonly RowLine[]): void {
    const { from, to } = line.head ?? { from: null, to: null };
    if (from === null) return;
    const last = Math.max(from, ...(to ?? []).map((n) => n ?? from));
    for (let n = from; n <= Math.min(last, from + 2000); n++)
      this.byNumber.set(n, rows[(n - from) % rows.length] as RowLine);
  }

  private repeatRows(
    line: RowLine,
    rows: readonly RowLine[],
    times: readonly (number | null)[] | null,
  ): void {
    const own = timesOfHead(line, this.sizes);
    const fromHead = line.head !== null && (line.head.to !== null || line.head.many !== null);
    const passes = fromHead ? own.most : Math.max(1, ...(times ?? [1]).map((n) => n ?? 0)) * rows.length;
    const open = !fromHead && times === null && /until|for .*(?:cm|in|")/i.test(line.text);
    const stated = line.plan?.stated ?? null;
    const first = rows[0] as RowLine;
    if (rows.length === 1) {
      const plan = copyPlan(first.plan as RowPlan, stated, line);
      const repeats: Repeats = fromHead
        ? own
        : { most: passes, each: Array(this.sizes).fill(passes), times: open ? null : [passes], even: true };
      return this.step(
        line,
        plan,
        planKey(first, plan) + JSON.stringify(stated),
        this.paths,
        this.setting(first, plan),
        repeats,
      );
    }
    this.alternately(line, rows, passes, open, stated);
  }

  private alternately(
    line: RowLine,
    rows: readonly RowLine[],
    passes: number,
    open: boolean,
    stated: RowPlan["stated"],
  ): void {
    const below = this.lastRow;
    const path = this.paths[0];
    if (!path?.state) return this.unchecked(line, "nothing tells what these rows are worked on", null);
    let state = path.state;
    let first: Outcome | null = null;
    let last: Outcome | null = null;
    let fits = true;
    for (let pass = 0; pass < Math.min(passes, 400); pass++) {
      const row = rows[pass % rows.length] as RowLine;
      const plan = { ...(row.plan as RowPlan), stated: null };
      last = this.best(plan, `${planKey(row, plan)}\nuncounted`, state, this.setting(row, plan));
      first ??= last;
      fits &&= last.fits;
      state = last.after;
    }
    if (!first || !last) return;
    const plan = copyPlan(rows[0]?.plan as RowPlan, stated, line);
    const outcome = recount({ ...last, needs: first.needs, has: first.has, fits }, plan);
    const flat = this.setting(rows[0] as RowLine, plan);
    const repeats: Repeats = { most: passes, each: [], times: open ? null : [passes], even: true };
    if (outcome.outOfReach) return this.unchecked(line, outcome.outOfReach, path.state, outcome);
    if (outcome.fits && outcome.counts) return this.accept(line, [{ path, outcome }], flat, repeats, below);
    this.wrong(line, plan, [{ path, outcome }], flat, repeats, below);
  }

  private eachEnd(line: RowLine, copy: Extract<Copy, { how: "each-end" }>): void {
    const path = this.paths[0];
    if (!path?.state) return this.unchecked(line, "nothing tells what these rows are worked on", null);
    const before = path.state.map((below) => (below === null ? null : countPlaces(below.strip)));
    const after = path.state.map((below, size) =>
      below === null
        ? null
        : {
            ...below,
            strip: plainStrip(kindOf(below), Math.max((before[size] ?? 0) + copy.by * copy.times, 0)),
          },
    );
    this.schedule(line, path, before, after, [copy.rows]);
  }

  private even(line: RowLine, times: number | null): void {
    const path = this.paths[0];
    if (!path?.state) return this.unchecked(line, "nothing tells what these rows are worked on", null);
    const before = path.state.map((below) => (below === null ? null : countPlaces(below.strip)));
    this.schedule(line, path, before, path.state, times === null ? null : [times]);
  }

  private schedule(
    line: RowLine,
    path: Path,
    before: readonly (number | null)[],
    after: State,
    times: readonly number[] | null,
  ): void {
    const makes = after.map((below) => (below === null ? null : countPlaces(below.strip)));
    const stated = line.plan?.stated?.[0]?.n ?? null;
    const counts = stated === null || makes.every((n, size) => n === null || n === forSize(stated, size));
    const counted = makes.map((n, size): Counted | null =>
      n === null
        ? null
        : {
            matches: counts,
            makes: n,
            kinds: new Map([[kindOf(after[size] ?? null), n]]),
            chainsCounted: false,
            unknownNoun: null,
            doubt: null,
          },
    );
    const outcome: Outcome = {
      needs: before,
      has: before,
      makes,
      counted,
      steps: makes.map(() => []),
      after,
      fits: true,
      counts,
      stopsEarly: false,
      cost: 0,
      assumptions: [],
      outOfReach: null,
    };
    const repeats: Repeats = { most: 1, each: [], times, even: true };
    if (counts)
      return this.accept(line, [{ path, outcome }], { flat: true, turned: false }, repeats, this.lastRow);
    this.wrong(
      line,
      line.plan as RowPlan,
      [{ path, outcome }],
      { flat: true, turned: false },
      repeats,
      this.lastRow,
    );
  }

  // Settling

  /** Follows the surviving paths back: what they agree on is settled, the rest is ambiguous. */
  private settle(): WorkedRow[] {
    const alive = new Map<number, Outcome[]>();
    for (let i = this.history.length - 1; i >= 0; i--) {
      const { row, paths } = this.history[i] as { row: number; paths: Path[] };
      const later = this.survivors(i, paths);
      alive.set(row, unique(later.map((path) => path.outcome).filter((one): one is Outcome => one !== null)));
    }
    return this.done.map((row, i) => settled(row, alive.get(i) ?? []));
  }

  private survivors(i: number, paths: readonly Path[]): readonly Path[] {
    const next = this.history[i + 1];
    const own = paths.filter((path) => path.stated === null);
    if (!next || next.paths.length === 0) return own.length > 0 ? own : paths;
    const used = new Set(next.paths.map((path) => path.previous));
    const left = paths.filter((path) => used.has(path) && path.stated === null);
    return left.length > 0 ? left : paths.filter((path) => used.has(path));
  }
}

interface Candidate {
  readonly path: Path;
  readonly outcome: Outcome;
}

interface Repeats {
  readonly most: number;
  readonly each: readonly number[];
  readonly times: readonly number[] | null;
  readonly even: boolean;
}

function blank(line: RowLine, flat: boolean): WorkedRow {
  return {
    line,
    result: "unchecked",
    outcome: null,
    others: [],
    reason: null,
    has: null,
    makes: null,
    times: [1],
    after: null,
    below: null,
    assumptions: [],
    flat,
    found: null,
  };
}

/** The nearest to right: fits, then counts, then the usual reading. */
function blame(one: Candidate): number {
  const { outcome } = one;
  return (outcome.fits ? 0 : 40) + (outcome.counts ? 0 : 20) + (one.path.stated ? 5 : 0) + 25 * outcome.cost;
}

function settled(row: WorkedRow, alive: readonly Outcome[]): WorkedRow {
  if (row.result !== "ok" || alive.length === 0) return row;
  const [first] = alive;
  const cheapest = Math.min(...alive.map((one) => one.cost));
  const usual = alive.filter((one) => one.cost === cheapest);
  const distinct = differing(usual);
  const every = differing(alive);
  if (distinct.length > 1)
    return { ...row, result: "ambiguous", outcome: distinct[0] as Outcome, others: distinct };
  const outcome = usual[0] ?? (first as Outcome);
  return { ...row, outcome, assumptions: every.length > 1 ? outcome.assumptions : [] };
}

function differing(all: readonly Outcome[]): Outcome[] {
  const seen = new Map<string, Outcome>();
  for (const one of all) {
    const kinds = one.counted.map((counted) => counted && [...counted.kinds].join());
    const key = JSON.stringify([one.needs, one.makes, kinds]);
    if (!seen.has(key)) seen.set(key, one);
  }
  return [...seen.values()];
}

function unique(all: readonly Outcome[]): Outcome[] {
  return [...new Set(all)];
}

function recount(outcome: Outcome, plan: RowPlan): Outcome {
  const stated = plan.stated;
  if (stated === null) return outcome;
  const checked = outcome.steps.map((steps, size) =>
    outcome.after[size] === null || steps.length === 0
      ? (outcome.counted[size] ?? null)
      : compare(stated, tally(steps), size),
  );
  const counts = checked.every((one) => one === null || one.matches);
  return { ...outcome, counted: checked, counts, makes: checked.map((one) => one?.makes ?? null) };
}

function timesOfHead(line: RowLine, sizes: number): Repeats {
  const head = line.head;
  if (!head || (head.to === null && head.many === null))
    return { most: 1, each: Array(sizes).fill(1), times: head?.open ? null : [1], even: true };
  const list: readonly (number | null)[] =
    head.many ??
    (head.to as readonly (number | null)[]).map((n) => (n === null ? null : n - (head.from ?? 1) + 1));
  const each = [...Array(sizes).keys()].map((size) => Math.max(forSize(list as Sized, size) ?? 1, 1));
  return { most: Math.max(...each), each, times: list.length === 1 ? [each[0] ?? 1] : each, even: true };
}

function planKey(line: RowLine, plan: RowPlan): string {
  return `${line.text}${plan === line.plan ? "" : `\n${plan.choices.length}${JSON.stringify(plan.instructions[0])}`}`;
}

function copyPlan(plan: RowPlan, stated: RowPlan["stated"], line: RowLine): RowPlan {
  return { ...plan, stated, statedSpan: line.plan?.statedSpan ?? null };
}

function onlySizes(state: State, sizes: readonly number[] | null): State {
  return sizes === null ? state : state.map((below, size) => (sizes.includes(size) ? below : null));
}

function keepOthers(after: State, before: State, sizes: readonly number[] | null): State {
  return sizes === null
    ? after.map((below, size) => below ?? before[size] ?? null)
    : after.map((below, size) => (sizes.includes(size) ? below : (before[size] ?? null)));
}

function plainState(n: Sized | null, sizes: number, before: State | null, kind: string): State | null {
  if (n === null) return null;
  return [...Array(sizes).keys()].map((size) => {
    const total = forSize(n, size);
    return total === null
      ? (before?.[size] ?? null)
      : { strip: plainStrip(kind, total), chain: null, ring: false, marked: null };
  });
}

function kindOf(below: Below | null): string {
  const node = below?.strip.find((one) => !("body" in one));
  return node && !("body" in node) ? node.kind : "sc";
}

function hasTakes(plan: RowPlan): boolean {
  return plan.instructions.some(
    (instruction) => "takes" in instruction && instruction.takes.some((take) => take.how !== "nowhere"),
  );
}

function turnsFirst(plan: RowPlan): boolean {
  const turn = plan.instructions.findIndex((instruction) => instruction.op === "turn");
  const working = plan.instructions.findIndex(
    (instruction) =>
      instruction.op === "work" ||
      instruction.op === "group" ||
      instruction.op === "repeat" ||
      instruction.op === "either",
  );
  return turn >= 0 && (working < 0 || turn < working);
}

function turnsLast(plan: RowPlan): boolean {
  return plan.turns && !turnsFirst(plan);
}

/** Rings and foundation stitches: every stitch of the row stands on nothing. */
function standsOnNothing(list: readonly Instruction[]): boolean {
  let some = false;
  const look = (all: readonly Instruction[]): boolean =>
    all.every((instruction) => {
      if (instruction.op === "either") return look(instruction.options[0] ?? []);
      if (instruction.op === "repeat") return look(instruction.body);
      if (instruction.op !== "work" && instruction.op !== "group") return true;
      const free =
        (instruction.op === "work" && instruction.stitch.uses === 0 && instruction.stitch.makes > 0) ||
        instruction.takes.every((take) => take.how === "nowhere");
      some ||= free;
      return free;
    });
  return look(list) && some;
}

function foundationState(line: RowLine, next: RowLine | undefined, sizes: number): State {
  const ringed = /ring|circle|\bmr\b/i.test(line.text);
  const joined = /\bjoin|\bss\b|sl st/i.test(line.text);
  const intoRing = next !== undefined && (next.plan === null || standsOnNothing(next.plan.instructions));
  const chain = line.plan?.instructions.find(
    (instruction) => instruction.op === "chain" || instruction.op === "start",
  );
  const n = chain?.op === "chain" || chain?.op === "start" ? chain.n : null;
  return [...Array(sizes).keys()].map((size) => {
    const chains = n ? (forSize(n, size) ?? 0) : 0;
    if (intoRing || n === null || (ringed && !joined))
      return { strip: [], chain: null, ring: true, marked: null };
    if (joined) return { strip: plainStrip("ch", chains, "chain"), chain: null, ring: false, marked: null };
    return { strip: [], chain: chains, ring: false, marked: null };
  });
}

function escape(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
