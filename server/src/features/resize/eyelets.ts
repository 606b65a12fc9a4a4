import type { WorkedPattern, WorkedPiece, WorkedRow } from "../../fabric/worked";
import { type Sentence, sentencesOf } from "../../notation/assembly";
import type { PatternLine } from "../../notation/lines";
import type { Resized } from "../../reshape/resize/resize";
import { say } from "../../text/say";
import { shift } from "../../text/span";
import type { NotedEdit } from "../actions/action";
import { piecesNamedIn } from "../named-pieces";
import { pieceAround } from "../placed-row";
import { type Mentions, onlyOne, short } from "./mentions";

/** What goes through eyelets, and has none. */
export const cord = /\b(?:cord|drawstring|tie|lace|string|strap)s?\b/i;

/** `the 16 eyelets` in prose, where a row of the piece had 16 spaces and has another number now. */
export function eyeletsOf(pattern: WorkedPattern, piece: WorkedPiece, resized: Resized): Mentions {
  const now = new Map(spacesIn(resized).map(({ were, are }) => [were, are]));
  const found = now.size === 0 ? [] : pattern.lines.flatMap(countsIn).filter(({ n }) => now.get(n));
  const meant = found.map((one) => ({ ...one, owner: ownerOf(one, pattern) }));
  const isOpen = ({ owner, n, sentence }: (typeof meant)[number]): boolean =>
    owner === null && mayBe(piece, n, piecesSaid(sentence, pattern));
  return {
    edits: meant.filter(({ owner }) => owner === piece).map((one) => editOf(one, now.get(one.n) ?? one.n)),
    left: meant
      .filter(isOpen)
      .map(
        ({ sentence, n }) =>
          say`"${sentence.text.trim()}" may mean another piece: look whether ${n} is right.`,
      ),
  };
}

/** A number of eyelets that a sentence tells; where its digits are in its line. */
interface EyeletCount {
  readonly line: PatternLine;
  readonly sentence: Sentence;
  readonly n: number;
  readonly digits: { readonly start: number; readonly end: number };
}

function countsIn(line: PatternLine): EyeletCount[] {
  const told =
    line.kind === "prose"
      ? [...line.text.matchAll(/\b(\d+)(?=\s+(?:eyelets?|holes?|spaces?|sps?)\b)/gi)]
      : [];
  return told.flatMap(({ 0: typed, index }) => {
    const sentence = sentencesOf(line.content).find(({ start, end }) => start <= index && index < end);
    return sentence
      ? [{ line, sentence, n: Number(typed), digits: { start: index, end: index + typed.length } }]
      : [];
  });
}

/** Of the pieces that the sentence names, cords apart; where it names none, of the one it stands in, else of all. */
function ownerOf({ line, sentence, n }: EyeletCount, pattern: WorkedPattern): WorkedPiece | null {
  const said = piecesSaid(sentence, pattern);
  const around = pieceAround(pattern, line.start);
  const choices = said.length > 0 ? [said] : [around ? [around] : [], pattern.pieces];
  return onlyOne(choices, (piece) => hasSpaces(piece, n));
}

function mayBe(piece: WorkedPiece, n: number, said: readonly WorkedPiece[]): boolean {
  return hasSpaces(piece, n) && (said.length === 0 || said.includes(piece));
}

function piecesSaid({ text }: Sentence, pattern: WorkedPattern): readonly WorkedPiece[] {
  return piecesNamedIn(pattern, text).filter(({ piece }) => !cord.test(piece.name));
}

function editOf({ line, digits }: EyeletCount, to: number): NotedEdit {
  return {
    span: shift(digits, line.start),
    newText: `${to}`,
    note: { label: say`"${short(line.text)}": eyelets` },
  };
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

function hasSpaces({ rows }: WorkedPiece, n: number): boolean {
  return rows.some((row) => spacesOf(row) === n);
}

function spacesOf({ outcome }: WorkedRow): number {
  const kinds = [...(outcome?.counted[0]?.kinds ?? [])];
  return kinds.reduce((sum, [kind, n]) => sum + (/\bsp/.test(kind) ? n : 0), 0);
}
