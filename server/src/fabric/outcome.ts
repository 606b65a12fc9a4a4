import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import type { Below, More } from "./below";
import { type Counted, compare, plainKinds, statesEverySize, sumOf, tally } from "./count";
import { passesIn } from "./goings";
import type { Choice, RowPlan } from "./instructions";
import { forSize } from "./instructions";
import { type Steps, stripOf } from "./steps";
import { countPlaces, findPlace, keyOf, plainStrip, reverse, runAt, type Strip, stitches } from "./strip";
import { closely, type ViewOption, viewsOf } from "./views";
import { type Walk, walk } from "./walker";

/** What a row finds, one entry a size; `null`: the size does not work it. */
export type State = readonly (Below | null)[];

/** One way to understand a row, worked for every size. */
export interface Outcome {
  readonly needs: readonly (number | null)[];
  readonly has: readonly (number | null)[];
  readonly makes: readonly (number | null)[];
  /** Stitches made by all rows of the line together, chains and spaces apart; null where only the end is known. */
  readonly inAll: readonly (number | null)[];
  readonly counted: readonly (Counted | null)[];
  /** Of the last row. */
  readonly steps: readonly (readonly Steps[])[];
  /** All rows of the line, in order. */
  readonly worked: readonly RowsAlike[];
  readonly leaves: Leaves;
  readonly fits: boolean;
  /** Of a line that stands for several rows: the first that does not fit, where the very first one does. */
  readonly misfit?: Misfit;
  readonly counts: boolean;
  /** Flat work that stops with more than two places left and agrees otherwise. */
  readonly stopsEarly: boolean;
  readonly cost: number;
  /** Which option of each choice of the plan it takes. */
  readonly reading: readonly number[];
  readonly assumptions: readonly string[];
  /** The option taken in each doubt that a pattern settles in one way throughout. */
  readonly meant: readonly Meant[];
  readonly outOfReach: string | null;
  /** What was only supposed: where the row does not come out right, it is unchecked for this reason. */
  readonly supposed: string | null;
  /** Not of rows that are told only by what they do to the count. */
  readonly how?: How;
}

/** How a row was worked: all it takes to work it again, on other places or for more repeats. */
export interface How {
  readonly plan: RowPlan;
  /** What it found, as it lies when the row begins. */
  readonly state: State;
  readonly option: Option;
}

/** Rows of a line that come to the same, or that change evenly from one to the next. */
export interface RowsAlike extends Pick<Outcome, "steps"> {
  readonly plan: RowPlan;
  /** Which of the rows that the line asks for in turn: 1 for Row 3 in `Rep Rows 2 and 3`. */
  readonly turn: number;
  readonly times: number;
  /** The steps of the row before these, where every number in them changes by as much from row to row. */
  readonly before: Outcome["steps"] | null;
}

/** A row that does not fit the row before it, which is the last of so many that do. */
export interface Misfit extends Pick<Outcome, "needs" | "has"> {
  readonly after: number;
}

export interface Meant {
  readonly topic: string;
  readonly means: string;
}

/** The places that a row leaves, worked out when somebody asks: of a way that is only tried nobody does. */
export class Leaves {
  constructor(
    private walks: readonly (Walk | null)[] | null,
    private places: State,
  ) {}

  get state(): State {
    if (this.walks)
      this.places = this.walks.map((one, size) => (one ? leftBy(one) : (this.places[size] ?? null)));
    this.walks = null;
    return this.places;
  }
}

const readingsAtMost = 96;

export interface Option extends ViewOption {
  readonly reading: readonly number[];
}

export interface RowSetting {
  readonly flat: boolean;
  /** The work was turned before the row: its places come in reverse. */
  readonly turned: boolean;
}

/** Every usual way to work a row on the places it finds, cheapest first. */
export function outcomesOf(plan: RowPlan, state: State, setting: RowSetting): Outcome[] {
  return new WaysToWork(plan, state, setting).all();
}

