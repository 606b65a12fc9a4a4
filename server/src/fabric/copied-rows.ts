import { pieceKey } from "../notation/piece-names";
import { say } from "../text/say";
import type { Below } from "./below";
import { type Copy, copyOf } from "./copies";
import { countedOutcome } from "./counted-rows";
import { forSize, type RowPlan } from "./instructions";
import type { State } from "./outcome";
import type { Path } from "./paths";
import type { RowLine } from "./pattern";
import { carrying, PlainRows } from "./plain-rows";
import { start } from "./row-judge";
import { rowsOfHead, type Schedule, type ScheduledRow } from "./schedule";
import { type Ends, follows } from "./starting";
import { countPlaces } from "./strip";

/** Lines that stand for other rows. */
export abstract class CopiedRows extends PlainRows {
  /** Lines that repeat rows that are not there. */
  private readonly lost = new Set<RowLine>();
  /** The rows that say themselves what they do. */
  protected readonly plains: RowLine[] = [];

  /** Which line each row number of a head stands for, so that later rows can name it. */
  protected number(line: RowLine, rows: readonly RowLine[]): void {
    const { from, to } = line.head ?? { from: null, to: null };
    if (from === null) return;
    const last = Math.max(from, ...(to ?? []).map((n) => n ?? from));
    for (let n = from; n <= Math.min(last, from + 2000); n++)
      this.byNumber.set(n, rows[(n - from) % rows.length] as RowLine);
  }

  protected copied(line: RowLine, copy: Copy): void {
    if (copy.how === "each-end")
      return this.counted(
        line,
        copy.times.map((n) => n * copy.by),
        copy.rows,
      );
    if (copy.how === "each-end-until") return this.untilLeft(line, copy);
    if (copy.how === "goes-on-until") return this.goesOnUntil(line, copy.left);
    if (copy.how === "even") return this.counted(line, [0], copy.times);
    const numbers = copy.how === "rows" ? copy.rows : Array<null>(copy.rows).fill(null);
    const lines = this.linesOf(copy);
    const last = copy.how === "rows" ? [] : this.lastRows(copy);
    const named = numbers.map((n, i) =>
      n === null ? (last[i] ?? null) : (lines.get(n) ?? this.lineAbove(n, line, copy)),
    );
    const missing = named.findIndex((row) => row?.plan == null);
    if (missing >= 0) return this.lacks(line, numbers[missing] ?? null, copy);
    this.number(line, named as RowLine[]);
    this.copiedRows = named as RowLine[];
    this.copiedLast = named.at(-1)?.plan ?? null;
    const slip = this.copiedRows.find(
      (row) => this.lost.has(row) || this.slipped.get(row) === "does-not-fit",
    );
    if (slip) return this.repeatsSlip(line, slip);
    this.repeatRows(line, named as RowLine[], copy);
  }

  protected lacks(line: RowLine, number: number | null, copy: Copy): void {
    this.tellLack(line, number, copy);
    // Those that repeat it stand behind it: its number is taken from here on.
    this.lost.add(line);
    this.number(line, [line]);
  }

  private tellLack(line: RowLine, number: number | null, copy: Copy): void {
    const which = number === null ? say`row before this one` : say`row ${number}`;
    const isOwn = number !== null && copy.how === "rows" && !copy.ofOther && copy.of === null;
    const piece = copy.how === "rows" && copy.of !== null ? `"${copy.of}"` : say`this piece`;
    this.unchecked(line, say`there is no ${which} in ${piece} to repeat`, this.paths[0]?.state ?? null);
    const isKnown = copy.how === "rows" && copy.of !== null && this.linesOf(copy).size > 0;
    if (isKnown && number !== null && copy.how === "rows")
      return this.blame({ fault: { sort: "no-such-row", number, piece: copy.of } });
    // A piece with numbers of its own from 1 on means those, not another piece's.
    if (isOwn && !this.byNumber.has(number))
      this.blame({
        fault: this.byNumber.has(1) ? { sort: "no-such-row", number, piece: null } : this.noSuchRow(number),
      });
  }

  /** A line, or the first of the rows that it stands for. */
  protected standingFor(line: RowLine): RowLine {
    const copy = copyOf(line.content);
    if (copy?.how !== "rows") return line;
    return this.linesOf(copy).get(copy.rows[0] ?? 0) ?? line;
  }

