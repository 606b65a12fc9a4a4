import { listedNumbers } from "../notation/document";
import { keptBy } from "../text/kept-by";
import type { Outcome } from "./outcome";
import { type RowContent, RowLine } from "./pattern";
import type { WorkedRow } from "./worked";

/** `Rows 3 and 5`, with Row 4 on a line of its own: the rows of the line, one by one; none for other lines. */
function rowsApart(line: RowLine, written: ReadonlySet<number | null>): readonly RowLine[] {
  const numbers = line.head ? listedNumbers(line.head) : [];
  const [first] = numbers;
  if (first === undefined || numbers.length < 2) return [];
  for (let n = first; n < (numbers.at(-1) as number); n++) if (!written.has(n)) return [];
  return numbers.map((n) => new RowLine(single(line.content, n), line.start));
}

/** The content of one of the rows that a line lists; the same object for the same two. */
function single(content: RowContent, n: number): RowContent {
  const known = singles(content);
  const one = known.get(n) ?? { ...content, head: content.head && { ...content.head, from: n, to: null } };
  known.set(n, one);
  return one;
}

const singles = keptBy((_: RowContent): Map<number, RowContent> => new Map());

/** Rows that are still to be worked: `Rows 3 and 5` comes round again behind Row 4. */
export class RowsToCome {
  private readonly waiting = new Map<number, RowLine>();
  private readonly asWritten = new Map<RowLine, RowLine>();
  private readonly numbers: ReadonlySet<number | null>;

  constructor(private readonly all: readonly RowLine[]) {
    this.numbers = new Set(all.flatMap(({ head }) => (head ? [head.from, ...listedNumbers(head)] : [])));
  }

  /** The first of the rows of a line; the line itself where it stands for neighbours. */
  first(line: RowLine): RowLine {
    const [first, ...others] = rowsApart(line, this.numbers);
    for (const one of others) this.waiting.set(one.head?.from ?? 0, one);
    for (const one of first ? [first, ...others] : []) this.asWritten.set(one, line);
    return first ?? line;
  }

  /** The row that is due behind one with this number; null where it is written out, or where there is none. */
  next(number: number): RowLine | null {
    const due = this.waiting.get(number + 1) ?? null;
    this.waiting.delete(number + 1);
    return due;
  }

  /** The line that a row was read from. */
  private written<L extends RowLine | null>(line: L): L | RowLine {
    return (line && this.asWritten.get(line)) ?? line;
  }

  /** One row for each line: of those that it lists the first that is not right; where all are, all of them together. */
  byLine<T extends { readonly row: WorkedRow }>(worked: readonly T[]): T[] {
    if (this.asWritten.size === 0) return [...worked];
    const byLine = new Map<RowLine, T[]>();
    for (const one of worked) {
      const line = this.written(one.row.line);
      byLine.set(line, [...(byLine.get(line) ?? []), one]);
    }
    return this.all.flatMap((line) => {
      const own = byLine.get(line) ?? [];
      const shown = own.find(({ row }) => row.result !== "ok") ?? own[0];
      return shown ? [{ ...shown, row: this.on(line, shown.row, own) }] : [];
    });
  }

  private on(line: RowLine, row: WorkedRow, own: readonly { readonly row: WorkedRow }[]): WorkedRow {
    const [below, after] = [this.written(row.below), this.written(row.after)];
    const outcome = row.result === "ok" ? together(own.map((one) => one.row.outcome)) : row.outcome;
    return { ...row, line, below, after, outcome, times: row.times?.map((n) => n * own.length) ?? null };
  }
}

/** Needs and has are those of the first row, what is made is that of the last, as for a range. */
function together(all: readonly (Outcome | null)[]): Outcome | null {
  const [first, last] = [all[0], all.at(-1)];
  if (!first || !last || first === last) return first ?? null;
  const inAll = first.inAll.map((_, size) =>
    all.reduce<number | null>((sum, one) => added(sum, one?.inAll[size] ?? null), 0),
  );
  const worked = all.flatMap((one) => one?.worked ?? []);
  return { ...last, needs: first.needs, has: first.has, inAll, worked };
}

function added(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : a + b;
}
