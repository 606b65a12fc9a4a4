import type { MeasureOptions } from "../../measure/materials";
import type { PatternLine } from "../../notation/lines";
import { readWords, type Word } from "../../notation/words";
import type { WorkedPattern } from "../../rules/rule";
import type { Span } from "../../text/span";
import { shift } from "../../text/span";
import { lineAt, type PlacedRow, rowAt } from "../placed-row";
import type { Block } from "../shown/blocks";

/** What is shown of a stretch of text. */
export interface Hover {
  readonly span: Span;
  readonly blocks: readonly Block[];
}

/** One kind of thing that can be pointed at. */
export interface HoverPart {
  /** What is shown at a place; null where the place is not such a thing. */
  at(place: Place): Hover | null;
}

/** Characters; a longer line is read by nobody. */
const longestLine = 20_000;

/** A place in a pattern with what lies there. */
export class Place {
  readonly placed: PlacedRow | null;
  readonly line: PatternLine | null;
  private readWordsOnce: readonly Word[] | undefined;

  constructor(
    readonly pattern: WorkedPattern,
    readonly offset: number,
    readonly options: MeasureOptions,
  ) {
    this.placed = rowAt(pattern, offset);
    this.line = lineAt(pattern, offset);
  }

  get isInHead(): boolean {
    return this.isBeforeInstructions && this.placed?.row.line.head !== null;
  }

  /** In the head, or in what leads a starting chain: `With A, ch 11`. */
  private get isBeforeInstructions(): boolean {
    return this.placed !== null && this.offset < this.placed.row.line.start;
  }

  /** The words of the row, or of the line where it is none; their spans are of the whole text. */
  get words(): readonly Word[] {
    this.readWordsOnce ??= this.readAll();
    return this.readWordsOnce;
  }

  /** The word pointed at. */
  get word(): Word | null {
    const { offset } = this;
    return this.words.find(({ start, end }) => start <= offset && offset < end) ?? null;
  }

  textOf({ start, end }: Span): string {
    return this.pattern.text.slice(start, end);
  }

  private readAll(): Word[] {
    const read = this.placed && !this.isBeforeInstructions ? this.placed.row.line : this.line;
    const { text, start } = read ?? { text: "", start: 0 };
    if (text.length > longestLine) return [];
    return readWords(text, this.pattern.context.lexicon).map((word) => ({ ...word, ...shift(word, start) }));
  }
}
