import type { WorkedPattern, WorkedPiece, WorkedRow } from "../../fabric/worked";
import type { PatternLine } from "../../notation/lines";
import { type RowReference, readRowReferences } from "../../notation/row-references";
import type { Resized } from "../../reshape/resize/resize";
import { shift, type TextEdit } from "../../text/span";
import type { NotedEdit } from "../actions/action";
import { pieceAround } from "../placed-row";
import { rowNumbered } from "../wake/meant-rows";

/** What prose says of the rows of a piece, told anew. */
export interface Mentions {
  readonly edits: readonly NotedEdit[];
  /** Sentences that name rows of which it is not plain whose they are, or that are gone. */
  readonly left: readonly string[];
}

/** Placements, and rows that are named, in prose and in the rows of other pieces. */
export function mentionsOf(pattern: WorkedPattern, piece: WorkedPiece, resized: Resized): Mentions {
  const lines = pattern.lines.filter(
    (line) => /\d/.test(line.text) && (line.kind === "prose" || isRowOfOther(line, piece)),
  );
  const told = lines.flatMap((line) => [toldAnew(line, pattern, piece, resized), counted(line, resized)]);
  return { edits: told.flatMap(({ edits }) => edits), left: told.flatMap(({ left }) => left) };
}

/** `Rnds 1-6: as Rnds 1-6 of the head`. */
function isRowOfOther({ kind, text, start }: PatternLine, { piece: { name, span } }: WorkedPiece): boolean {
  const isOutside = start < span.start || start > span.end;
  return (
    (kind === "row" || kind === "copy") &&
    isOutside &&
    name.length > 1 &&
    text.toLowerCase().includes(name.toLowerCase())
  );
}

function toldAnew(line: PatternLine, pattern: WorkedPattern, piece: WorkedPiece, resized: Resized): Mentions {
  const head = line.content.head?.length ?? 0;
  const references = readRowReferences(line.text).filter(({ start }) => start >= head);
  if (references.length === 0) return { edits: [], left: [] };
  const meant = references.filter((one) => whose(one, line, pattern) === piece);
  if (meant.length === 0) return { edits: [], left: [] };
  const isGone = meant.some(({ numbers }) => numbers.some(({ n }) => resized.map.isGone(n)));
  const label = `"${short(line.text)}": rows and places`;
  const edits = [...meant.flatMap((one) => placedAnew(one, line, resized)), ...apart(line, resized)];
  return {
    edits: edits.map(({ span, newText }) => ({ span: shift(span, line.start), newText, note: { label } })),
    left: isGone
      ? [`"${line.text.trim()}" names a row that is gone: look whether the new place is right.`]
      : [],
  };
}

/** The one piece that has the row: of those that the line names, else the one it stands in, else of all. */
function whose({ numbers }: RowReference, line: PatternLine, pattern: WorkedPattern): WorkedPiece | null {
  const has = (piece: WorkedPiece): boolean => numbers.every(({ n }) => rowNumbered(piece, n) !== undefined);
  const said = line.text.toLowerCase();
  const isNamed = ({ piece: { name } }: WorkedPiece): boolean =>
    name.length > 1 && said.includes(name.toLowerCase());
  const around = pieceAround(pattern, line.start);
  const choices = [pattern.pieces.filter(isNamed), around ? [around] : [], pattern.pieces];
  for (const some of choices) {
    const those = some.filter(has);
    if (those.length > 0) return those.length === 1 ? (those[0] ?? null) : null;
  }
  return null;
}

/** `between R10 and R11` is a place, which goes up and down with the piece; other numbers are of rows. */
function placedAnew({ numbers, start }: RowReference, { text }: PatternLine, { map }: Resized): TextEdit[] {
  const [first, second] = numbers;
  const isBetween =
    /\bbetween\s+(?:the\s+)?$/i.test(text.slice(0, start)) && second?.n === (first?.n ?? 0) + 1;
  const behind = isBetween ? map.behind(first?.n ?? 0) : 0;
  return numbers.flatMap(({ n, ...span }, i) => {
    const to = isBetween ? behind + i : map.numberOf(n);
    return to === n ? [] : [{ span: { start: span.start, end: span.end }, newText: `${to}` }];
  });
}

/** `7 sts apart`, in a line that places something. */
function apart({ text }: PatternLine, { widest, before }: Resized): TextEdit[] {
  return [...text.matchAll(/\b(\d+)(?=\s*(?:sts?|stitches)\s+apart\b)/gi)].flatMap(({ 0: digits, index }) => {
    const to = Math.max(Math.round((Number(digits) * widest) / before.widest), 1);
    const span = { start: index, end: index + digits.length };
    return to === Number(digits) ? [] : [{ span, newText: `${to}` }];
  });
}

/** `the 16 eyelets`, where a row had 16 spaces and has another number now. */
function counted(line: PatternLine, resized: Resized): Mentions {
  const now = new Map(spacesIn(resized).map(({ were, are }) => [were, are]));
  const edits = [...line.text.matchAll(/\b(\d+)(?=\s+(?:eyelets?|holes?|spaces?|sps?)\b)/gi)].flatMap(
    ({ 0: digits, index }) => {
      const to = now.get(Number(digits));
      const span = { start: line.start + index, end: line.start + index + digits.length };
      const note = { label: `"${short(line.text)}": eyelets` };
      return to === undefined ? [] : [{ span, newText: `${to}`, note }];
    },
  );
  return { edits, left: [] };
}

/** A row whose number of spaces is another now. */
export interface SpacesOfRow {
  readonly row: WorkedRow;
  readonly were: number;
  readonly are: number;
}

export function spacesIn({ rows, after }: Resized): SpacesOfRow[] {
  const there = rows.filter(({ row }) => row.state !== "gone");
  return there.flatMap(({ row }, i) => {
    const now = after.rows[i];
    const [were, are] = [spacesOf(row.row), now ? spacesOf(now) : 0];
    return row.state === "kept" && were > 0 && were !== are ? [{ row: row.row, were, are }] : [];
  });
}

function spacesOf({ outcome }: WorkedRow): number {
  const kinds = [...(outcome?.counted[0]?.kinds ?? [])];
  return kinds.reduce((sum, [kind, n]) => sum + (/\bsp/.test(kind) ? n : 0), 0);
}

function short(text: string): string {
  const words = text.trim();
  return words.length > 40 ? `${words.slice(0, 37)}…` : words;
}
