import { baseOf } from "../notation/piece-names";
import type { Sized } from "../notation/words";
import type { Below } from "./below";
import { forSize, type Instruction, type RowPlan, type Take, takesIn } from "./instructions";
import type { State } from "./outcome";
import type { RowLine } from "./pattern";
import { plainStrip } from "./strip";

export const nothing: Below = { strip: [], chain: null, ring: false, marked: null };
const ring: Below = { ...nothing, ring: true };

export function eachSize(sizes: number, below: (size: number) => Below | null): State {
  return [...Array(sizes).keys()].map(below);
}

export interface PieceEnd {
  readonly state: State;
  /** What its last row states, where that makes something else: the next piece may be written for it. */
  readonly told: State | null;
  readonly number: number;
  /** The side of its starting chain that no row was worked on. */
  readonly freeSide: State | null;
  readonly name: string;
  /** The yarn was cut. */
  readonly fastened: boolean;
  /** The work was turned behind its last row. */
  readonly turned: boolean;
  /** Its last row, where that ends with the chain that opens the next one. */
  readonly carried: RowPlan | null;
  /** The ends of its rows, where it was worked in rows. */
  readonly rowEnds: State | null;
}

/** What a piece leaves for those behind it. */
export interface LeftByPiece {
  /** What it goes by. */
  readonly key: string;
  readonly end: PieceEnd | null;
  /** The line that each row number stands for. */
  readonly lines: ReadonlyMap<number, RowLine>;
  /** What its numbered rows left. */
  readonly leaves: ReadonlyMap<number, State>;
  /** What its first row was worked on. */
  readonly first: State | null;
  /** Its numbers run on from the piece before, whose lines are among its own. */
  readonly runsOn: boolean;
  /** How its rows were understood. */
  readonly readings: ReadonlyMap<RowPlan, readonly string[]>;
}

/** Where pieces and their numbered rows ended: later pieces may be worked on them. */
export class Ends {
  private readonly pieces = new Map<string, State>();
  /** What the numbered rows of each piece left. */
  private readonly leaves: ReadonlyMap<number, State>[] = [];
  /** Pieces whose numbers run on up to the last one. */
  private within: readonly string[] = [];
  /** What the first row of each piece was worked on. */
  private readonly firsts = new Map<string, State>();
  private readonly rowLines = new Map<string, ReadonlyMap<number, RowLine>>();
  /** How rows of the pieces were understood. */
  private readonly readings: ReadonlyMap<RowPlan, readonly string[]>[] = [];
  /** The end of the piece before, and the number of its last row. */
  last: PieceEnd | null = null;

  add({ key, end, lines, leaves, first, runsOn, readings }: LeftByPiece): void {
    if (readings.size > 0) this.readings.push(readings);
    // What comes under a heading within a piece has rows of that piece.
    this.within = runsOn ? [...this.within, key] : [key];
    if (first) this.firsts.set(key, first);
    this.last = end;
    if (end) this.pieces.set(key, end.state);
    for (const one of this.within) this.rowLines.set(one, lines);
    if (leaves.size > 0) this.leaves.push(leaves);
  }

  /** What the row of this number left, in the last piece that has one. */
  row(number: number): State | null {
    return this.leaves.findLast((rows) => rows.has(number))?.get(number) ?? null;
  }

  /** How a row was understood where it stands; null where its usual reading was right. */
  readAs(plan: RowPlan): readonly string[] | null {
    return this.readings.findLast((read) => read.has(plan))?.get(plan) ?? null;
  }

  /** The lines of a piece by row number: `as for Body`. */
  linesOf(key: string): ReadonlyMap<number, RowLine> | undefined {
    return this.rowLines.get(key);
  }

  /** What the first row of a piece was worked on: its starting chain, or a ring. */
  firstOf(key: string): State | null {
    return this.firsts.get(key) ?? null;
  }