/** Ways to work a row, cheapest first. */
export interface Ways {
  all(): Outcome[];
  /** The way that reads the row as another outcome does. */
  readAs(outcome: Outcome): Outcome | undefined;
  /** The first way that satisfies, among those that cost no more. */
  find(satisfies: (outcome: Outcome) => boolean, cost?: number): Outcome | undefined;
}

/** The usual ways to work a row on the places it finds; each is worked when it is first asked for. */
export class WaysToWork implements Ways {
  private readonly found: State;
  private readonly options: readonly Option[];
  private readonly worked: Outcome[] = [];

  constructor(
    private readonly plan: RowPlan,
    state: State,
    private readonly setting: RowSetting,
  ) {
    this.found = setting.turned ? state.map((below) => below && turnedOver(below)) : state;
    this.options = optionsOf(plan, this.found, setting);
  }

  /** A usual way that fits and counts as stated leaves nothing for the unusual ones to settle. */
  all(): Outcome[] {
    const outcomes: Outcome[] = [];
    for (const [i, option] of this.options.entries()) {
      const settled =
        this.plan.stated !== null && outcomes.some((one) => isRight(one) && one.cost < option.cost);
      if (settled) break;
      outcomes.push(this.at(i));
    }
    return outcomes;
  }

  readAs({ cost, assumptions }: Outcome): Outcome | undefined {
    const says = assumptions.join();
    const i = this.options.findIndex((option) => option.cost === cost && option.says.join() === says);
    return i < 0 ? undefined : this.at(i);
  }

  find(satisfies: (outcome: Outcome) => boolean, cost = Number.POSITIVE_INFINITY): Outcome | undefined {
    const i = this.options.findIndex((option, i) => option.cost <= cost && satisfies(this.at(i)));
    return i < 0 ? undefined : this.at(i);
  }

  private at(i: number): Outcome {
    let outcome = this.worked[i];
    if (!outcome) {
      outcome = workOut(this.plan, this.found, this.setting, this.options[i] as Option);
      this.worked[i] = outcome;
    }
    return outcome;
  }
}

function isRight(outcome: Outcome): boolean {
  return outcome.fits && outcome.counts && outcome.outOfReach === null;
}

/** The places of a row as they come when the work is turned. */
export function turnedOver(below: Below): Below {
  const marked = below.marked === null ? null : countPlaces(below.strip) - 1 - below.marked;
  return { ...below, strip: reverse(below.strip), marked };
}

function optionsOf(plan: RowPlan, state: State, setting: RowSetting): Option[] {
  const readings = combine(plan.choices);
  const views = viewsOf(plan, state, setting);
  const out: Option[] = [];
  for (const reading of readings)
    for (const view of views)
      out.push({
        view: view.view,
        closeness: view.closeness,
        reading: reading.reading,
        cost: reading.cost + view.cost,
        says: [...reading.says, ...view.says],
      });
  return out.sort((a, b) => a.cost - b.cost).slice(0, readingsAtMost);
}

function combine(choices: readonly Choice[]): { reading: number[]; cost: number; says: string[] }[] {
  let all: { reading: number[]; cost: number; says: string[] }[] = [{ reading: [], cost: 0, says: [] }];
  for (const choice of choices) {
    all = all.flatMap((one) =>
      choice.options.map((says, i) => ({
        reading: [...one.reading, i],
        cost: one.cost + (choice.costs[i] ?? 0),
        says: choice.options.length > 1 ? [...one.says, says] : one.says,
      })),
    );
    // The usual ones are kept, whichever choices they belong to.
    if (all.length > readingsAtMost) all = all.sort((a, b) => a.cost - b.cost).slice(0, readingsAtMost);
  }
  return all;
}

function workOut(plan: RowPlan, state: State, setting: RowSetting, option: Option): Outcome {
  const how = { plan, state, option };
  const walks = state.map((_, size) => {
    const below = seenBy(how, size);
    return below && workAgain(how, below, size, null);
  });
  return judge(how, setting, walks);
}

