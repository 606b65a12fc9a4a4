import { Lately } from "../text/lately";
import { ownCopy } from "../text/own-copy";
import { sharedEnds } from "../text/shared-ends";
import type { Span } from "../text/span";
import { contentOf, type LineContent, type RowHead, splitGlued } from "./document";

/** A line of a pattern at its place. Lines with the same text share one content. */
export class PatternLine implements Span {
  constructor(
    /** What the line is wherever it stands: things found out about it can be kept by it. */
    readonly content: LineContent,
    readonly start: number,
  ) {}

  get end(): number {
    return this.start + this.content.text.length;
  }

  get kind(): LineContent["kind"] {
    return this.content.kind;
  }

  get text(): string {
    return this.content.text;
  }

  get head(): RowHead | null {
    return this.content.head;
  }

  movedBy(offset: number): PatternLine {
    return new PatternLine(this.content, this.start + offset);
  }
}

/** The index of the first line that starts at an offset or behind it. */
function firstFrom(lines: readonly PatternLine[], offset: number): number {
  let [low, high] = [0, lines.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((lines[middle] as PatternLine).start < offset) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A longer line is no row that is worked: to remember each version of it would cost more than to read it. */
const lengthKept = 20_000;

/** Reads one version of a text after another; lines that an edit left alone are not read again. */
export class LineReader {
  private text = "";
  private lines: readonly PatternLine[] = [new PatternLine(contentOf(""), 0)];
  /** How many lines of the last version were taken over from the one before, at its start and at its end. */
  kept = { head: 0, tail: 0 };

  constructor(private readonly contents = new Lately<readonly LineContent[]>(200)) {}

  apart(): LineReader {
    const other = new LineReader(this.contents.apart());
    other.text = this.text;
    other.lines = this.lines;
    return other;
  }

  read(text: string): readonly PatternLine[] {
    const { start, end } = sharedEnds(this.text, text);
    if (start === text.length && start === this.text.length) {
      this.kept = { head: this.lines.length, tail: 0 };
      return this.lines;
    }
    const tail = this.text.length - end;
    const changed = this.linesIn(text.slice(0, text.length - end), start, end > 0);
    const before = this.lines.slice(0, firstFrom(this.lines, start));
    const after = end === 0 ? [] : this.lines.slice(firstFrom(this.lines, tail));
    const moved = text.length - this.text.length;
    this.lines = before.concat(changed, moved === 0 ? after : after.map((line) => line.movedBy(moved)));
    this.text = text;
    this.kept = { head: before.length, tail: after.length };
    return this.lines;
  }

  /** The lines of a text from an offset on; where more lines follow, nothing stands behind the last line end. */
  private linesIn(text: string, from: number, hasMore: boolean): PatternLine[] {
    const lines: PatternLine[] = [];
    const lineEnd = /\r\n|\n|\r|$/g;
    for (let start = from; ; ) {
      lineEnd.lastIndex = start;
      const match = lineEnd.exec(text) as RegExpExecArray;
      if (match[0] === "" && hasMore) return lines;
      this.contents.makeRoomFor(lines.length);
      for (const content of this.contentsOf(text.slice(start, match.index))) {
        lines.push(new PatternLine(content, start));
        start += content.text.length;
      }
      if (match[0] === "") return lines;
      start = match.index + match[0].length;
    }
  }

  private contentsOf(text: string): readonly LineContent[] {
    if (text.length > lengthKept) return splitGlued(text).map(contentOf);
    let found = this.contents.get(text);
    if (!found) {
      const own = ownCopy(text);
      found = splitGlued(own).map(contentOf);
      this.contents.set(own, found);
    }
    return found;
  }
}

/** The lines of a pattern, each with what it is. */
export function readLines(text: string): readonly PatternLine[] {
  return new LineReader().read(text);
}