  /** The lines by number that a copy takes its rows from: this piece's, or another's. */
  protected linesOf(copy: Copy): ReadonlyMap<number, RowLine> {
    const key = copy.how === "rows" ? copy.of : null;
    if (key === null || key === pieceKey(this.piece.name)) return this.byNumber;
    const found = this.ends.linesOf(key);
    this.dependences.push((ends) => sameLines(found, ends.linesOf(key)));
    return found ?? noLines;
  }

  /** The numbers run on across a heading, and the row stands above it. */
  private lineAbove(number: number, { head }: RowLine, copy: Copy): RowLine | null {
    const isOwn = copy.how === "rows" && copy.of === null;
    return (isOwn && this.linesAbove(head?.from ?? null)?.get(number)) || null;
  }

  /** The lines of the piece before, where the numbers of this one run on from its last. */
  private linesAbove(from: number | null): ReadonlyMap<number, RowLine> | undefined {
    const [first = from ?? 0] = this.byNumber.keys();
    const above = (ends: Ends) =>
      ends.last !== null && follows(first, ends.last) ? ends.linesOf(pieceKey(ends.last.name)) : undefined;
    const found = above(this.ends);
    this.dependences.push((ends) => sameLines(found, above(ends)));
    return found;
  }

  /** The lines that later pieces may take rows from, by their number. */
  protected get allLines(): { lines: ReadonlyMap<number, RowLine>; runsOn: boolean } {
    const above = this.linesAbove(null);
    const lines = above ? new Map([...above, ...this.byNumber]) : this.byNumber;
    return { lines, runsOn: above !== undefined };
  }

  /** `Dec 1 st at each end of every row until 3 sts rem`: as many rows as that takes. */
  protected untilLeft(line: RowLine, { by, left, apart }: Extract<Copy, { how: "each-end-until" }>): void {
    const found = this.paths[0]?.state?.map((below) => below && countPlaces(below.strip)) ?? [];
    const times = found.map((n, size) => (n === null ? 0 : ((forSize(left, size) ?? 0) - n) / by));
    if (times.length === 0 || times.some((n) => n < 0 || !Number.isInteger(n)))
      return this.unchecked(line, say`it does not come out at that number`, this.paths[0]?.state ?? null);
    this.counted(
      line,
      times.map((n) => n * by),
      times.map((n) => n * apart),
    );
  }

  /** `Continue increasing in this manner until there are 78 sts`: by as many each time as in the row before. */
  private goesOnUntil(line: RowLine, left: readonly number[]): void {
    const [path] = this.paths;
    if (left.length === 0)
      return this.unchecked(
        line,
        say`only how the rows change is told, not how each of them is worked`,
        path?.state ?? null,
      );
    const now = path?.state?.map(stitchesOn) ?? [];
    const before = path?.previous?.state?.map(stitchesOn) ?? [];
    const by = now.map((n, size) => n - (before[size] ?? n));
    const times = now.map((n, size) => ((forSize(left, size) ?? n) - n) / (by[size] ?? 0));
    if (times.length === 0 || times.some((n) => n < 1 || !Number.isInteger(n)))
      return this.unchecked(line, say`it does not come out at that number`, path?.state ?? null);
    this.counted(
      line,
      times.map((n, size) => n * (by[size] ?? 0)),
      times,
    );
  }

  /** The rows that were worked last, or the last one that is called so. */
  private lastRows(copy: Exclude<RowCopy, { how: "rows" }>): readonly RowLine[] {
    if (copy.how === "last") return this.plains.slice(-copy.rows);
    const label = new RegExp(`\\b${copy.label}`, "i");
    const called = ({ head, headText }: RowLine): boolean => label.test(`${headText} ${head?.label ?? ""}`);
    return this.plains.filter(called).slice(-1);
  }

