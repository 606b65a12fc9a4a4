import type { WorkedRow } from "../../fabric/worked";
import type { PatternLine } from "../../notation/lines";
import type { WorkedPattern } from "../../rules/rule";
import type { Span } from "../../text/span";
import { lineAt, type PlacedRow, rowAtOrBefore } from "../placed-row";

/** What may stand before the caret where a row is about to begin: nothing, `R`, `Rnd 7`, `Rnd 7:`. */
const rowStart = /^\s*(?:\p{L}{1,6}\.?\s*#?\s*)?\d{0,6}\s*[:.)]?\s*$/u;

/** Where somebody writes, with what stands around. */
export class WritingPlace {
  readonly line: PatternLine;
  /** The row that is being written; null outside the rows. */
  readonly current: PlacedRow | null;
  /** The row above the line, of the same piece. */
  readonly above: PlacedRow | null;

  constructor(
    readonly pattern: WorkedPattern,
    readonly offset: number,
  ) {
    this.line = lineAt(pattern, offset) as PatternLine;
    this.current = this.rowHere();
    const { start } = this.line;
    this.above = start === 0 ? null : rowAtOrBefore(pattern, start - 1);
  }

  /** The line up to the caret, and from there on. */
  get before(): string {
    return this.line.text.slice(0, this.offset - this.line.start);
  }

  get behind(): string {
    return this.line.text.slice(this.offset - this.line.start);
  }

  /** Behind the head of a row, or where the instructions of a starting chain are. */
  get isInRow(): boolean {
    return this.current !== null && this.offset >= this.current.row.line.start;
  }

  /** Where a row, a heading or a line of the front matter may begin. */
  get isAtStart(): boolean {
    return !this.isInRow && rowStart.test(this.before);
  }

  /** What was written of the instructions up to the caret. */
  get written(): string {
    const from = this.current?.row.line.start ?? this.offset;
    return this.pattern.text.slice(Math.min(from, this.offset), this.offset);
  }

  /** The rows of the piece above the line. */
  get rowsAbove(): readonly WorkedRow[] {
    const { above } = this;
    return above ? above.piece.rows.slice(0, above.piece.rows.indexOf(above.row) + 1) : [];
  }

  /** The word before the caret; empty behind a blank or a number. */
  get word(): Span {
    const typed = /(?:\p{L}[\p{L}\p{N}-]*)?$/u.exec(this.before)?.[0] ?? "";
    return { start: this.offset - typed.length, end: this.offset };
  }

  /** As much before the caret as a phrase begins with: `in ne` of `in next st`. */
  beginningOf(phrase: string): Span {
    const { before, offset } = this;
    const said = before.toLowerCase();
    for (let n = Math.min(phrase.length, said.length); n > 0; n--) {
      const isApart = !/[\p{L}\p{N}]/u.test(said[said.length - n - 1] ?? "");
      if (isApart && said.endsWith(phrase.slice(0, n).toLowerCase()))
        return { start: offset - n, end: offset };
    }
    return this.word;
  }

  private rowHere(): PlacedRow | null {
    const { pattern, offset, line } = this;
    const last = rowAtOrBefore(pattern, offset);
    if (!last) return null;
    const { start, end } = last.row.line.span;
    const isOnLine = start >= line.start || offset <= end;
    return isOnLine && /^[ \t]*$/.test(pattern.text.slice(end, offset)) ? last : null;
  }
}