  /** Where a piece ended, or another one like it: the second leg as the first. */
  like(key: string): State | null {
    const base = baseOf(key);
    const all = [...this.pieces];
    const alike = all.findLast(([name]) => baseOf(name) === base);
    // Under "Foot and leg", the leg is what it ends with.
    const partly = (): (typeof all)[number] | undefined =>
      all.findLast(([name]) => baseOf(name).endsWith(` ${base}`));
    return this.pieces.get(key) ?? (alike ?? partly())?.[1] ?? null;
  }
}

/** What a row stands on that does not go on from the row above; null where nothing tells. */
export function startState(
  plan: RowPlan,
  line: RowLine,
  isFirst: boolean,
  sizes: number,
  ends: Ends,
  onRow: number | null,
): State | null {
  const named = onRow === null ? null : ends.row(onRow);
  return named ?? firstState(plan, sizes) ?? (isFirst ? runsOn(line, ends) : null);
}

/** A heading in the middle of the numbers: the work goes on from the piece before. */
function runsOn({ head }: RowLine, { last }: Ends): State | null {
  if (head === null || last === null) return null;
  return head.from === null || follows(head.from, last) ? last.state : null;
}

/** The numbers run on from the piece before; behind a row without a number nobody can tell. */
export function follows(number: number, last: PieceEnd): boolean {
  return last.number > 0 && number === last.number + 1;
}

/** What a row that has nothing below it stands on; null where nothing tells. */
export function firstState({ foundation, instructions }: RowPlan, sizes: number): State | null {
  if (foundation) return eachSize(sizes, (size) => ({ ...nothing, chain: forSize(foundation, size) ?? 0 }));
  return standsOnNothing(instructions) ? eachSize(sizes, () => ring) : null;
}

/** A starting chain or ring on a line of its own. */
export function foundationState(
  line: RowLine,
  next: Pick<RowLine, "plan"> | undefined,
  sizes: number,
): State {
  const stitches = foundationStitches(line, sizes);
  if (stitches) return stitches;
  const joined = /\bjoin|\bss\b|sl st/i.test(line.text);
  const intoRing = next !== undefined && (next.plan === null || standsOnNothing(next.plan.instructions));
  // `dc in ring, …, hdc in top of beg ch-3`: the last stitch closes the round.
  const [first] = (next?.plan?.instructions ?? []).flatMap(worksOf);
  const beginsInRing = named(line.text) && first !== undefined && isFree(first);
  const n = chainOf(line);
  const smallRing = named(line.text) && next?.plan != null && n !== null && fillsRing(next.plan, n);
  if (smallRing || intoRing || beginsInRing || n === null || (named(line.text) && !joined))
    return eachSize(sizes, () => ring);
  // What the row itself says of its first stitch holds.
  const told = takesIn(next?.plan?.instructions ?? []).some(({ how }) => how === "from-hook");
  const passed = told ? 0 : passedChains(line.text) || passedByTurning(line, next, n);
  return eachSize(sizes, (size) => {
    const all = forSize(n, size);
    if (all === null) return null;
    const chains = Math.max(all - passed, 0);
    return joined ? { ...nothing, strip: plainStrip("ch", chains, "chain") } : { ...nothing, chain: chains };
  });
}

/** `Fdc 32.`: so many stitches that stand on nothing; null where the line makes none. */
function foundationStitches({ plan }: RowLine, sizes: number): State | null {
  const [work] = (plan?.instructions ?? []).flatMap(worksOf);
  if (work?.op !== "work" || work.stitch.uses > 0 || work.stitch.makes === 0) return null;
  const { stitch, takes } = work;
  const n = takes[0]?.how === "next" ? takes[0].n : null;
  if (n === null) return null;
  return eachSize(sizes, (size) => {
    const all = forSize(n, size);
    return all === null ? null : { ...nothing, strip: plainStrip(stitch.kind, all) };
  });
}

