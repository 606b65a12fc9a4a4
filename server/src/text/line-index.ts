/** A place in a text: line and column from 0, the column in UTF-16 units. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Converts offsets of one text to lines and columns. Line ends are `\n`, `\r\n` and a lone `\r`. */
export class LineIndex {
  private readonly starts: readonly number[];

  constructor(readonly text: string) {
    this.starts = text.includes("\r") ? startsBehindAny(text) : startsBehindNewLines(text);
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

/** Most texts have one sort of line end, which is looked for much faster than any of them. */
function startsBehindNewLines(text: string): number[] {
  const starts = [0];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return starts;
}

function startsBehindAny(text: string): number[] {
  const starts = [0];
  const lineEnd = /\r\n|\n|\r/g;
  while (lineEnd.test(text)) starts.push(lineEnd.lastIndex);
  return starts;
}
