import type { WorkedPattern, WorkedPiece } from "../../fabric/worked";
import type { PatternLine } from "../../notation/lines";
import { type RowReference, readRowReferences } from "../../notation/row-references";
import type { Resized } from "../../reshape/resize/resize";
import { say } from "../../text/say";
import { shift, type TextEdit } from "../../text/span";
import type { NotedEdit } from "../actions/action";
import { piecesNamedIn, whereNamed } from "../named-pieces";
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
  const told = lines.map((line) => toldAnew(line, pattern, piece, resized));
  return { edits: told.flatMap(({ edits }) => edits), left: told.flatMap(({ left }) => left) };
}

/** `Rnds 1-6: as Rnds 1-6 of the head`. */
function isRowOfOther({ kind, text, start }: PatternLine, { piece: { name, span } }: WorkedPiece): boolean {
  const isOutside = start < span.start || start > span.end;
  return (kind === "row" || kind === "copy") && isOutside && whereNamed(text, name) !== null;
}

function toldAnew(line: PatternLine, pattern: WorkedPattern, piece: WorkedPiece, resized: Resized): Mentions {
  const head = line.content.head?.length ?? 0;
  const references = readRowReferences(line.text).filter(({ start }) => start >= head);
  if (references.length === 0) return { edits: [], left: [] };
  const meant = references.filter((one) => whose(one, line, pattern) === piece);
  if (meant.length === 0) return { edits: [], left: [] };
  const isGone = meant.some(({ numbers }) => numbers.some(({ n }) => resized.map.isGone(n)));
  const label = say`"${short(line.text)}": rows and places`;
  const edits = [...meant.flatMap((one) => placedAnew(one, line, resized)), ...apart(line, resized)];
  return {
    edits: edits.map(({ span, newText }) => ({ span: shift(span, line.start), newText, note: { label } })),
    left: isGone
      ? [say`"${line.text.trim()}" names a row that is gone: look whether the new place is right.`]
      : [],
  };
}

function whose({ numbers }: RowReference, line: PatternLine, pattern: WorkedPattern): WorkedPiece | null {
  const has = (piece: WorkedPiece): boolean => numbers.every(({ n }) => rowNumbered(piece, n) !== undefined);
  const around = pieceAround(pattern, line.start);
  return onlyOne([piecesNamedIn(pattern, line.text), around ? [around] : [], pattern.pieces], has);
}

/** Of the first choices of which one has it: the one, if it is the only one. */
export function onlyOne(
  choices: readonly (readonly WorkedPiece[])[],
  has: (piece: WorkedPiece) => boolean,
): WorkedPiece | null {
  const those = choices.map((some) => some.filter(has)).find((some) => some.length > 0) ?? [];
  return those.length === 1 ? (those[0] ?? null) : null;
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

/** A line as far as a label has room for it. */
export function short(text: string): string {
  const words = text.trim();
  return words.length > 40 ? `${words.slice(0, 37)}…` : words;
}