  protected repeatRows(line: RowLine, named: readonly RowLine[], copy: RowCopy): void {
    const rows = named.map((row, i) => {
      const before = i === 0 ? this.carried : (named[i - 1]?.plan ?? null);
      const plan = row.plan as RowPlan;
      const scheduled = this.scheduled(row, this.onEdge(line, this.withCarried(plan, before)));
      const isOther = copy.how === "rows" && copy.of !== null;
      return isOther ? { ...scheduled, readAs: scheduled.readAs ?? this.readElsewhere(plan) } : scheduled;
    });
    this.carried = carrying(named.at(-1)?.plan ?? null);
    const stated = line.plan?.stated ?? null;
    const byHead = line.head !== null && (line.head.to !== null || line.head.many !== null);
    const [first] = named as readonly [RowLine];
    const isFresh = this.paths.every((path) => path.state === null);
    const paths = isFresh ? [{ ...start, state: this.startOf(first, copy) }] : this.paths;
    if (byHead) return this.step(line, { rows, stated, ...rowsOfHead(line, this.sizes) }, paths);
    const left = copy.until.left && this.rowsUntilLeft(line, rows, copy.until.left, paths);
    const ends = copy.how === "rows" ? copy.ends : null;
    const from = copy.how === "rows" ? (copy.rows[0] ?? 1) : 1;
    const sized =
      ends && [...Array(this.sizes).keys()].map((size) => (forSize(ends, size) ?? from) - from + 1);
    const each = left ?? sized ?? this.rowsOfCopy(first, rows.length, copy);
    if (each.some((n) => n < 1))
      return this.unchecked(line, say`there are as many rows already`, paths[0]?.state);
    const told = copy.times !== null || copy.until.rowsInAll !== null || left !== null;
    const open = !told && /until|for .*(?:cm|in|")/i.test(line.text);
    this.step(line, { rows, stated, each, times: open ? null : each }, paths);
  }

  /** A row of another piece is worked as it was there. */
  private readElsewhere(plan: RowPlan): readonly string[] | null {
    const read = this.ends.readAs(plan);
    this.dependences.push((ends) => String(ends.readAs(plan)) === String(read));
    return read;
  }

  /** `Work as for Back to Row 48`, with no chain of its own: on what the Back began with. */
  private startOf(first: RowLine, copy: RowCopy): State | null {
    const of = copy.how === "rows" && first.head?.from === 1 ? copy.of : null;
    const there = of === null ? null : this.found((ends) => ends.firstOf(of));
    return there ?? this.startState(first.plan as RowPlan, first);
  }

  /** `Rep last 2 rows until 21 sts rem`: as many rows as that takes, by what they do to the count in one turn. */
  private rowsUntilLeft(
    line: RowLine,
    rows: readonly ScheduledRow[],
    left: readonly number[],
    paths: readonly Path[],
  ): number[] | null {
    const [path] = paths;
    const each = Array<number>(this.sizes).fill(rows.length);
    const once: Schedule = { rows, stated: null, each, times: null };
    const after =
      path && this.candidates(line, once, path).find(({ outcome }) => outcome.fits)?.outcome.leaves.state;
    if (!path?.state || !after) return null;
    const found = path.state.map((below, size) => {
      const [now, then] = [stitchesOn(below), stitchesOn(after[size] ?? null)];
      return (rows.length * ((forSize(left, size) ?? now) - now)) / (then - now);
    });
    return found.every((n) => Number.isInteger(n) && n >= 1 && n % rows.length === 0) ? found : null;
  }

  /** How many rows a copy is, one number a size: so many times, or until there are so many. */
  protected rowsOfCopy(first: RowLine, cycle: number, { times, until }: RowCopy): number[] {
    const done = Math.max(0, ...this.byNumber.keys());
    const last = until.extra !== null && until.extra === first.head?.from ? 1 : 0;
    return [...Array(this.sizes).keys()].map((size) => {
      const inAll = until.rowsInAll && forSize(until.rowsInAll, size);
      return inAll === null ? (forSize(times ?? [1], size) ?? 1) * cycle + last : inAll - done;
    });
  }

  /** Rows told only by what they do to the count: "Dec 1 st each end of next 4 rows", "Work even". */
  protected counted(line: RowLine, by: readonly number[], times: readonly number[] | null): void {
    const stated = line.plan?.stated ?? null;
    const candidates = this.paths.flatMap((path) =>
      path.state ? [{ path, outcome: countedOutcome(path.state, by, times, stated) }] : [],
    );
    if (candidates.length === 0)
      return this.unchecked(line, say`nothing tells what these rows are worked on`);
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

type RowCopy = Extract<Copy, { how: "rows" | "last" | "labelled" }>;

const noLines: ReadonlyMap<number, RowLine> = new Map();

function sameLines(
  a: ReadonlyMap<number, RowLine> | undefined,
  b: ReadonlyMap<number, RowLine> | undefined,
): boolean {
  if (a === b || !a || !b) return a === b;
  return a.size === b.size && [...a].every(([n, line]) => b.get(n)?.content === line.content);
}

function stitchesOn(below: Below | null): number {
  return below === null ? 0 : countPlaces(below.strip, (run) => run.sort !== "space");
}