/** What a size finds, as closely as the row looks at it; null where it does not work the row. */
export function seenBy({ plan, state, option }: How, size: number): Below | null {
  const below = state[size] ?? null;
  return below === null || notWorked(plan, size, state.length) ? null : closely(plan, option, below);
}

/** Works a row the same way again, on these places. */
export function workAgain({ plan, option }: How, below: Below, size: number, more: More | null): Walk {
  return walk(plan.instructions, below, option.reading, size, option.view, more);
}

/** `-` in the row's numbers: this size does not work it. */
function notWorked(plan: RowPlan, size: number, sizes: number): boolean {
  if (sizes === 1) return false;
  const lacks = (value: unknown): boolean => {
    if (value === null || typeof value !== "object") return false;
    const isList =
      Array.isArray(value) && value.length > 1 && value.every((n) => n === null || typeof n === "number");
    return isList ? value[size] === null : Object.values(value).some(lacks);
  };
  return plan.instructions.some(lacks);
}

function judge(how: How, setting: RowSetting, walks: readonly (Walk | null)[]): Outcome {
  const { plan, state, option } = how;
  const sums = walks.map((one) => (one ? tally(one.steps) : null));
  const counted = sums.map((sum, size) =>
    sum ? compare(plan.stated, sum, size, passesIn(walks[size]?.goings ?? [])) : null,
  );
  const tooMany = walks.some(isBeyondCounting) || counted.some((one) => (one?.makes ?? 0) > countable);
  const outOfReach =
    walks.find((one) => one?.outOfReach)?.outOfReach ??
    plan.outOfReach ??
    (tooMany ? say`it comes to more stitches than anyone can work` : null);
  const left = walks.map((one) => (one ? (one.has ?? 0) - (one.needs ?? 0) : 0));
  const fits = left.every((n) => n === 0);
  const counts = counted.every((one) => one === null || one.matches) && statesEverySize(plan.stated, walks);
  const early =
    !fits &&
    setting.flat &&
    counts &&
    left.every((n) => n === 0 || n > 2) &&
    !walks.some((one) => one?.uneven) &&
    !hasToEnd(plan.instructions);
  const steps = walks.map((one) => one?.steps ?? []);
  return {
    needs: walks.map((one) => one?.needs ?? null),
    has: walks.map((one) => one?.has ?? null),
    makes: counted.map((one) => one?.makes ?? null),
    inAll: sums.map((sum) => sum && sumOf(sum.stitches.values())),
    counted,
    steps,
    worked: [{ plan, turn: 0, steps, times: 1, before: null }],
    leaves: new Leaves(walks, state),
    fits,
    counts,
    stopsEarly: early,
    cost: option.cost,
    reading: option.reading,
    assumptions: option.says,
    meant: meantBy(plan.choices, option.reading),
    outOfReach,
    supposed: walks.find((one) => one?.supposed)?.supposed ?? null,
    how,
  };
}

/** Far more than any row has, and few enough that all sums are exact. */
const countable = 1e15;

function isBeyondCounting(one: Walk | null): boolean {
  return one !== null && ((one.needs ?? 0) > countable || (one.has ?? 0) > countable);
}

/** The places that a worked row leaves. */
function leftBy({ steps, marked }: Walk): Below {
  return { strip: stripOf(steps), chain: null, ring: false, marked };
}

/** The doubts whose reading an outcome takes for granted, with the option that it takes. */
export function takenForGranted({
  worked,
  reading,
  assumptions,
}: Outcome): { doubt: Choice; option: number }[] {
  return (worked[0]?.plan.choices ?? []).flatMap((doubt, i) => {
    const option = reading[i] ?? 0;
    return assumptions.includes(doubt.options[option] ?? "") ? [{ doubt, option }] : [];
  });
}

function meantBy(choices: readonly Choice[], reading: readonly number[]): Meant[] {
  return choices.flatMap(({ habit, options }, i): Meant[] => {
    const means = habit?.means[reading[i] ?? 0];
    return habit && means !== undefined && options.length > 1 ? [{ topic: habit.topic, means }] : [];
  });
}

