import { baseOf, pieceKey } from "../notation/piece-names";
import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import { rowEnds } from "./bind-places";
import { carriedChain, startHabit } from "./bind-start";
import { forSize, type Instruction, type RowPlan, takesIn, targetsOf } from "./instructions";
import type { State } from "./outcome";
import type { Path } from "./paths";
import type { RowLine } from "./pattern";
import { sameState } from "./piece-run";
import { RowJudge, start } from "./row-judge";
import { isOnChain } from "./row-states";
import { rowsOfHead, type ScheduledRow } from "./schedule";
import { chainSide } from "./sources";
import {
  type Ends,
  eachSize,
  firstState,
  follows,
  nothing,
  standsOnNothing,
  startState,
  withElsewhere,
} from "./starting";
import { plainStrip, runsOf } from "./strip";
import { turnsFirst } from "./turns";
import type { WorkedRow } from "./worked";

/** Rows that say themselves what is done: on what they are worked, and how. */
export abstract class PlainRows extends RowJudge {
  /** The row before ended with the chain that opens this one. */
  protected carried: RowPlan | null = null;
  protected turnedLast = false;

  protected plain(line: RowLine, own: RowPlan): void {
    const plan = this.onEdge(line, this.withCarried(own, this.carried ?? this.carriedOver(line)));
    this.carried = carrying(own);
    const further = this.behind(plan);
    const paths = further ?? (this.startsAfresh(plan, line) ? this.startPaths(plan, line) : this.paths);
    const row = this.scheduled(line, plan);
    const schedule = { rows: [row], stated: plan.stated, ...rowsOfHead(line, this.sizes) };
    this.step(line, schedule, this.reaching(paths, plan));
  }

  /** `Working behind petals, *ch 4, BPsc around next CL`: the row further down that has the stitches it names. */
  private behind(plan: RowPlan): readonly Path[] | null {
    if (plan.onRow !== null || !plan.text.includes("behind")) return null;
    const kinds = kindsNamed(plan);
    const has = (state: State | null): boolean =>
      state?.some((below) => below?.strip && runsOf(below.strip).some(({ kind }) => kinds.has(kind))) ??
      false;
    const [now] = this.paths;
    if (kinds.size === 0 || !now?.state || has(now.state)) return null;
    const state = [...this.leaves.values()].findLast(has);
    return state ? [{ ...start, state, previous: now }] : null;
  }

  /** The row that ends the piece before with a chain, where the numbers run on across the heading. */
  private carriedOver({ head }: RowLine): RowPlan | null {
    if (this.done.length > 0 || head === null) return null;
    const over = ({ last }: Ends) =>
      last !== null && (head.from === null || follows(head.from, last)) ? last.carried : null;
    const found = over(this.ends);
    this.dependences.push((ends) => over(ends) === found);
    return found;
  }

  /** A chain that opens a later row and is worked back along adds to its edge; the row then goes on along the row below. */
  protected onEdge(line: RowLine, plan: RowPlan): RowPlan {
    const goesOn = this.lastRow?.kind === "row" && line.head?.from !== 1 && plan.onRow === null;
    return goesOn ? extended(plan) : plan;
  }

  /** A first row into a magic ring is one of a new part, even where no heading says so. */
  protected startsAfresh(plan: RowPlan, { head }: RowLine): boolean {
    if (head?.from === 1 && this.done.length > 0 && /\bmagic\b|\bm[rc]\b/i.test(plan.text)) return true;
    const further = plan.onRow !== null && plan.onRow !== this.lastRow?.head?.from;
    return plan.foundation !== null || further || this.paths.every((path) => path.state === null);
  }

  /** After a piece that ends with a slip, the work may go on from what that was to come to. */
  private startPaths(plan: RowPlan, line: RowLine): readonly Path[] {
    const previous = this.paths[0] ?? null;
    const state = this.startState(plan, line);
    const goesOn = (ends: Ends) =>
      ends.last !== null && ends.last.told !== null && sameState(state, ends.last.state);
    const isOwn = state === null || firstState(plan, this.sizes) !== null;
    const told = isOwn ? null : this.found((ends) => (goesOn(ends) ? (ends.last?.told ?? null) : null));
    const made = { ...start, state, previous };
    return told ? [made, { ...made, state: told, cost: 0.6 }] : [made];
  }

