import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import type { PatternLine } from "../../notation/lines";
import type { WorkedPattern } from "../../rules/rule";
import { aligned } from "./alignment";

/** A row before a change, and the same row, with the same instructions, after it. */
export interface RowTwins {
  readonly before: WorkedRow;
  readonly now: WorkedRow;
  readonly piece: WorkedPiece;
}

/** A line that is no row, before a change and after it. */
export interface LineTwins {
  readonly before: PatternLine;
  readonly now: PatternLine;
}

/** What the hand of the designer left alone between two versions of a pattern. */
export interface Twins {
  readonly rows: readonly RowTwins[];
  readonly lines: readonly LineTwins[];
  /** The row as it is now; undefined for one that was changed or is gone. */
  readonly rowNow: ReadonlyMap<WorkedRow, WorkedRow>;
  /** Rows of now that were there before. */
  readonly rowsNow: ReadonlySet<WorkedRow>;
  /** For a piece as it is now, the one of the same name before, of the same place among those of this name. */
  readonly pieceBefore: ReadonlyMap<WorkedPiece, WorkedPiece>;
}

export function twinsOf(before: WorkedPattern, now: WorkedPattern): Twins {
  const was = aligned(before.lines.map(said), now.lines.map(said));
  const rowsBefore = rowsByLine(before);
  const rows: RowTwins[] = [];
  const lines: LineTwins[] = [];
  const rowsNow = rowsByLine(now);
  for (let index = 0; index < was.length; index++) {
    const line = now.lines[index] as PatternLine;
    const at = was[index];
    if (at == null) continue;
    const [own, old] = [rowsNow.get(index), rowsBefore.get(at)];
    if (own && old && own.row.line.text === old.row.line.text)
      rows.push({ before: old.row, now: own.row, piece: own.piece });
    if (!own && !old && line.kind !== "blank")
      lines.push({ before: before.lines[at] as PatternLine, now: line });
  }
  const rowNow = new Map(rows.map((pair) => [pair.before, pair.now]));
  return { rows, lines, rowNow, rowsNow: new Set(rowNow.values()), pieceBefore: piecesBefore(before, now) };
}

/** A row is the same row when its number changes. */
function said({ text, head }: PatternLine): string {
  return head ? text.slice(head.length) : text;
}

interface Placed {
  readonly row: WorkedRow;
  readonly piece: WorkedPiece;
}

/** The rows by the index of the line they begin in. */
function rowsByLine({ lines, pieces }: WorkedPattern): Map<number, Placed> {
  const found = new Map<number, Placed>();
  let index = 0;
  for (const piece of pieces) {
    for (const row of piece.rows) {
      while (index < lines.length && (lines[index] as PatternLine).end < row.line.span.start) index++;
      found.set(index, { row, piece });
    }
  }
  return found;
}

function piecesBefore(before: WorkedPattern, now: WorkedPattern): Map<WorkedPiece, WorkedPiece> {
  const named = new Map(namedPieces(before));
  const pairs = namedPieces(now).map(([name, piece]) => [piece, named.get(name)] as const);
  return new Map(pairs.filter((pair): pair is [WorkedPiece, WorkedPiece] => pair[1] !== undefined));
}

/** Each piece by its name, with how often the name came before. */
function namedPieces({ pieces }: WorkedPattern): [string, WorkedPiece][] {
  const times = new Map<string, number>();
  return pieces.map((piece) => {
    const { name } = piece.piece;
    const time = times.get(name) ?? 0;
    times.set(name, time + 1);
    return [`${time} ${name}`, piece];
  });
}