function hasToEnd(list: RowPlan["instructions"]): boolean {
  return list.some((instruction) => {
    if (instruction.op === "repeat") return instruction.times.how === "to-end" || hasToEnd(instruction.body);
    return (
      "takes" in instruction && instruction.takes.some((take) => take.how === "each" || take.how === "last")
    );
  });
}

/** The places a designer had in mind who stated this count. */
export function statedState(plan: RowPlan, after: State): State | null {
  const stated = plan.stated;
  if (stated === null) return null;
  const first = stated.filter((term) => term.sort !== "space" && term.sort !== "chain");
  return after.map((below, size) => {
    if (below === null) return null;
    const total = sumOf(first.map((term) => forSize(term.n, size) ?? 0));
    const spaces = stated.filter((term) => term.sort === "space");
    const kind = first[0]?.sort === "stitch" ? first[0].noun : mainKind(below.strip);
    const strip =
      spaces.length === 0
        ? plainStrip(kind, total)
        : spread(kind, total, forSize(spaces[0]?.n ?? [0], size) ?? 0, spaces[0]?.chains ?? 1);
    return { strip, chain: null, ring: false, marked: below.marked };
  });
}

function spread(kind: string, total: number, spaces: number, chains: number): Strip {
  if (spaces === 0) return plainStrip(kind, total);
  const each = Math.floor(total / spaces);
  const space = { sort: "space", kind: "ch", n: 1, chains } as const;
  return [
    { body: [...plainStrip(kind, each), space], times: spaces },
    ...plainStrip(kind, total - each * spaces),
  ];
}

function mainKind(strip: Strip): string {
  return runAt(strip, findPlace(strip, 0, stitches))?.kind ?? "sc";
}

/** Equal for states with equal places. */
export const stateKey = keptBy((state: State) => keyOfState(state));

function keyOfState(state: State): string {
  return state
    .map((below) =>
      below === null
        ? "-"
        : `${keyOf(below.strip)}|${below.chain ?? ""}${below.ring ? "o" : ""}${below.marked ?? ""}${below.told?.[1] ?? ""}${keyOfElsewhere(below)}`,
    )
    .join(";");
}

function keyOfElsewhere({ elsewhere }: Below): string {
  return elsewhere ? [...elsewhere].map(([name, strip]) => `@${name}:${keyOf(strip)}`).join("") : "";
}

export { plainKinds, tally };

/** So many stitches of one kind for each size; sizes without a number keep what they had. */
export function plainState(
  n: readonly (number | null)[],
  sizes: number,
  before: State | null,
  kind: string,
): State {
  return [...Array(sizes).keys()].map((size) => {
    const total = forSize(n, size);
    if (total === null) return before?.[size] ?? null;
    return { strip: plainStrip(kind, total), chain: null, ring: false, marked: null };
  });
}

/** A row that stops early, taken to leave the rest unworked: it is worked over all that it found. */
export function leavingRest(outcome: Outcome): Outcome {
  const { needs, has, steps } = outcome;
  const whole = steps.map((own, size) => {
    const at = needs[size] ?? 0;
    const left = (has[size] ?? 0) - at;
    const span = { start: 0, end: 0 };
    const rest: Steps = { kind: "skip", sort: "none", n: left, at, uses: 1, perPlace: 1, span };
    return left > 0 ? [...own, rest] : own;
  });
  const worked = outcome.worked.map((row) => (row.steps === steps ? { ...row, steps: whole } : row));
  // Its instructions alone would not leave the rest: nobody is to work them again.
  const { how: _, ...known } = outcome;
  return { ...known, needs: has, fits: true, stopsEarly: false, steps: whole, worked };
}

/** What its count is in, where nothing that was made answers to it. */
export function unknownNoun(outcome: Outcome): string | null {
  return outcome.counted.find((one) => one?.unknownNoun)?.unknownNoun ?? null;
}