  protected startState(plan: RowPlan, line: RowLine): State | null {
    const isFirst = this.done.length === 0;
    if (isFirst && onSkipped(plan)) return null;
    const onRow = plan.onRow ?? (isFirst ? this.piece.talk.onRow : null);
    const own = onRow === null ? undefined : this.leaves.get(onRow);
    if (own) return own;
    const part = isFirst ? this.piece.talk.onStitches : null;
    return (
      (part && onPart(part, plan, this.sizes)) ??
      (onRow === null ? firstState(plan, this.sizes) : null) ??
      this.found((ends) => startState(plan, line, isFirst, this.sizes, ends, onRow)) ??
      (isFirst && plan.stated !== null ? this.borrowed() : null)
    );
  }

  /** Nothing tells what the first row is worked on, and nobody cut the yarn: the work may go on. */
  protected borrowed(): State | null {
    if (this.piece.talk.rejoined) return null;
    const last = (ends: Ends): Ends["last"] => (ends.last?.fastened === false ? ends.last : null);
    const from = last(this.ends);
    this.dependences.push((ends) => last(ends)?.name === from?.name);
    this.goesOnFrom = from && (from.name || say`the piece before`);
    return this.found((ends) => last(ends)?.state ?? null);
  }

  /** The ways so far, each with the other places that the row names. */
  protected reaching(paths: readonly Path[], plan: RowPlan): readonly Path[] {
    const alongChain = plan.instructions.some((one) => one.op === "other-side");
    if (plan.onPiece.length === 0 && !alongChain) return paths;
    return paths.map((path) => {
      const named = new Map<string, State | null>();
      for (const key of plan.onPiece) {
        const end = key === rowEnds ? this.rowEndsNow() : this.endOf(key, path.state);
        if (end !== "own") named.set(key, end);
      }
      const free = alongChain && !isOnChain(path.state) ? this.freeSideNow() : null;
      if (free) named.set(chainSide, free);
      return named.size === 0 ? path : { ...path, state: withElsewhere(path.state, named, this.sizes) };
    });
  }

  /** The starting chain seen from below, where rows stand on it. */
  protected freeSideNow(): State | null {
    return this.freeSide ?? this.found((ends) => ends.last?.freeSide ?? null);
  }

  /** The row ends of the rows so far, or of the piece before. */
  private rowEndsNow(): State | null {
    return this.done.length > 0 ? this.rowEnds : this.found((ends) => ends.last?.rowEnds ?? null);
  }

  /** One for each row that was worked; null where some are rounds, or nothing tells how many there are. */
  protected get rowEnds(): State | null {
    const isRow = ({ line, result }: WorkedRow): boolean =>
      line.kind !== "foundation" && (result !== "unchecked" || line.head?.from !== null);
    const rows = this.done.filter(isRow);
    const arePlain = rows.every(({ line, times }) => line.head?.word !== "round" && times !== null);
    if (!arePlain || rows.length === 0) return null;
    return [...Array(this.sizes).keys()].map((size) => {
      const n = rows.reduce((sum, { times }) => sum + (forSize(times ?? [1], size) ?? 0), 0);
      return { ...nothing, strip: plainStrip("row end", n) };
    });
  }

  /** A piece of which there are several is its own first leg. */
  protected endOf(key: string, own: State | null): State | null | "own" {
    const ownKey = pieceKey(this.piece.name);
    if (own !== null && key === ownKey) return "own";
    if (own !== null && baseOf(key) === baseOf(ownKey) && baseOf(key) === ownKey) return own;
    const end = this.found((ends) => ends.like(key));
    // `FO the first fluke. Make a second one`: both were made here.
    return end ?? (/ \d$/.test(key) ? own : null);
  }

  protected scheduled(line: RowLine, plan: RowPlan): ScheduledRow {
    const turned = (turnsFirst(plan) && !this.turnedBefore(line)) || this.turnedLast;
    const setting = { flat: this.isFlat(line, plan), turned };
    return { plan, setting, readAs: this.readAs.get(plan) ?? null };
  }

