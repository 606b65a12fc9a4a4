/** A place in a text: line and column from 0, the column in UTF-16 units. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Converts offsets of one text to lines and columns. Line ends are `\n`, `\r\n` and a lone `\r`. */
export class LineIndex {
  private readonly starts: number[] = [0];

  constructor(readonly text: string) {
    const lineEnd = /\r\n|\n|\r/g;
    while (lineEnd.exec(text)) this.starts.push(lineEnd.lastIndex);
  }

  /** How many lines the text has; an empty text has one. */
  get lineCount(): number {
    return this.starts.length;
  }

  /** The place of an offset; offsets outside the text are brought to its nearest end. */
  position(offset: number): Position {
    const at = Math.max(0, Math.min(offset, this.text.length));
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.starts[middle] as number) <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low, column: at - (this.starts[low] as number) };
  }

  /** The offset where a line (from 0) starts. */
  lineStart(line: number): number {
    return this.starts[Math.max(0, Math.min(line, this.starts.length - 1))] as number;
  }
}