function named(text: string): boolean {
  return /ring|circle|\bmr\b/i.test(text);
}

/** Chains of a ring that stitches go into, not onto. */
const longestRing = 10;

/** `Ch 4, join to form ring`, then `ch 3, 2 dc, ch 2, 3 dc`: more stitches than chains, and no place named. */
function fillsRing({ instructions }: RowPlan, chains: Sized): boolean {
  if ((chains[0] ?? 0) > longestRing) return false;
  const ofPlace = (take: Take): number =>
    take.how === "next" && take.unplaced ? (take.n[0] ?? 0) : Number.NaN;
  const inAll = takesIn(instructions).reduce((sum, take) => sum + ofPlace(take), 0);
  return inAll > (chains[0] ?? 0);
}

const withMore =
  /(\d+)\s*(?:chs?|chains?|sts?)?\s*(?:\+|plus|and)\s*(\d+)\s*(?:more|extra|to turn|for|as|ch)/i;

function chainOf(line: RowLine): Sized | null {
  // `a chain of 26 plus 1 to turn`
  const more = withMore.exec(line.text);
  if (more) return [Number(more[1]) + Number(more[2])];
  const chain = line.plan?.instructions.find((one) => one.op === "chain" || one.op === "start");
  if (chain?.op === "chain" || chain?.op === "start") return chain.n;
  if (line.plan?.foundation) return line.plan.foundation;
  const told = /(\d+)\s*(?:ch|chains?)\b|\bch(?:ain)?s?\W+(\d+)/i.exec(line.text);
  return told ? [Number(told[1] ?? told[2])] : null;
}

/** `Make a chain of 9, turn`, and a first row of 8: one chain is passed although nobody says so. */
function passedByTurning(line: RowLine, next: Pick<RowLine, "plan"> | undefined, chains: Sized): number {
  const [first] = next?.plan?.stated ?? [];
  const isOneLess = first?.n.every((count, size) => count !== null && count + 1 === forSize(chains, size));
  return isOneLess && /\bturn\b/i.test(line.text) ? 1 : 0;
}

/** `We start from the 2nd chain`, `from the second loop from the hook:` one chain is passed. */
function passedChains(text: string): number {
  const told =
    /\b(?:(?:start|begin)(?:ing)?\s+(?:from|in|at)|from)\s+(?:the\s+)?(?:(\d+)(?:nd|rd|th)|(second)|(third)|fourth)\s+(?:ch|loop|st)/i.exec(
      text,
    );
  return told ? Number(told[1] ?? (told[2] ? 2 : told[3] ? 3 : 4)) - 1 : 0;
}

/** The row's places with others that it names, by their key; null where one of them is not known. */
export function withElsewhere(
  below: State | null,
  named: ReadonlyMap<string, State | null>,
  sizes: number,
): State | null {
  if ([...named.values()].includes(null)) return null;
  return eachSize(sizes, (size) => {
    const strips = [...named].map(([key, state]) => [key, state?.[size]?.strip ?? []] as const);
    return { ...(below?.[size] ?? nothing), elsewhere: new Map(strips) };
  });
}

/** Rings and foundation stitches: every stitch of the row stands on nothing. */
export function standsOnNothing(list: readonly Instruction[]): boolean {
  const works = list.flatMap(worksOf);
  return works.length > 0 && works.every(isFree);
}

type Work = Extract<Instruction, { op: "work" | "group" }>;

function worksOf(instruction: Instruction): Work[] {
  if (instruction.op === "either") return (instruction.options[0] ?? []).flatMap(worksOf);
  if (instruction.op === "repeat") return instruction.body.flatMap(worksOf);
  return instruction.op === "work" || instruction.op === "group" ? [instruction] : [];
}

function isFree(work: Work): boolean {
  const foundation = work.op === "work" && work.stitch.uses === 0 && work.stitch.makes > 0;
  return foundation || work.takes.every((take) => take.how === "nowhere");
}