  /** `Turn.` ends the row before a heading, `Turn,` begins the one behind it: the work is turned once. */
  private turnedBefore({ head }: RowLine): boolean {
    if (this.done.length > 0 || head === null) return false;
    const before = ({ last }: Ends) =>
      last?.turned === true && head.from !== null && follows(head.from, last);
    const found = before(this.ends);
    this.dependences.push((ends) => before(ends) === found);
    return found;
  }

  /** Rounds have no end to stop short of; "row" alone does not prove that the work is flat. */
  protected isFlat(line: RowLine, plan: RowPlan): boolean {
    const short = /^r\s*\d/i.test(line.headText);
    if (line.head?.word === "round") return short && this.turning;
    if (plan.joins && !this.turning) return false;
    // Each row of a half motif begins with new yarn at the same edge, and nothing closes it.
    if (plan.joinsAnew && !line.content.goesRound) return true;
    return this.turning || !this.goesRound;
  }

  /** The chain at the end of the row before opens this one. */
  protected withCarried(plan: RowPlan, before: RowPlan | null): RowPlan {
    const chain = before?.carried[0];
    if (!before || chain?.op !== "chain") return plan;
    // `…, ch 12, turn` and then `sc in 2nd ch from hook`: the row is first worked back along that chain.
    if (takesIn(plan.instructions)[0]?.how === "from-hook" && plan.foundation === null)
      return opened(plan, before, () => onChain(plan, chain));
    if (plan.instructions.some((one) => one.op === "start")) return plan;
    return opened(plan, before, () => this.openedBy(chain, before, plan));
  }

  protected openedBy(chain: Extract<Instruction, { op: "chain" }>, before: RowPlan, plan: RowPlan): RowPlan {
    const declared = before.carriedDeclared;
    const ways = carriedChain(chain.n, plan.instructions, declared, this.context);
    if (!ways) return plan;
    const habit = startHabit(chain.n[0] ?? 0, ways.options);
    const choices = [
      ...plan.choices,
      { options: ways.says, costs: ways.costs, about: { chains: chain.n[0] ?? 0 }, habit },
    ];
    const opening = {
      op: "start" as const,
      n: chain.n,
      choice: plan.choices.length,
      options: ways.options,
      span: chain.span,
    };
    return { ...plan, choices, instructions: [opening, ...plan.instructions] };
  }
}

/** The kinds of stitches that a row works into by their names. */
const kindsNamed = keptBy((plan: RowPlan): ReadonlySet<string> => {
  const worked = plan.instructions.filter(({ op }) => op !== "slip");
  const targets = takesIn(worked).flatMap(targetsOf);
  return new Set(
    targets.flatMap(({ named, kind, part }) => (named && kind && part === undefined ? [kind] : [])),
  );
});

/** `sc in each of the 8 skipped sts`, in the first round of a thumb: which those are, no row in hand tells. */
function onSkipped({ instructions, foundation }: RowPlan): boolean {
  return (
    foundation === null &&
    takesIn(instructions).some((take) => take.how === "nowhere" && take.n !== undefined)
  );
}

/** So many stitches of what was made before, whichever they are; null for a row that begins on nothing. */
function onPart(part: readonly number[], plan: RowPlan, sizes: number): State | null {
  if (plan.foundation !== null || standsOnNothing(plan.instructions)) return null;
  if (part.length !== 1 && part.length !== sizes) return null;
  return eachSize(sizes, (size) => ({
    ...nothing,
    strip: plainStrip("sc", forSize(part, size) ?? 0),
    told: "stitches",
  }));
}

/** A row that ends with the chain that opens the next; null for others. */
export function carrying(plan: RowPlan | null): RowPlan | null {
  return plan && plan.carried.length > 0 ? plan : null;
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

function onChain(plan: RowPlan, { n, span }: Extract<Instruction, { op: "chain" }>): RowPlan {
  return { ...plan, instructions: [{ op: "extend", n, span }, ...plan.instructions] };
}

/** Whether an instruction takes places that no chain has. */
function leavesChain(instruction: Instruction): boolean {
  if (instruction.op === "repeat") return instruction.body.some(leavesChain);
  if (!("takes" in instruction)) return false;
  return instruction.takes.some((take) => {
    if (take.how === "each") return take.of.every(({ sort }) => sort !== "chain");
    return (take.how === "next" || take.how === "last") && take.of.sort !== "chain";
  });
}
